"""Copies on a card, jobs handed over and taken in, and what a person states to go on."""
