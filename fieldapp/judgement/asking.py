"""Which steps a job asks for: by the facts of its sheet, and by what was answered before."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from fieldapp.checklist.model import Answer, Checklist, Entry, Kind, Step
from fieldapp.job.state import Given, JobState


@dataclass(frozen=True, slots=True)
class Answers:
    """The yes-or-no facts, what stands at each choice and confirmation, and what is awaited.

    Only entries of steps that are asked for count: what was answered at a step that is no
    longer needed asks for nothing.
    """

    facts: Mapping[str, bool]
    given: Mapping[str, Given] = field(default_factory=dict)
    awaited: frozenset[str] = frozenset()

    def says(self, answer: Answer) -> bool:
        """Say whether the entry stands at one of the answers."""
        given = self.given.get(answer.entry)
        return given is not None and given.fields.get("value") in answer.texts


def answers_of(checklist: Checklist, state: JobState, facts: Mapping[str, bool]) -> Answers:
    """Return what decides which steps are asked for, as it stands now."""
    answers = Answers(facts)
    for answer_entry, step in _askers(checklist):
        if asked_for(step, answers):
            answers = _with(answers, answer_entry, state)
    return answers


def asked_for(step: Step, answers: Answers) -> bool:
    """Say whether a step is needed; one whose answer is awaited may be."""
    return (
        asked_by_facts(step, answers)
        and _wanted(step.when_answer, answers, says=True)
        and _wanted(step.unless_answer, answers, says=False)
    )


def asked_by_facts(step: Step, answers: Answers) -> bool:
    """Say whether the job sheet asks for a step, whatever is answered on site."""
    if step.when and not answers.facts.get(step.when, False):
        return False
    return not (step.unless and answers.facts.get(step.unless, False))


def conditions(step: Step) -> tuple[Answer, ...]:
    """Return the answers on which a step depends."""
    return tuple(answer for answer in (step.when_answer, step.unless_answer) if answer is not None)


def because(step: Step, checklist: Checklist, answers: Answers) -> str:
    """Return in words the answer by which a step is asked for, or is not; "" if by none."""
    parts = [
        _said(checklist.entry(answer.entry), answers.given[answer.entry])
        for answer in conditions(step)
        if answer.entry in answers.given
    ]
    return ", ".join(parts)


def corrected(step: Step, answers: Answers) -> bool:
    """Say whether an answer on which the step depends was corrected."""
    given = [answers.given.get(answer.entry) for answer in conditions(step)]
    return any(one is not None and one.corrects >= 0 for one in given)


def _wanted(answer: Answer | None, answers: Answers, *, says: bool) -> bool:
    return answer is None or answer.entry in answers.awaited or answers.says(answer) is says


def _askers(checklist: Checklist) -> list[tuple[Entry, Step]]:
    asking = {answer.entry for step in checklist.steps() for answer in conditions(step)}
    return [
        (entry, step)
        for step in checklist.steps()
        for entry in step.entries
        if entry.id in asking and entry.kind in (Kind.CHOICE, Kind.CONFIRM)
    ]


def _with(answers: Answers, entry: Entry, state: JobState) -> Answers:
    given = state.latest(entry.id)
    if given is not None:
        return Answers(answers.facts, {**answers.given, entry.id: given}, answers.awaited)
    if entry.optional:
        return answers
    return Answers(answers.facts, answers.given, answers.awaited | {entry.id})


def _said(entry: Entry, given: Given) -> str:
    words = f"“{entry.label}” is “{given.fields.get('value', '')}”"
    return f"{words}, corrected {given.at:%H:%M}" if given.corrects >= 0 else words
