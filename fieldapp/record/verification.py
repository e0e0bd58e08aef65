"""Whether a record is sound: whole, signed by two people in order, and as they signed it.

A library's verdict on each signature is one part of it. The rest is our own policy: which
revisions there may be, who signs as what, and what a signature may change (see `inspection`).
"""

import logging
from collections.abc import Iterator
from contextlib import contextmanager

from fieldapp.crew.roster import Roster
from fieldapp.errors import FieldAppError
from fieldapp.record.findings import Findings

DAMAGED = "The file is damaged and cannot be read to its end; get it again from who sent it."


class UnreadableRecordError(FieldAppError):
    """A file is no PDF at all."""

    def __init__(self) -> None:
        super().__init__("the file is not a PDF; choose the record that the tablet handed over")


def verify(pdf: bytes, roster: Roster | None = None) -> Findings:
    """Return what is found about a record; without a roster its authority stays unknown."""
    from fieldapp.record.inspection.policy import examined

    if not pdf.startswith(b"%PDF-"):
        raise UnreadableRecordError
    try:
        with _library_is_silent():
            return examined(pdf, roster)
    except Exception:  # noqa: BLE001 - a damaged or forged file can fail anywhere in the reader
        return Findings((DAMAGED,))


@contextmanager
def _library_is_silent() -> Iterator[None]:
    """Keep the library from logging what is wrong: the findings say it."""
    loggers = [logging.getLogger(name) for name in ("pyhanko", "pyhanko_certvalidator")]
    levels = [logger.level for logger in loggers]
    for logger in loggers:
        logger.setLevel(logging.CRITICAL + 1)
    try:
        yield
    finally:
        for logger, level in zip(loggers, levels, strict=True):
            logger.setLevel(level)
