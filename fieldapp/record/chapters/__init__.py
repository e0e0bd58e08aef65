"""What a record says, chapter by chapter, as plain data without layout."""
