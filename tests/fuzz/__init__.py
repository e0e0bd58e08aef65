"""Mutated checklists: none may end in a traceback, and messages carry the right line."""
