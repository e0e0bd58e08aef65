"""Whether a record is sound: whole, signed by two people in order, and as they signed it.

A library's verdict on each signature is one part of it. The rest is our own policy: which
revisions there may be, who signs as what, what a signature may change, and whether the pages show
the attached data (see `inspection`).
"""

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime

from fieldapp.crew.roster import Roster
from fieldapp.errors import FieldAppError
from fieldapp.record.findings import Findings

DAMAGED = "The file is damaged and cannot be read to its end; get it again from who sent it."
_UNPACKS_HUGE = (
    "A part of the file unpacks to far more than a record holds; get it again from who sent it."
)
_BEGINS_LATE = (
    "Something stands in the file before the document begins; get it again from who sent it."
)
_BEGINNING = b"%PDF-"
_NEAR = 1024  # that far down most viewers still look for the beginning


class UnreadableRecordError(FieldAppError):
    """A file is no PDF at all."""

    def __init__(self) -> None:
        super().__init__("the file is not a PDF; choose the record that the tablet handed over")


def verify(
    pdf: bytes,
    roster: Roster | None = None,
    *,
    now: datetime | None = None,
    compares_pages: bool = True,
) -> Findings:
    """Return what is found about a record; without a roster its authority stays unknown.

    `now` lets it note what has run out since. Comparing the pages means making them again from
    the attached data, and looking at every part of the document by itself; whoever has just made
    them can leave it out.
    """
    from pyhanko.pdf_utils.misc import PdfDecodeLimitError

    from fieldapp.record.inspection.policy import examined

    if _BEGINNING not in pdf[:_NEAR]:
        raise UnreadableRecordError
    if not pdf.startswith(_BEGINNING):
        return Findings((_BEGINS_LATE,))
    found: list[str] = []
    try:
        with _library_is_silent():
            return examined(pdf, roster, now, found, compares_pages=compares_pages)
    except PdfDecodeLimitError:
        return Findings((*found, _UNPACKS_HUGE))
    except Exception:  # noqa: BLE001 - a damaged or forged file can fail anywhere in the reader
        return Findings(tuple(found) or (DAMAGED,))


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
