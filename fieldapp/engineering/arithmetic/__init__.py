"""Arithmetic that the lists need between a reading and its limit."""
