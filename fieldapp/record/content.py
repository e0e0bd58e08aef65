"""Everything a record says of a job, as plain data, and the one way to write it as JSON.

::

    content = content_of(job, at, head=(512, "9c41…"), version="0.2.0")
    record_json = json_of(content)
"""

import hashlib
from collections.abc import Mapping
from datetime import datetime
from typing import Literal

from fieldapp.errors import FieldAppError
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import evaluate
from fieldapp.record.chapters.deviations import deviations_of
from fieldapp.record.chapters.entries import phases_of
from fieldapp.record.chapters.front.diagram import diagram_of, parts_of
from fieldapp.record.chapters.front.figures import figures_of
from fieldapp.record.chapters.front.heading import earlier_of, heading_of
from fieldapp.record.chapters.front.outcome import outcome_of, repeats_of
from fieldapp.record.chapters.people import (
    cautions_of,
    happenings_of,
    people_of,
    signatures_of,
)
from fieldapp.record.chapters.photos import photos_of
from fieldapp.record.chapters.runs.evacuation import evacuation_of
from fieldapp.record.chapters.shapes.shapes_of_sources import Content, Journal, PaperName
from fieldapp.record.chapters.shutdowns import shutdowns_of
from fieldapp.record.chapters.sources import (
    agreed_of,
    computations_of,
    instruments_of,
    stated_of,
)

FORMAT: Literal[1] = 1


class UnreadableDataError(FieldAppError):
    """The data of a record is not what this program writes."""

    def __init__(self, why: str) -> None:
        super().__init__(f"{why}: take the record.json that is attached to the record")
        self.why = why


def content_of(
    job: Job,
    at: datetime,
    *,
    head: tuple[int, str],
    version: str,
    libraries: tuple[str, ...] = (),
    notices: tuple[str, ...] = (),
    paper: PaperName = "A4",
    keys: Mapping[str, str] | None = None,
    pictures: Mapping[str, bytes] | None = None,
) -> Content:
    """Return the whole record of a job as it stands at `at`, finished or not.

    `head` is the journal's last line: its number and its hash; `keys` are the fingerprints of the
    keys of those who sign, by name; `pictures` are the photos as JPEG, by their SHA-256.
    """
    evaluation = evaluate(job, at)
    phases = phases_of(job, evaluation)
    shutdowns = shutdowns_of(job, evaluation)
    evacuation = evacuation_of(job, evaluation)
    repeats = repeats_of(phases, shutdowns, evacuation)
    parts = parts_of(evaluation)
    return Content(
        format=FORMAT,
        heading=heading_of(job, at, version, libraries, paper),
        earlier=earlier_of(job),
        outcome=outcome_of(job, evaluation, parts, phases, shutdowns, repeats),
        figures=figures_of(job, evaluation),
        deviations=deviations_of(job, evaluation),
        repeats=repeats,
        diagram=diagram_of(job, evaluation, parts),
        evacuation=evacuation,
        shutdowns=shutdowns,
        phases=phases,
        computations=computations_of(job, evaluation),
        agreed=agreed_of(job),
        stated=stated_of(job),
        instruments=instruments_of(job, at.date()),
        people=people_of(job),
        photos=photos_of(job, pictures or {}),
        cautions=cautions_of(job, evaluation),
        happenings=happenings_of(job),
        signatures=signatures_of(job, keys or {}),
        journal=Journal(head[0], head[1], len(job.state.log)),
        notices=notices,
    )


def json_of(content: Content) -> bytes:
    """Return the record as canonical JSON (RFC 8785); equal content gives equal bytes.

    Keys are ASCII and there are no numbers but whole ones, so sorted keys are all it takes.
    """
    from msgspec.json import Encoder

    return Encoder(order="sorted").encode(content)


def content_from(record_json: bytes) -> Content:
    """Return the content that `json_of` wrote, refusing anything else."""
    from msgspec import DecodeError, ValidationError
    from msgspec.json import decode

    try:
        content = decode(record_json, type=Content)
    except ValidationError as cause:
        raise UnreadableDataError(f"the data has another shape ({cause})") from cause
    except DecodeError as cause:
        raise UnreadableDataError(f"the data is not JSON ({cause})") from cause
    if json_of(content) != record_json:
        raise UnreadableDataError("the data holds more than a record, or is written otherwise")
    return content


def fingerprint_of(record_json: bytes) -> str:
    """Return the SHA-256 of the record's JSON in hexadecimal."""
    return hashlib.sha256(record_json).hexdigest()
