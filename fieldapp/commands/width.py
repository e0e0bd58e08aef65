"""How wide lines are: as wide as the terminal, and no wider than they read well."""

import shutil
import sys

NARROWEST = 40


def width(most: int) -> int:
    """Return how wide lines may be; a file or another program is given them at their best."""
    if not sys.stdout.isatty():
        return most
    return max(NARROWEST, min(most, shutil.get_terminal_size((most, 24)).columns))
