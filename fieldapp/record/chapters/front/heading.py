"""What a record is of: its number, the unit, the place, the method, and when."""

import hashlib
from datetime import datetime

from fieldapp.job import events
from fieldapp.job.events import Begun, Event
from fieldapp.job.job import Job
from fieldapp.record.chapters.places import alarms_of, vacuum_of
from fieldapp.record.chapters.shapes.shapes_of_sources import Earlier, Heading, PaperName
from fieldapp.record.chapters.words import stamp, unit_sign
from fieldapp.units import written

COMMISSIONING, OTHER = "commissioning record", "record"
SIGNING = ("technician", "crew lead")


def heading_of(
    job: Job, at: datetime, version: str, libraries: tuple[str, ...], paper: PaperName
) -> Heading:
    """Return the heading of a record."""
    sheet, checklist = job.sheet, job.checklist
    began = job.state.log[0]
    text = began.what.checklist if isinstance(began.what, Begun) else ""
    return Heading(
        kind=COMMISSIONING if is_commissioning(job) else OTHER,
        number=job.number,
        revision=1 + len(earlier_of(job)),
        title=checklist.title,
        follows=job.follows,
        follows_head=job.begun.head,
        unit=f"Transformer {sheet.text_of('unit') or ''}".strip(),
        unit_lines=_unit_lines(job),
        site=sheet.text_of("site_name") or "",
        owner=_joined(sheet.text_of("owner_name"), sheet.text_of("owner_contact")),
        place=", ".join(_place(job)),
        crew=_joined(
            "; ".join(dict.fromkeys(p.company for p in sheet.crew if p.role in SIGNING)),
            sheet.text_of("crew_address"),
        ),
        began=stamp(began.at),
        issued=stamp(at),
        checklist=checklist.id,
        checklist_revision=checklist.revision,
        checklist_sha256=hashlib.sha256(text.encode()).hexdigest(),
        sheet_sha256=sheet.fingerprint(),
        program=f"fieldapp {version}",
        libraries=libraries,
        paper=paper,
    )


def is_commissioning(job: Job) -> bool:
    """Return whether a job brings a skid into service: it proves shutdowns and the vacuum."""
    return (
        not job.follows and any(alarms_of(job.checklist)) and vacuum_of(job.checklist) is not None
    )


def earlier_of(job: Job) -> tuple[Earlier, ...]:
    """Return the revisions before this one: those signed, then sent back or settled."""
    found: list[Earlier] = []
    signed: Event | None = None
    for event in job.state.log:
        match event.what:
            case events.Signed():
                signed = event
            case events.SentBack(reason=reason) | events.Settled(reason=reason) if (
                signed is not None
            ):
                found.append(_earlier(1 + len(found), signed, event, reason))
                signed = None
    return tuple(found)


def _earlier(revision: int, signed: Event, sent_back: Event, reason: str) -> Earlier:
    head = signed.what.head if isinstance(signed.what, events.Signed) else ""
    return Earlier(
        revision, head, signed.by, stamp(signed.at), sent_back.by, stamp(sent_back.at), reason
    )


def _joined(*words: str | None) -> str:
    return ", ".join(word for word in words if word)


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
