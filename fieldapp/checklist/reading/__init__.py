"""Reads a checklist or job sheet from TOML, and says what is wrong in it, line by line."""
