"""Secrets, asked for at the terminal, where nobody sees them typed."""

import warnings
from getpass import GetPassWarning

import click

from fieldapp.crew.keys import SHORTEST_SECRET, ShortSecretError
from fieldapp.errors import FieldAppError


class NoTerminalError(FieldAppError):
    """A secret is needed, and there is nowhere to type it unseen."""

    def __init__(self, words: str) -> None:
        super().__init__(f"{words}: no terminal to type it unseen: run this in a terminal window")


class SecretsDifferError(FieldAppError):
    """A new secret was not typed twice alike."""

    def __init__(self) -> None:
        super().__init__("the two secrets differ; nothing was made: begin again")


def secret_of(whose: str) -> str:
    """Return the secret of somebody whose key is here already."""
    return _typed(f"Secret of {whose}")


def new_secret(whose: str) -> str:
    """Return a secret for a new key, once it is long enough and was typed twice alike."""
    secret = _typed(f"A secret for the key of {whose}, at least {SHORTEST_SECRET} characters")
    if len(secret) < SHORTEST_SECRET:
        raise ShortSecretError
    if _typed("The same once more") != secret:
        raise SecretsDifferError
    return secret


def _typed(words: str) -> str:
    with warnings.catch_warnings():
        warnings.simplefilter("error", GetPassWarning)  # else it would be read in plain sight
        try:
            secret: str = click.prompt(words, hide_input=True, err=True)
        except GetPassWarning as cause:
            raise NoTerminalError(words) from cause
    return secret
