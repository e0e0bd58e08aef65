"""Formulas of the work: vacuum, moisture, oil, hydraulics, drying."""
