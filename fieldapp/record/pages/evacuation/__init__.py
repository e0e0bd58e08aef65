"""Evacuation and hold on paper, with their curves."""
