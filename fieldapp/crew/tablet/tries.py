"""Opens a key with a secret, and keeps the count of wrong ones on the disk beside the key.

A try is counted before the secret is stretched, and taken back when it was right: a tablet that
is switched off in between has counted it.
"""

import json
from datetime import datetime, timedelta
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric import ec

from fieldapp.crew.keys import UnreadableKeyError, WrongSecretError, read_key
from fieldapp.crew.tablet.patience import SLIPS, Tries, after_wrong, next_try, seen
from fieldapp.errors import FieldAppError
from fieldapp.whole import OWN, write_whole

_UNREADABLE = SLIPS + 4
_MINUTE = 60


class TooSoonError(FieldAppError):
    """A secret was given before the wait after wrong ones was over."""

    def __init__(self, wrong: int, until: datetime, now: datetime) -> None:
        super().__init__(
            f"{wrong} wrong secrets in a row: the next try is at {until:%H:%M:%S}, "
            f"in {span_words(until - now)}; this one was not looked at"
        )
        self.until = until


class WrongAgainError(WrongSecretError):
    """A secret was wrong, and the next one has to wait."""

    def __init__(self, wrong: int, until: datetime, now: datetime) -> None:
        FieldAppError.__init__(
            self,
            f"the secret does not open this key ({wrong} wrong in a row); "
            f"the next try is at {until:%H:%M:%S}, in {span_words(until - now)}",
        )
        self.until = until


def open_key(path: Path, secret: str, now: datetime) -> ec.EllipticCurvePrivateKey:
    """Return the private key in a key file, or refuse a wrong secret or one given too soon."""
    if not path.is_file():
        raise UnreadableKeyError(path)
    tries = tries_at(path, now)
    until = next_try(tries)
    if until is not None and now < until:
        keep_tries(path, tries)
        raise TooSoonError(tries.wrong, until, now)
    counted = after_wrong(tries, now)
    keep_tries(path, counted)
    try:
        key = read_key(path, secret)
    except UnreadableKeyError:
        keep_tries(path, tries)
        raise
    except WrongSecretError as reason:
        until = next_try(counted)
        if until is not None:
            raise WrongAgainError(counted.wrong, until, now) from reason
        raise
    _place(path).unlink(missing_ok=True)
    return key


def tries_at(path: Path, now: datetime) -> Tries:
    """Return the wrong secrets given for a key file; a count that cannot be read is a high one."""
    try:
        kept = json.loads(_place(path).read_bytes())
        wrong, last = kept["wrong"], datetime.fromisoformat(kept["last"])
        if not isinstance(wrong, int) or wrong < 1 or last.tzinfo is None:
            raise ValueError(wrong)  # noqa: TRY301 - one way for all that cannot be read
    except FileNotFoundError:
        return Tries()
    except (OSError, ValueError, KeyError, TypeError):
        return Tries(_UNREADABLE, now)
    return seen(Tries(wrong, last), now)


def keep_tries(path: Path, tries: Tries) -> None:
    """Keep the count beside the key; nothing is kept of none."""
    if tries.last is None:
        _place(path).unlink(missing_ok=True)
        return
    kept = {"wrong": tries.wrong, "last": tries.last.isoformat()}
    write_whole(_place(path), json.dumps(kept).encode(), OWN)


def span_words(wait: timedelta) -> str:
    """Return a wait in whole minutes or seconds, never less than it is.

    >>> span_words(timedelta(seconds=30)), span_words(timedelta(seconds=61))
    ('30 s', '2 min')
    """
    seconds = -(-wait // timedelta(seconds=1))
    return f"{seconds} s" if seconds <= _MINUTE else f"{-(-seconds // _MINUTE)} min"


def _place(path: Path) -> Path:
    return path.with_suffix(".tries")
