"""Tests of the record: its content, pages, signatures and verification."""
