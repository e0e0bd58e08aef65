"""A checklist on paper, to be filled in by hand."""
