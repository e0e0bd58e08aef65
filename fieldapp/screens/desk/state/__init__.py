"""What the desk holds between two touches, whom it trusts, and what works on behind it."""
