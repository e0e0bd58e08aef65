"""Renders a job's record at any time: its JSON, and the PDF that carries it, ready to be signed."""

import zlib
from collections.abc import Mapping
from datetime import datetime
from functools import cache
from importlib.metadata import version as version_of

from fieldapp.job.job import Job
from fieldapp.record.chapters.shapes.shapes_of_sources import Content
from fieldapp.record.content import content_from, content_of, fingerprint_of, json_of
from fieldapp.record.pages.kit.paper import A4, SHEETS, Sheet
from fieldapp.record.pdf import render
from fieldapp.record.structure import prepare
from fieldapp.record.tagging import tagged


def record_of(
    job: Job,
    at: datetime,
    head: tuple[int, str],
    version: str,
    *,
    notices: tuple[str, ...] = (),
    sheet: Sheet = A4,
    keys: Mapping[str, str] | None = None,
    pictures: Mapping[str, bytes] | None = None,
) -> tuple[bytes, bytes]:
    """Return the record of a job as it stands at `at`: its JSON, and the PDF to sign.

    `head` is the number and the hash of the journal's last line, `keys` the fingerprints of the
    signers' keys by name, `pictures` the photos as small JPEGs by the SHA-256 of their files.
    Equal arguments give equal bytes.
    """
    content = content_of(
        job, at, head=head, version=version, libraries=libraries(), notices=notices,
        paper=sheet.name, keys=keys, pictures=pictures,
    )  # fmt: skip
    record_json = json_of(content)
    return record_json, _document(content, record_json)


def rebuilt(record_json: bytes) -> bytes:
    """Return the PDF to sign, made again from nothing but the data that is attached to it.

    What drew the record (`drawn_with`) gives the same bytes again; data that no record can have
    raises `UnreadableDataError`.
    """
    return _document(content_from(record_json), record_json)


def drawn_with(record_json: bytes) -> tuple[str, ...]:
    """Return the program and the libraries that drew a record, each with its version."""
    heading = content_from(record_json).heading
    return (heading.program, *heading.libraries)


@cache
def libraries() -> tuple[str, ...]:
    """Return the libraries that have a say in the bytes of a page, as they are here."""
    found = [f"{name} {version_of(name)}" for name in ("pikepdf", "pyHanko", "reportlab")]
    return (*found, f"zlib {zlib.ZLIB_RUNTIME_VERSION}")


def _document(content: Content, record_json: bytes) -> bytes:
    rendered = render(
        content, fingerprint=fingerprint_of(record_json), sheet=SHEETS[content.heading.paper]
    )
    pdf = prepare(rendered.pdf, record_json, technician=rendered.technician, lead=rendered.lead)
    return tagged(pdf, rendered.tags)
