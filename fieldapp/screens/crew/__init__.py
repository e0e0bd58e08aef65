"""Screens of people and keys: who there is, a key of one's own, a secret, what the office sent."""
