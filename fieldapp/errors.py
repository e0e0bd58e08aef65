"""The one exception that every failure of the world is derived from."""


class FieldAppError(Exception):
    """Something outside the program failed; the message says what and what to do."""
