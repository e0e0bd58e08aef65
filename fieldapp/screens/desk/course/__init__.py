"""A hookup with the lists that follow it, and what is in force."""
