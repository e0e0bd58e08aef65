"""The shutdowns: every test of each, the failed ones too, with what was found and done between."""

from dataclasses import replace

from fieldapp.checklist.facts import SHUTDOWNS
from fieldapp.checklist.model import Entry
from fieldapp.job import events
from fieldapp.job.events import Event
from fieldapp.job.job import Job
from fieldapp.job.state import Given
from fieldapp.judgement.evaluation import Evaluation, StepStanding, StepState
from fieldapp.judgement.subjects import verdict_if
from fieldapp.judgement.verdict import Verdict, range_of
from fieldapp.record.chapters.places import alarms_of
from fieldapp.record.chapters.shapes.shapes import Check, Judgement, Shutdown, Trial
from fieldapp.record.chapters.words import (
    in_unit_text,
    judgement,
    limit_words,
    stamp,
    typed,
    unit_sign,
    value_of,
)

PROVEN = "proven"


def shutdowns_of(job: Job, evaluation: Evaluation) -> tuple[Shutdown, ...]:
    """Return every shutdown of the checklist, numbered in order of those that this job proves."""
    found, number = [], 0
    for entry in alarms_of(job.checklist):
        wanted = _standing(entry, job, evaluation).state is not StepState.NOT_NEEDED
        asked = wanted and _fitted(entry, evaluation)
        number += asked
        found.append(_shutdown(entry, number if asked else 0, job, evaluation))
    return tuple(found)


def _fitted(entry: Entry, evaluation: Evaluation) -> bool:
    return evaluation.values.answers.get(f"{entry.trip}_fitted") is not False


def _standing(entry: Entry, job: Job, evaluation: Evaluation) -> StepStanding:
    return evaluation.steps[job.checklist.step_of(entry.id).id]


def _shutdown(entry: Entry, number: int, job: Job, evaluation: Evaluation) -> Shutdown:
    """Return one shutdown; number 0 is one that this job does not prove."""
    name, unit = SHUTDOWNS[entry.trip]
    stated = evaluation.values.numbers.get(f"{entry.trip}_set_point")
    set_point = ""
    if stated is not None:
        shown = entry.measure.unit if entry.measure else unit
        decimals = entry.measure.decimals if entry.measure else 1
        set_point = f"{in_unit_text(stated, shown, decimals)} {unit_sign(shown)}"
    standing = _standing(entry, job, evaluation)
    lapsed = standing.why if standing.state is StepState.STALE else ""
    tests = _tests(job.state.given.get(entry.id, ()))
    trials = tuple(
        _trial(entry, given, place, tests, job, evaluation) for place, given in enumerate(tests)
    )
    if lapsed and trials:
        trials = (*trials[:-1], replace(trials[-1], standing=False))
    return Shutdown(
        number=number,
        trip=entry.trip,
        name=name,
        entry=entry.id,
        label=job.checklist.step_of(entry.id).title,
        set_point=set_point,
        limits=_limits(entry, evaluation),
        closed_within=_closed_within(entry, evaluation),
        fitted=_fitted(entry, evaluation),
        asked=number > 0,
        lapsed=lapsed,
        trials=trials,
    )


def _limits(entry: Entry, evaluation: Evaluation) -> str:
    """Return the limits of the value at which it trips, without its unit."""
    if entry.measure is None:
        return ""
    return limit_words(range_of(entry.measure, evaluation.values.numbers))


def _closed_within(entry: Entry, evaluation: Evaluation) -> str:
    bound = entry.closed_within
    if bound is None:
        return ""
    if bound.number is not None:
        return f"{bound.number:f}"
    value = evaluation.values.numbers.get(bound.name)
    return in_unit_text(value, "s", 1) if value else ""


def proof_judgement(
    entry: Entry, verdict: Verdict, evaluation: Evaluation, settled: str = ""
) -> Judgement:
    """Return how a test went, with the limits of the value and of the time to closed in words."""
    found = judgement(verdict, settled=settled)
    seconds = _closed_within(entry, evaluation)
    limits = [_limits(entry, evaluation), f"closed in {seconds} s" if seconds else ""]
    words = found.words
    if verdict.place.good and words.startswith(PROVEN):
        words = PROVEN
    return replace(
        found, words=words, limits="; ".join(filter(None, limits)), low="", high="", guard=""
    )


def _tests(given: tuple[Given, ...]) -> tuple[Given, ...]:
    """Return the tests, each as it was last corrected."""
    tests: dict[int, Given] = {}
    for one in given:
        tests[one.since] = one
    return tuple(tests.values())


def _trial(
    entry: Entry, given: Given, place: int, tests: tuple[Given, ...], job: Job,
    evaluation: Evaluation,
) -> Trial:  # fmt: skip
    value, unit = value_of(entry, given.fields)
    until = tests[place + 1].since if place + 1 < len(tests) else None
    return Trial(
        number=place + 1,
        at=stamp(given.done_at),
        by=given.by,
        tripped=given.fields.get("tripped") == "yes",
        value=value,
        unit=unit,
        closed_after=typed(given.fields, "closed_after"),
        checks=tuple(
            Check(text, given.fields.get(f"seen_{number}") == "yes")
            for number, text in enumerate(entry.checks)
        ),
        judgement=_judged(entry, given, job, evaluation),
        standing=given is tests[-1],
        notes=_notes(entry, given.since, until, job) if until is not None else (),
    )


def _judged(entry: Entry, given: Given, job: Job, evaluation: Evaluation) -> Judgement:
    return proof_judgement(entry, verdict_if(entry, given, job, evaluation.values), evaluation)


def _notes(entry: Entry, since: int, until: int, job: Job) -> tuple[str, ...]:
    """Return what was said of the test and what was reported before the next one."""
    step = job.checklist.step_of(entry.id)
    labels = {happening.id: happening.label for happening in job.checklist.happenings}
    words = []
    for event in job.state.log[since + 1 : until]:
        match event.what:
            case events.Explained(subject, reason) if subject == entry.id:
                words.append(f"{reason} {_who(event)}")
            case events.Reported(happening, note) if happening in step.undone_by:
                words.append(f"{labels.get(happening, happening)}. {note} {_who(event)}".strip())
    return tuple(words)


def _who(event: Event) -> str:
    return f"({event.by}, {event.at:%H:%M})"
