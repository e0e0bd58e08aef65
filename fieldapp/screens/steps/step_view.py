"""What the screen of one step shows: its caution, what it waits for, its entries, what is open."""

from dataclasses import dataclass
from datetime import date

from fieldapp.checklist.model import Entry, Kind, Step
from fieldapp.job.job import Job
from fieldapp.judgement.deviations import Deviation
from fieldapp.judgement.evaluation import Evaluation, StepStanding, StepState
from fieldapp.judgement.values import Values
from fieldapp.judgement.verdict import Place, in_unit
from fieldapp.judgement.words import people_unit, said
from fieldapp.screens.body_view import AskingView
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.kit.diagram.diagram_view import Diagram
from fieldapp.screens.marks import mark_of
from fieldapp.screens.row_view import RowView
from fieldapp.screens.steps.steps_view import shortened, shortened_name, why_words
from fieldapp.units import rounded, written

_WORD = {
    Place.MISSING: "to do",
    Place.NOT_NEEDED: "not needed",
    Place.NOTED: "noted",
    Place.DONE: "done",
    Place.INSIDE: "inside",
    Place.TOO_NEAR: "too near",
    Place.OUTSIDE: "outside",
}


@dataclass(frozen=True, slots=True)
class StepView:
    """One step: the left block, the rows of its entries, the line diagram, the frame."""

    frame: FrameView
    asking: AskingView
    rows: tuple[RowView, ...]
    start: int = 0
    diagram: Diagram | None = None


def step_view(
    job: Job, evaluation: Evaluation, step: Step, start: int, frame: FrameView,
    diagram: Diagram | None = None,
) -> StepView:  # fmt: skip
    """Return what is shown of one step."""
    standing = evaluation.steps[step.id]
    caution = step.caution
    gates = tuple(_gate(evaluation.steps[need], job) for need in standing.gate)
    return StepView(
        frame=frame,
        asking=AskingView(
            heading=_why(standing, job),
            task=step.title,
            text=step.text,
            signal_word=caution.word if caution else "",
            caution=caution.text if caution else "",
        ),
        rows=(*gates, *_entries(standing, job), *_computed(step, job, evaluation)),
        start=start,
        diagram=diagram if step.part else None,
    )


def first_to_give(step: Step, evaluation: Evaluation) -> Entry | None:
    """Return the first entry of a step where something is missing."""
    verdicts = evaluation.steps[step.id].verdicts
    return next((e for e in step.entries if verdicts[e.id].place is Place.MISSING), None)


def next_to_give(step: Step, evaluation: Evaluation, job: Job) -> Entry | None:
    """Return what is to be given next: what is missing, outside, or oldest where all is stale."""
    standing = evaluation.steps[step.id]
    missing = first_to_give(step, evaluation)
    if missing is not None:
        return missing
    unsettled = [d.subject for d in standing.deviations if not d.settled]
    outside = next((entry for entry in step.entries if entry.id in unsettled), None)
    if standing.state is StepState.STALE:
        return min(step.entries, key=lambda entry: _given_at(entry, job))
    return outside


def _given_at(entry: Entry, job: Job) -> int:
    """Return when an entry was given last, as a sequence number."""
    given, attempt = job.state.latest(entry.id), job.state.attempt(entry.id)
    return given.since if given else attempt.sequence if attempt else -1


def main_plate(step: Step, evaluation: Evaluation, job: Job, after: PlateView) -> PlateView:
    """Return the blue plate: what this step asks for next, or else the next step."""
    standing = evaluation.steps[step.id]
    entry = next_to_give(step, evaluation, job)
    if standing.gate and entry is not None:
        return PlateView("go", "First what it waits for", "", "main", (standing.gate[0],))
    if entry is not None:
        again = "do it again" if entry is not first_to_give(step, evaluation) else ""
        return PlateView("entry", shortened(entry.label, 40), again, "main", (entry.id,))
    return after


def _why(standing: StepStanding, job: Job) -> str:
    if standing.why == "To do." or (standing.in_order and not standing.deviations):
        return ""
    return why_words(standing, job)


def _gate(standing: StepStanding, job: Job) -> RowView:
    title, why = f"First: {standing.step.title}", why_words(standing, job)
    return RowView("go", (standing.step.id,), title, why, "notyet", "waits for")


def _entries(standing: StepStanding, job: Job) -> tuple[RowView, ...]:
    rows: list[RowView] = []
    for entry in standing.step.entries:
        verdict = standing.verdicts[entry.id]
        deviation = next((d for d in standing.deviations if d.subject == entry.id), None)
        missing = verdict.place is Place.MISSING
        second = "" if missing and verdict.sentence == "To do." else verdict.sentence
        rows.append(RowView(
            "entry", (entry.id,), entry.label, second, mark_of(verdict, deviation),
            _WORD[verdict.place], right=given_words(entry, job), below=_given_by(entry, job),
        ))  # fmt: skip
        if deviation:
            rows += _deviation_rows(deviation)
    return tuple(rows)


def given_words(entry: Entry, job: Job) -> str:
    """Return what is kept at an entry, short."""
    given = job.state.latest(entry.id)
    if given is None or entry.kind in (Kind.CONFIRM, Kind.ALARM):
        return ""
    if given.fields.get("photo"):
        return shortened_name(given.fields["photo"])
    unit = people_unit(given.fields["value_unit"]) if "value_unit" in given.fields else ""
    return shortened(f"{said(given.fields)}{unit}", 18)


def _given_by(entry: Entry, job: Job) -> str:
    given = job.state.latest(entry.id)
    return f"{given.at:%H:%M}" if given else ""


def _deviation_rows(deviation: Deviation) -> list[RowView]:
    if deviation.acceptance is not None:
        accepted = deviation.acceptance
        who = f"Accepted by {accepted.what.accepter}, {accepted.what.role}"
        words = f"On condition: {accepted.what.condition}"
        return [RowView("", (), who, words, "accepted", "accepted"), *_promise_rows(deviation)]
    rows = []
    if deviation.explanation is not None:
        said = deviation.explanation
        then = "" if deviation.settled else deviation.to_do
        words = f"{said.by}, {said.at:%H:%M}. {then}"
        rows.append(RowView("", (), f"“{said.reason}”", words, "deviation", "reason"))
    elif deviation.verdict.waive not in ("never", "owner"):
        rows.append(RowView("say why", (deviation.subject,), "Say why it is kept",
                            deviation.to_do, "deviation", "to explain"))  # fmt: skip
    if deviation.verdict.waive == "never":
        rows.append(RowView("", (), "Nobody may accept this", deviation.to_do, "failed", "stop"))
    elif not deviation.settled and deviation.verdict.waive in ("owner", "lead"):
        who = "The owner’s engineer" if deviation.verdict.waive == "owner" else "The crew lead"
        rows.append(RowView("accept", (deviation.subject,), f"{who} accepts it",
                            "on a condition, by name", "deviation", "to accept"))  # fmt: skip
    return rows + _promise_rows(deviation)


def _promise_rows(deviation: Deviation) -> list[RowView]:
    """Return until when a deviation stays open, or the way to say so once it is settled."""
    promise = deviation.promise
    if promise is not None:
        words = f"Stays open: {promise.person}, by {day_words(promise.due)}"
        second = f"said by {promise.by}, {promise.at:%H:%M}; touch to say it anew"
        return [RowView("promise", (deviation.subject,), words, second, "notyet", "stays open")]
    if not deviation.settled:
        return []
    if deviation.unowned:
        second = "a name and a day, before anybody signs"
        return [RowView("promise", (deviation.subject,), "Who sees to the condition?", second,
                        "notyet", "to name")]  # fmt: skip
    second = "name who puts it right, and by which day"
    return [RowView("promise", (deviation.subject,), "Does it stay open?", second, "unneeded",
                    "if so")]  # fmt: skip


def day_words(day: date) -> str:
    """Return a day as people write it.

    >>> day_words(date(2026, 6, 30))
    '30 Jun 2026'
    """
    return f"{day.day} {day:%b %Y}"


def _computed(step: Step, job: Job, evaluation: Evaluation) -> tuple[RowView, ...]:
    standing = evaluation.steps[step.id]
    rows: list[RowView] = []
    for computed in job.checklist.computed:
        if computed.step != step.id or computed.id not in standing.verdicts:
            continue
        verdict = standing.verdicts[computed.id]
        deviation = next((d for d in standing.deviations if d.subject == computed.id), None)
        right = computed_words(computed.id, evaluation.values, computed.unit, computed.decimals)
        label, mark = f"{computed.label} (worked out)", mark_of(verdict, deviation)
        word = _WORD[verdict.place]
        rows.append(RowView("", (), label, verdict.sentence, mark, word, right=right))
        if deviation:
            rows += _deviation_rows(deviation)
    return tuple(rows)


def computed_words(name: str, values: Values, unit: str, decimals: int) -> str:
    """Return a value that was worked out, with its unit; "" while it cannot be."""
    working = values.workings.get(name)
    if working is None or working.value is None:
        return ""
    number, _ = in_unit(working.value, unit)
    return f"{written(rounded(number, decimals))}{people_unit(unit)}"
