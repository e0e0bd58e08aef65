"""What a checklist asks, and how one is read from its text."""
