"""Deciding: how near a limit is too near, and the limits and classes that others publish."""
