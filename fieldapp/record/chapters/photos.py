"""The photos of a job: what each shows, the name of its file, its SHA-256, and a small copy."""

from base64 import b64encode
from collections.abc import Mapping

from fieldapp.checklist.model import Entry, Kind
from fieldapp.job.job import Job
from fieldapp.job.state import Given
from fieldapp.record.chapters.shapes.shapes_of_sources import Photo
from fieldapp.record.chapters.words import stamp

NOT_HERE = "The picture as it was taken was not on this tablet when the record was made."


def photos_of(job: Job, pictures: Mapping[str, bytes]) -> tuple[Photo, ...]:
    """Return every photo that was taken, the replaced ones too, in the order of the checklist."""
    return tuple(
        _photo(entry, given, job, pictures)
        for step in job.checklist.steps()
        for entry in step.entries
        if entry.kind is Kind.PHOTO
        for given in job.state.given.get(entry.id, ())
        if given.fields.get("sha256")
    )


def _photo(entry: Entry, given: Given, job: Job, pictures: Mapping[str, bytes]) -> Photo:
    sha256 = given.fields["sha256"]
    jpeg = pictures.get(sha256)
    return Photo(
        entry=entry.id,
        label=entry.label,
        step=job.checklist.step_of(entry.id).title,
        at=stamp(given.at),
        by=given.by,
        name=given.fields.get("photo", ""),
        sha256=sha256,
        jpeg="" if jpeg is None else b64encode(jpeg).decode("ascii"),
        missing=NOT_HERE if jpeg is None else "",
    )
