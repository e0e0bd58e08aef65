"""Keeps every event of a job on disk so that none that was acknowledged is lost."""
