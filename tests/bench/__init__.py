"""Our speed beside that of an outside thing, measured in the same run."""
