"""The weeks after a hookup: its lists, the logbook, and what is in force."""
