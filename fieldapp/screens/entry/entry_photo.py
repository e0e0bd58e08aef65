"""What an entry with a photo shows: the newest pictures of the tablet, or the one taken, large."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from fieldapp.checklist.model import Entry
from fieldapp.job.job import Job
from fieldapp.job.state import Given
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.screens.body_view import PicturesBody, PictureView, VerdictView
from fieldapp.screens.entry.entry_plates import (
    CORRECT,
    KEEP,
    LATER,
    evaluation_verdict,
    turning_plates,
    verdict_view,
)
from fieldapp.screens.entry.tablet_pictures import Taken
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.kit.pages import page_of
from fieldapp.screens.steps.steps_view import shortened_name

ROOM = 6
LIST = "list"
"""The part of a photo's entry that shows the pictures though one is kept."""
ANOTHER = PlateView("another", "Another picture")
CANNOT = PlateView("missing", "Cannot take it", "say why")


@dataclass(frozen=True, slots=True)
class Found:
    """What lies on the tablet: the pictures to choose from, and where the kept one is."""

    taken: Sequence[Taken]
    chosen: str = ""
    kept: Path | None = None


def photo_body(
    job: Job, evaluation: Evaluation, entry: Entry, found: Found, now: datetime,
    part: str = "", start: int = 0,
) -> PicturesBody:  # fmt: skip
    """Return the pictures to choose from, the one chosen, or the one kept."""
    given = job.state.latest(entry.id)
    chosen = next((one for one in found.taken if str(one.path) == found.chosen), None)
    if chosen is not None:
        return _chosen(chosen, now, given_before=given is not None)
    if given is not None and part != LIST:
        return _kept(given, found.kept, evaluation, job, entry)
    return _list(found.taken, start, now, given_before=given is not None)


def _chosen(taken: Taken, now: datetime, *, given_before: bool) -> PicturesBody:
    slip = (CORRECT,) if given_before else ()
    return PicturesBody(
        large=_view(taken, now),
        words=(
            f"taken {_when(taken.at, now)}",
            f"{taken.size / 2**20:.1f} MB",
            shortened_name(taken.path.name),
        ),
        verdict=VerdictView("todo", "Not kept yet: look whether it is sharp."),
        keep=(ANOTHER, *slip, KEEP),
    )


def _kept(
    given: Given, path: Path | None, evaluation: Evaluation, job: Job, entry: Entry
) -> PicturesBody:  # fmt: skip
    verdict = verdict_view(evaluation_verdict(evaluation, job, entry), kept=True)
    keep = (PlateView("another", "Another picture", "this one stays readable"),)
    if "photo" not in given.fields:
        return PicturesBody(verdict=verdict, keep=keep)
    name, sha256 = given.fields["photo"], given.fields["sha256"]
    words = (f"kept {given.at:%H:%M}", f"by {given.by}", shortened_name(name),
             "SHA-256", short_hash(sha256))  # fmt: skip
    if path is None:
        lost = VerdictView("failed", "The picture is not on this tablet.", "Take it again.")
        return PicturesBody(words=words, verdict=lost, keep=keep)
    return PicturesBody(large=PictureView(str(path), name), words=words, verdict=verdict, keep=keep)


def _list(
    taken: Sequence[Taken], start: int, now: datetime, *, given_before: bool
) -> PicturesBody:  # fmt: skip
    page = page_of(taken, start, ROOM)
    words = "Take it with the tablet’s camera; then touch it here."
    if not taken:
        words = "No picture lies on this tablet. Take one with its camera; it then stands here."
    return PicturesBody(
        limit=words,
        pictures=tuple(_view(one, now) for one in page.shown),
        pages=turning_plates(page, "pictures"),
        keep=(LATER,) if given_before else (CANNOT,),
    )


def _view(taken: Taken, now: datetime) -> PictureView:
    return PictureView(str(taken.path), _when(taken.at, now), shortened_name(taken.path.name))


def _when(at: datetime, now: datetime) -> str:
    if at.date() == now.date():
        return f"{at:%H:%M}"
    if at.date() == now.date() - timedelta(days=1):
        return f"yesterday {at:%H:%M}"
    return f"{at.day} {at:%b %H:%M}"


def short_hash(sha256: str) -> str:
    """Return the beginning of a hash, as people compare it.

    >>> short_hash("3f2a91c07be4")
    '3f2a 91c0'
    """
    return f"{sha256[:4]} {sha256[4:8]}"
