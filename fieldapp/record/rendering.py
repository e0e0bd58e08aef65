"""Renders a job's record at any time: its JSON, and the PDF that carries it, ready to be signed."""

from datetime import datetime

from fieldapp.job.job import Job
from fieldapp.record.content import content_of, fingerprint_of, json_of
from fieldapp.record.pages.paper import A4, Sheet
from fieldapp.record.pdf import render
from fieldapp.record.structure import prepare


def record_of(
    job: Job,
    at: datetime,
    head: tuple[int, str],
    version: str,
    *,
    notices: tuple[str, ...] = (),
    sheet: Sheet = A4,
) -> tuple[bytes, bytes]:
    """Return the record of a job as it stands at `at`: its JSON, and the PDF to sign.

    `head` is the number and the hash of the journal's last line. Equal arguments give equal bytes.
    """
    content = content_of(job, at, head=head, version=version, notices=notices)
    record_json = json_of(content)
    rendered = render(content, fingerprint=fingerprint_of(record_json), sheet=sheet)
    pdf = prepare(rendered.pdf, record_json, technician=rendered.technician, lead=rendered.lead)
    return record_json, pdf
