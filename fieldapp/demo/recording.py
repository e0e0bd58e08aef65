"""Signs the demo's record with keys made for it, and writes it where the office would look."""

from datetime import timedelta
from pathlib import Path

from fieldapp.crew.enrolment import Crew, enrol_crew
from fieldapp.crew.roster import FOLDER, read_roster
from fieldapp.job.job import Job
from fieldapp.journal.jobs import KeptJob
from fieldapp.record.issuing import Surroundings, issued, signed_record

OFFICE = "Demo office (invented)"
SECRET = "demo only, not a secret"  # noqa: S105 - the demo's keys protect nothing


def write_record(out: Path, kept: KeptJob) -> Path:
    """Write the signed record of a job that was signed off, and the folder that vouches for it."""
    job = kept.job
    crew = _crew(out, job)
    head = (kept.head.sequence, kept.head.hash)
    around = Surroundings(read_roster(out / FOLDER), out / "jobs" / job.number)
    pages = issued(job, head, job.state.log[-1].at, around)
    path = out / f"{job.number}.pdf"
    path.write_bytes(signed_record(pages, job, (crew.technician, crew.lead)))
    return path


def _crew(out: Path, job: Job) -> Crew:
    technician, lead = job.state.signature("technician"), job.state.signature("crew lead")
    assert technician is not None and lead is not None  # noqa: S101, PT018 - the demo ends signed
    return enrol_crew(
        out,
        office=OFFICE,
        technician=technician.by,
        lead=lead.by,
        at=job.state.log[0].at - timedelta(days=30),
        secret=SECRET,
    )
