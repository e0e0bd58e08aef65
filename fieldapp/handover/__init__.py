"""Carries journals to another place: a backup, or a job handed to another tablet."""
