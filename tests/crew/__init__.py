"""Tests of the crew: people, keys, authority and roster."""
