"""Everything a record says of a job, as plain data, and the one way to write it as JSON.

::

    content = content_of(job, at, head=(512, "9c41…"), version="0.1.0")
    record_json = json_of(content)
"""

import hashlib
from dataclasses import asdict
from datetime import datetime

from fieldapp.job import events
from fieldapp.job.events import Begun
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import evaluate
from fieldapp.record.chapters.deviations import deviations_of
from fieldapp.record.chapters.diagram import diagram_of, parts_of
from fieldapp.record.chapters.entries import phases_of
from fieldapp.record.chapters.evacuation import evacuation_of
from fieldapp.record.chapters.figures import figures_of
from fieldapp.record.chapters.outcome import outcome_of, repeats_of
from fieldapp.record.chapters.people import (
    cautions_of,
    happenings_of,
    people_of,
    signatures_of,
)
from fieldapp.record.chapters.shapes_of_sources import Content, Heading, Journal
from fieldapp.record.chapters.shutdowns import shutdowns_of
from fieldapp.record.chapters.sources import (
    agreed_of,
    computations_of,
    instruments_of,
    stated_of,
)
from fieldapp.record.chapters.words import stamp, unit_sign
from fieldapp.units import written

FORMAT = 1
KIND = "commissioning record"
SIGNING = ("technician", "crew lead")


def content_of(
    job: Job, at: datetime, *, head: tuple[int, str], version: str, notices: tuple[str, ...] = ()
) -> Content:
    """Return the whole record of a job as it stands at `at`, finished or not.

    `head` is the journal's last line: its number and its hash.
    """
    evaluation = evaluate(job, at)
    phases = phases_of(job, evaluation)
    shutdowns = shutdowns_of(job, evaluation)
    evacuation = evacuation_of(job, evaluation)
    repeats = repeats_of(phases, shutdowns, evacuation)
    parts = parts_of(job, evaluation)
    return Content(
        format=FORMAT,
        heading=_heading(job, at, version),
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
        cautions=cautions_of(job, evaluation),
        happenings=happenings_of(job),
        signatures=signatures_of(job),
        journal=Journal(head[0], head[1], len(job.state.log)),
        notices=notices,
    )


def json_of(content: Content) -> bytes:
    """Return the record as canonical JSON (RFC 8785); equal content gives equal bytes."""
    import rfc8785

    found: bytes = rfc8785.dumps(asdict(content))
    return found


def fingerprint_of(record_json: bytes) -> str:
    """Return the SHA-256 of the record's JSON in hexadecimal."""
    return hashlib.sha256(record_json).hexdigest()


def _heading(job: Job, at: datetime, version: str) -> Heading:
    sheet, checklist = job.sheet, job.checklist
    began = job.state.log[0]
    text = began.what.checklist if isinstance(began.what, Begun) else ""
    return Heading(
        kind=KIND,
        number=sheet.number,
        revision=1 + len(job.state.of(events.SentBack)),
        title=checklist.title,
        unit=f"Transformer {sheet.text_of('unit') or ''}".strip(),
        unit_lines=_unit_lines(job),
        site=sheet.text_of("site_name") or "",
        owner=sheet.text_of("owner_name") or "",
        place=", ".join(_place(job)),
        crew="; ".join(dict.fromkeys(p.company for p in sheet.crew if p.role in SIGNING)),
        began=stamp(began.at),
        issued=stamp(at),
        checklist=checklist.id,
        checklist_revision=checklist.revision,
        checklist_sha256=hashlib.sha256(text.encode()).hexdigest(),
        sheet_sha256=sheet.fingerprint(),
        program=f"fieldapp {version}",
    )


def _place(job: Job) -> list[str]:
    found = [f"{job.sheet.text_of('site_name') or ''} substation", job.sheet.text_of("bay") or ""]
    elevation = job.sheet.number_of("elevation")
    if elevation:
        found.append(f"{written(elevation.number)} {unit_sign(elevation.unit.name)}")
    return [word for word in found if word]


def _unit_lines(job: Job) -> tuple[str, ...]:
    sheet = job.sheet
    oil, year = sheet.number_of("oil_volume"), sheet.number_of("year_made")
    first = [f"Transformer {sheet.text_of('unit') or ''}",
             f"serial {sheet.text_of('unit_serial') or ''}"]  # fmt: skip
    second = [sheet.text_of("rating") or ""]
    third = [f"{sheet.text_of('fluid') or ''} oil", sheet.text_of("preservation") or ""]
    if oil:
        third[0] = f"{written(oil.number)} {unit_sign(oil.unit.name)} {third[0]}"
    if year:
        third.append(f"made in {year.number:f}")
    return tuple(", ".join(word for word in line if word) for line in (first, second, third))
