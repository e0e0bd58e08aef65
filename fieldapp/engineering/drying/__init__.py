"""Drying: what was taken out, what is left to take, and how long it will last."""
