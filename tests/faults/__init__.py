"""What a tablet can do to a journal, done on purpose and counted."""
