"""Tests of the logbook."""
