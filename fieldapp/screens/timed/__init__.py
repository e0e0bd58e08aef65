"""Traces and holds: what is read while a clock runs."""
