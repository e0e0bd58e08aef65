"""Backups, hand-overs, what is hurt, and the copy on leaving."""
