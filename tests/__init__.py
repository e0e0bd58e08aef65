"""Checks of the product, one folder for each of its packages."""
