"""People and their keys, the sign-off, and the record that is made of it."""
