"""Tests of the checklists that are shipped, played as a crew would."""
