"""Tests of what the office does for its crews."""
