"""What was not as planned: deviations with their acceptance, corrections and reasons."""

from dataclasses import dataclass

from fieldapp.actions.rules import LEAD
from fieldapp.actions.sign_off import label_of, must_be_seen
from fieldapp.checklist.model import Waive
from fieldapp.job.events import Entered, Event, Explained, Read
from fieldapp.job.job import Job
from fieldapp.judgement.deviations import Deviation
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.verdict import Place
from fieldapp.judgement.words import people_unit
from fieldapp.screens.frame_view import PlateView


@dataclass(frozen=True, slots=True)
class PlannedRow:
    """One thing that was not as planned: mark, three lines, and the plate that answers it."""

    mark: str
    title: str
    said: str
    below: str
    plate: PlateView


def rows_of(job: Job, evaluation: Evaluation, who: str) -> tuple[PlannedRow, ...]:
    """Return every deviation, then every correction and reason; what is open comes first."""
    person = job.sheet.person(who)
    lead = person is not None and person.role == LEAD
    deviations = evaluation.deviations
    explained = {d.explanation.sequence for d in deviations if d.explanation}
    rows = [_deviation_row(d, job, lead=lead) for d in deviations]
    rows += [
        _seen_row(event, job, lead=lead)
        for event in must_be_seen(job)
        if event.sequence not in explained
    ]
    return tuple(sorted(rows, key=lambda row: row.plate.kind == "held"))


def _deviation_row(deviation: Deviation, job: Job, *, lead: bool) -> PlannedRow:
    mark = "deviation"
    if deviation.acceptance is not None:
        mark = "accepted"
    elif deviation.verdict.place is Place.TOO_NEAR:
        mark = "near"
    said = f"“{deviation.explanation.reason}”" if deviation.explanation else deviation.to_do
    return PlannedRow(
        mark=mark,
        title=f"{label_of(job, deviation.subject)}: {deviation.verdict.sentence}",
        said=said,
        below=_below(deviation),
        plate=_deviation_plate(deviation, job, lead=lead),
    )


def _below(deviation: Deviation) -> str:
    if deviation.acceptance is not None:
        accepted = deviation.acceptance.what
        document = f", {accepted.document}" if accepted.document else ""
        terms = f"{accepted.accepter}{document}, on condition: {accepted.condition}"
    else:
        by = f", {deviation.explanation.by}" if deviation.explanation else ""
        terms = f"deviation{by}"
    promise = deviation.promise
    return f"{terms}. Open until {promise.due}, {promise.person}" if promise else terms


def _deviation_plate(deviation: Deviation, job: Job, *, lead: bool) -> PlateView:
    said = deviation.explanation
    match deviation.verdict.waive:
        case Waive.NEVER:
            return PlateView("go", "Put it right", "nobody accepts", details=(deviation.step,))
        case Waive.OWNER if deviation.acceptance is None:
            return PlateView("ask owner", "Accept", "owner’s engineer",
                             details=(f"condition {deviation.subject}",))  # fmt: skip
        case Waive.LEAD if deviation.acceptance is None:
            plate = PlateView("ask lead", "Accept", details=(f"condition {deviation.subject}",))
            return plate if lead else _for_lead("Accept")
        case Waive.REASON if said is None:
            return PlateView("go", "Say why", "at the step", details=(deviation.step,))
    return _settled_plate(deviation, job, lead=lead)


def _settled_plate(deviation: Deviation, job: Job, *, lead: bool) -> PlateView:
    """Return what is still asked of a settled deviation: who sees to it, then the lead's look."""
    if deviation.unowned:
        return PlateView("go", "Name who", "and by which day", details=(deviation.step,))
    said = deviation.explanation
    if said is not None and said.sequence not in job.state.seen:
        return _see_plate(said.sequence, lead=lead)
    done = "accepted" if deviation.acceptance else "seen"
    return PlateView("", done, kind="held", sign="tick")


def _seen_row(event: Event, job: Job, *, lead: bool) -> PlannedRow:
    seen = event.sequence in job.state.seen
    held = PlateView("", "seen", kind="held", sign="tick")
    plate = held if seen else _see_plate(event.sequence, lead=lead)
    what = event.what
    if isinstance(what, Explained):
        title = f"{label_of(job, what.subject)}: put right since"
        by = f"reason, {event.by}, {event.at:%H:%M}"
        return PlannedRow("corrected", title, f"“{what.reason}”", by, plate)
    assert isinstance(what, Entered | Read)  # noqa: S101 - nothing else must be seen
    return PlannedRow(
        "corrected", f"{label_of(job, what.entry)} {_changed(what, job)}", f"“{what.reason}”",
        f"correction, {event.by}, {event.at:%H:%M}", plate,
    )  # fmt: skip


def _changed(what: Entered | Read, job: Job) -> str:
    old = job.state.log[what.corrects].what
    before = old.fields if isinstance(old, Entered | Read) else {}
    changes = [
        f"{text}{people_unit(what.fields[f'{name}_unit']) if f'{name}_unit' in what.fields else ''}"
        f", was {before.get(name, '')}"
        for name, text in what.fields.items()
        if not name.endswith("_unit") and before.get(name) != text
    ]
    return "; ".join(changes)


def _see_plate(sequence: int, *, lead: bool) -> PlateView:
    return PlateView("see", "Seen", details=(str(sequence),)) if lead else _for_lead("Seen")


def _for_lead(word: str) -> PlateView:
    return PlateView("", word, "crew lead", "waiting")
