"""The people of a crew, their keys and how these are unlocked."""
