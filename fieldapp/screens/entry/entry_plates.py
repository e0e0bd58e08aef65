"""The plates that keep, measure again, correct or leave an entry, and its verdict as shown."""

from fieldapp.checklist.model import Entry, Waive
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation, may_accept
from fieldapp.judgement.verdict import Place, Verdict
from fieldapp.screens.body_view import VerdictView
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.kit.pages import Page
from fieldapp.screens.marks import mark_of

CORRECT = PlateView("correct", "it was a slip", "correct it")
KEEP = PlateView("keep", "Keep", kind="main")
WAITING = PlateView("keep", "Keep", "type first", kind="waiting")
AGAIN = PlateView("again", "measure again", kind="main")
LATER = PlateView("later", "Do it later")
CANNOT = PlateView("missing", "cannot", "measure")


def turning_plates(page: Page[object], things: str) -> tuple[PlateView, ...]:
    """Return the plates that turn a page of plates back and on."""
    back = PlateView("page", f"Other {things}", "back", details=(str(page.before),))
    on = PlateView("page", f"More {things}", details=(str(page.after),))
    return (*((back,) if page.before >= 0 else ()), *((on,) if page.after >= 0 else ()))


def evaluation_verdict(evaluation: Evaluation, job: Job, entry: Entry) -> Verdict | None:
    """Return the verdict of what is kept at an entry."""
    return evaluation.steps[job.checklist.step_of(entry.id).id].verdicts.get(entry.id)


def verdict_view(verdict: Verdict | None, *, kept: bool = False) -> VerdictView:
    """Return a verdict as shown: mark, sentence, and what then."""
    if verdict is None or verdict.place is Place.MISSING:
        return VerdictView()
    if verdict.place is Place.DONE and not kept:
        return VerdictView()
    then = ""
    if not verdict.place.good:
        words = may_accept(verdict.waive)
        then = f"{words[0].upper()}{words[1:]}."
    elif kept:
        then = "This is kept."
    return VerdictView(mark_of(verdict), verdict.sentence, then)


def side_plates(verdict: Verdict | None, *, given_before: bool) -> tuple[PlateView, ...]:
    """Return the plates beside the keypad: the blue one is the safe way."""
    first = CORRECT if given_before else CANNOT
    if verdict is None:
        return (CANNOT, WAITING)
    if verdict.place.good:
        return (first, KEEP)
    if verdict.waive is Waive.NEVER:
        return (first, AGAIN, PlateView("keep", "keep, then stop"))
    return (first, AGAIN, PlateView("say why", "keep and say why"))


def keep_plates(
    verdict: Verdict | None, *, given_before: bool, otherwise: PlateView = LATER
) -> tuple[PlateView, ...]:
    """Return the plates under the answers: the blue one keeps, or begins again."""
    first = CORRECT if given_before else otherwise
    if verdict is None:
        return (otherwise, PlateView("keep", "Keep", "answer first", kind="waiting"))
    if verdict.place.good:
        return (first, PlateView("keep", "Keep", kind="main"))
    if verdict.waive is Waive.NEVER:
        keep = PlateView("keep", "Keep, then stop", kind="plain")
    else:
        keep = PlateView("say why", "Keep and say why")
    return (first, keep, PlateView("again", "Answer again", kind="main"))
