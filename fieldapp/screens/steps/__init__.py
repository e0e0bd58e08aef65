"""The steps of a phase, and one step as it stands."""
