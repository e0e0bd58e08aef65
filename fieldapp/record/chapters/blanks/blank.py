"""Makes the content of a printed blank from a checklist, with the job sheet's figures if given."""

from hashlib import sha256

from fieldapp.checklist.facts import FACTS
from fieldapp.checklist.model import Checklist, Happening, Phase, Step
from fieldapp.job.job import Job
from fieldapp.job.moments import span
from fieldapp.job.sheet import JobSheet
from fieldapp.job.state import JobState
from fieldapp.judgement.asking import asked_by_facts
from fieldapp.judgement.values import values_of
from fieldapp.record.chapters.blanks.blank_rooms import Source, rooms_of
from fieldapp.record.chapters.blanks.blank_shapes import Blank, BlankPhase, BlankStep

NOTHING = JobSheet(number="", facts={}, instruments=(), crew=())
HEAD = ("number", "site_name", "owner_name", "bay", "unit", "unit_serial")
BY_THE_SHEET = "not needed: by the job sheet"


def blank_of(checklist: Checklist, text: bytes, sheet: JobSheet | None) -> Blank:
    """Return the blank of the checklist that `text` holds."""
    stated = sheet or NOTHING
    values = values_of(Job(checklist, stated, JobState()))
    source = Source(checklist, stated, values)
    numbers = {step.id: number for number, step in enumerate(checklist.steps(), 1)}
    return Blank(
        id=checklist.id,
        title=checklist.title,
        revision=checklist.revision,
        fingerprint=sha256(text).hexdigest(),
        phases=tuple(_phase(phase, source, numbers, sheet) for phase in checklist.phases),
        again=tuple(_again(happening, checklist, numbers) for happening in checklist.happenings),
        facts=_facts(stated),
        instruments=tuple((one.name, one.serial) for one in stated.instruments),
        people=tuple((person.name, person.role) for person in stated.crew),
        sheet_fingerprint=sheet.fingerprint() if sheet else "",
    )


def _facts(sheet: JobSheet) -> tuple[tuple[str, str], ...]:
    labels = {fact.id: fact.label for fact in FACTS}
    return tuple((labels[name], sheet.text_of(name) or "") for name in HEAD)


def _phase(
    phase: Phase, source: Source, numbers: dict[str, int], sheet: JobSheet | None
) -> BlankPhase:
    return BlankPhase(
        phase.title, tuple(_step(step, source, numbers, sheet) for step in phase.steps)
    )


def _step(step: Step, source: Source, numbers: dict[str, int], sheet: JobSheet | None) -> BlankStep:
    left_out = sheet is not None and not asked_by_facts(step, source.values.replies)
    caution = (str(step.caution.word), step.caution.text) if step.caution else ("", "")
    return BlankStep(
        number=numbers[step.id],
        title=step.title,
        text=" ".join(step.text.split()),
        caution=caution,
        terms=tuple(_terms(step, source.checklist, numbers, sheet)),
        rooms=rooms_of(step, source),
        left_out=BY_THE_SHEET if left_out else "",
    )


def _terms(
    step: Step, checklist: Checklist, numbers: dict[str, int], sheet: JobSheet | None
) -> list[str]:
    """Return on what terms a step is done: paper has no gates, so it says them."""
    terms = []
    if step.needs:
        terms.append(f"after {listed([numbers[need] for need in step.needs])}")
    terms += [f"only with the {_part(part)} {state}" for part, state in step.requires]
    terms += _conditions(step, checklist, sheet)
    if step.lasts is not None:
        later = [numbers[other] for other in _protected(step, checklist)]
        done = "is done" if len(later) == 1 else "are done"
        until = f", until {listed(later)} {done}" if later else ""
        terms.append(f"counts for {span(step.lasts)}{until}")
    undone = [numbers[s.id] for s in checklist.steps() if set(step.causes) & set(s.undone_by)]
    if undone:
        terms.append(f"then {listed(undone)} again")
    return terms


def _conditions(step: Step, checklist: Checklist, sheet: JobSheet | None) -> list[str]:
    words = []
    labels = {question.id: question.label for question in checklist.questions}
    labels |= {fact.id: fact.label for fact in FACTS}
    if sheet is None:
        for name, word in ((step.when, "only if"), (step.unless, "not if")):
            if name:
                words.append(f"{word}: {labels.get(name, name.replace('_', ' '))}")
    for answer, word in ((step.when_answer, "only if"), (step.unless_answer, "not if")):
        if answer is not None:
            entry = checklist.entry(answer.entry)
            words.append(f"{word} “{entry.label}” is “{'” or “'.join(answer.texts)}”")
    return words


def _protected(step: Step, checklist: Checklist) -> tuple[str, ...]:
    return step.until or tuple(o.id for o in checklist.steps() if step.id in o.needs)


def _part(part: str) -> str:
    return part.replace("_", " ")


def _again(happening: Happening, checklist: Checklist, numbers: dict[str, int]) -> tuple[str, str]:
    undone = [numbers[s.id] for s in checklist.steps() if happening.id in s.undone_by]
    return happening.label, listed(undone)


def listed(numbers: list[int]) -> str:
    """Return numbers in order, runs of three and more joined.

    >>> listed([3, 1, 2, 7])
    '1–3, 7'
    """
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run))  # noqa: PLR2004
        for run in runs
    )
