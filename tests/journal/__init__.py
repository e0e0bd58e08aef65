"""Tests of the journal: canonical form, chain, files, faults and documents."""
