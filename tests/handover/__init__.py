"""Tests of backups and of jobs handed to another tablet."""
