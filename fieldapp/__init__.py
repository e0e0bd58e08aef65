"""Hooking up an oil-drying skid to an energised transformer, step by step, with a signed record."""
