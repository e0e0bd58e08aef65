"""The sign-off: what was not as planned, and the two signatures."""
