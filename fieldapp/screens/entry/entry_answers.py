"""What an entry with answers shows: confirm, choose, or say what was seen of a shutdown."""

from fieldapp.actions.entering import not_put_right
from fieldapp.checklist.model import Entry, Kind
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.verdict import Verdict
from fieldapp.screens.body_view import AnswerBody, VerdictView
from fieldapp.screens.draft import Draft, verdict_of_draft
from fieldapp.screens.entry.entry_plates import (
    LATER,
    evaluation_verdict,
    keep_plates,
    turning_plates,
    verdict_view,
)
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.kit.pages import page_of

ROOM = 6
NEXT_ANSWER = {"": "yes", "yes": "no", "no": "yes"}


def answer_body(
    job: Job, evaluation: Evaluation, entry: Entry, draft: Draft, part: str, start: int = 0
) -> AnswerBody:
    """Return the answers to choose from; of many, those of the page that holds `start`."""
    match entry.kind:
        case Kind.CONFIRM:
            return _confirm(job, entry)
        case Kind.CHOICE:
            return _choice(job, evaluation, entry, draft, start)
    if part in ("", "tripped"):
        failed = not_put_right(job, entry, draft.at)
        return _tripped(entry, draft, failed[0] if failed else "")
    return _seen(job, evaluation, entry, draft)


def parts_of(entry: Entry, tripped: str) -> tuple[str, ...]:
    """Return what a shutdown's proof asks for, one after another."""
    if tripped == "no":
        return ("tripped", "seen")
    value = ("value",) if entry.measure else ()
    closed = ("closed_after",) if entry.closed_within else ()
    return ("tripped", *value, *closed, "seen")


def _confirm(job: Job, entry: Entry) -> AnswerBody:
    given = job.state.latest(entry.id)
    second = "touch to confirm: your name and the time are kept"
    if given:
        second = f"confirmed {given.at:%H:%M} by {given.by}; touch to confirm again"
    yes = PlateView("yes", entry.label, second, "plain" if given else "main", sign="")
    mark = VerdictView("done", "Confirmed.") if given else VerdictView()
    return AnswerBody(plates=(yes,), verdict=mark, keep=(LATER,))


def _choice(
    job: Job, evaluation: Evaluation, entry: Entry, draft: Draft, start: int
) -> AnswerBody:  # fmt: skip
    given = job.state.latest(entry.id)
    held = draft.fields.get("value", "") or (given.fields["value"] if given else "")
    page = page_of([option.text for option in entry.options], start, ROOM)
    plates = tuple(
        PlateView("choose", text, kind="held" if text == held else "plain", details=(text,))
        for text in page.shown
    )
    plates += turning_plates(page, "answers")
    verdict = verdict_of_draft(entry, draft, job, evaluation.values)
    kept = evaluation_verdict(evaluation, job, entry) if given and verdict is None else None
    elsewhere = held and held not in page.shown
    return AnswerBody(
        limit=f"Chosen: {held}." if elsewhere else "",
        plates=plates,
        columns=1 if len(plates) < 4 else 2,  # noqa: PLR2004 - more do not fit below each other
        verdict=verdict_view(verdict or kept, kept=bool(kept)),
        keep=keep_plates(verdict, given_before=given is not None),
    )


def _tripped(entry: Entry, draft: Draft, failed: str) -> AnswerBody:
    held = draft.fields.get("tripped", "")
    yes = PlateView("answer", "It tripped", kind=_held(held, "yes"), details=("tripped", "yes"))
    no = PlateView("answer", "No trip", kind=_held(held, "no"), details=("tripped", "no"))
    then = "next: what it tripped at" if entry.measure else "next: how fast the valves closed"
    return AnswerBody(
        limit=failed or f"Try it now. Then say what happened; {then}.",
        plates=(yes, no),
        keep=(LATER,),
    )


def _seen(job: Job, evaluation: Evaluation, entry: Entry, draft: Draft) -> AnswerBody:
    plates = tuple(
        _check(check, f"seen_{place}", draft.fields.get(f"seen_{place}", ""))
        for place, check in enumerate(entry.checks)
    )
    if draft.fields.get("tripped") == "no":
        plates = ()
    verdict = verdict_of_draft(entry, draft, job, evaluation.values)
    keep = _keep_proof(verdict, given_before=job.state.latest(entry.id) is not None)
    limit = "It did not trip."
    if plates:
        limit = "Touch what you saw: once for seen, twice for not seen."
    return AnswerBody(
        limit=limit, plates=plates, columns=2, verdict=verdict_view(verdict), keep=keep
    )


def _keep_proof(verdict: Verdict | None, *, given_before: bool) -> tuple[PlateView, ...]:
    """Return the plates that keep a proof; one that is there already can be corrected."""
    slip, *keep = keep_plates(verdict, given_before=given_before)
    back = PlateView("part before", "Back to the figures")
    if not given_before or verdict is None:
        return (back, *keep)
    return (slip, *keep) if len(keep) > 1 else (back, slip, *keep)


def _check(check: str, field: str, answer: str) -> PlateView:
    second = {"": "touch when seen", "yes": "seen", "no": "not seen"}[answer]
    sign = {"yes": "tick", "no": "failed", "": ""}[answer]
    details = (field, NEXT_ANSWER[answer])
    return PlateView("answer", check, second, _held(answer, "yes"), details, sign)


def _held(answer: str, of: str) -> str:
    return "held" if answer == of else "plain"
