"""Tests of what a tablet does for its crew."""
