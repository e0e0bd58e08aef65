"""Deciding on deviations, and signing off: what is outside, who accepts it, who signs."""

from datetime import date, datetime

from fieldapp.actions.rules import (
    LEAD,
    OWNER,
    TECHNICIAN,
    Act,
    Outcome,
    Refusal,
    may_not_accept,
    no_reason,
    not_lead,
    outcome,
    signed_already,
    unknown_person,
)
from fieldapp.checklist.model import Waive
from fieldapp.job import events
from fieldapp.job.events import Entered, Event, Explained, Read, Stroke
from fieldapp.job.job import Job
from fieldapp.judgement.deviations import Deviation
from fieldapp.judgement.evaluation import evaluate


def explain(job: Job, subject: str, reason: str, act: Act) -> Outcome:
    """Say why something outside its limits is kept."""
    deviation = _deviation(job, subject, act.at)
    reasons = (
        *unknown_person(job, act),
        *no_reason(reason),
        *(() if deviation else ("Nothing is outside its limits there.",)),
    )
    return outcome(job, act, reasons, events.Explained(subject, reason.strip()))


def accept(
    job: Job, subject: str, condition: str, act: Act, *, accepter: str = "", document: str = ""
) -> Outcome:
    """Accept a deviation: the crew lead, or the owner's engineer named with a document."""
    deviation = _deviation(job, subject, act.at)
    if deviation is None:
        return Refusal(("Nothing is outside its limits there.",))
    waive = deviation.verdict.waive
    role = OWNER if waive is Waive.OWNER else LEAD
    name = accepter or act.who
    reasons = (
        *unknown_person(job, act),
        *may_not_accept(job, waive, name, document),
        *(() if condition.strip() else ("Say on what condition it is accepted.",)),
    )
    return outcome(job, act, reasons, events.Accepted(
        subject, name, role, condition.strip(), document.strip()
    ))  # fmt: skip


def promise(job: Job, subject: str, person: str, due: str, act: Act) -> Outcome:
    """Leave a deviation open until a day by which a named person sees to it.

    What was accepted on a condition needs this before anybody signs.
    """
    deviation = _deviation(job, subject, act.at)
    if deviation is None:
        return Refusal(("Nothing is outside its limits there.",))
    reasons = (
        *unknown_person(job, act),
        *(signed_already(job) if job.state.signature(LEAD) else ()),
        *_not_to_leave_open(deviation),
        *(() if person.strip() else ("Say who puts it right.",)),
        *_no_day(due, act),
    )
    return outcome(job, act, reasons, events.Promised(subject, person.strip(), due.strip()))


def _not_to_leave_open(deviation: Deviation) -> tuple[str, ...]:
    if deviation.verdict.waive is Waive.NEVER:
        return ("Nobody may leave this open: put it right and do it again.",)
    return ()


def _no_day(due: str, act: Act) -> tuple[str, ...]:
    try:
        day = date.fromisoformat(due.strip())
    except ValueError:
        return (f"“{due}” is no day: write it like 2026-06-30.",)
    return (f"{day} is past: name a day to come.",) if day < act.at.date() else ()


def see(job: Job, sequence: int, act: Act) -> Outcome:
    """The crew lead has seen a correction or a reason."""
    reasons = (*unknown_person(job, act), *not_lead(job, act.who))
    return outcome(job, act, reasons, events.Seen(sequence))


def send_back(job: Job, reason: str, act: Act) -> Outcome:
    """The crew lead sends the job back: earlier signatures no longer stand."""
    reasons = (*unknown_person(job, act), *not_lead(job, act.who), *no_reason(reason))
    return outcome(job, act, reasons, events.SentBack(reason.strip()))


def sign(
    job: Job, role: str, head: str, act: Act, *, strokes: tuple[Stroke, ...] = (), typed: str = ""
) -> Outcome:
    """Sign in a role: the technician first, then the crew lead, another person.

    `head` is the head of the journal that the signature stands for. A hand that cannot draw
    types the printed name instead.
    """
    reasons = (
        *unknown_person(job, act),
        *_not_in_role(job, role, act.who),
        *not_the_name(typed, act.who),
        *_already(job, role),
        *still_open(job, role, act.at),
    )
    return outcome(job, act, reasons, events.Signed(role, act.who, head, strokes, typed))


def not_the_name(typed: str, who: str) -> tuple[str, ...]:
    """Return why a typed name does not stand for a signature: it is not the printed one."""
    if not typed or typed.split() == who.split():
        return ()
    return (f"Type the name as it is printed: {who}.",)


def still_open(job: Job, role: str, at: datetime) -> tuple[str, ...]:
    """Return what keeps a role from signing, each in a sentence."""
    evaluation = evaluate(job, at)
    signing = [step for step in job.checklist.steps() if any(e.role for e in step.entries)]
    own = next((s for s in signing if any(e.role == role for e in s.entries)), None)
    before = job.checklist.steps()
    if own is not None:
        before = before[: before.index(own)]
    reasons = [
        f"“{step.title}”: {evaluation.steps[step.id].why or evaluation.steps[step.id].state}"
        for step in before
        if not evaluation.steps[step.id].in_order
    ]
    reasons += [
        f"{label_of(job, one.subject)}: accepted on a condition. Say who sees to it, by which day."
        for one in evaluation.deviations
        if one.unowned
    ]
    if role == LEAD:
        reasons += [f"Not yet seen: {words_of(job, event)}" for event in to_see(job)]
    return tuple(reasons)


def to_see(job: Job) -> tuple[Event, ...]:
    """Return the corrections and reasons that the crew lead has yet to see."""
    return tuple(event for event in must_be_seen(job) if event.sequence not in job.state.seen)


def must_be_seen(job: Job) -> tuple[Event, ...]:
    """Return every correction, and every reason given for something outside its limits."""
    return tuple(
        event
        for event in job.state.log
        if isinstance(event.what, Explained)
        or (isinstance(event.what, Entered | Read) and event.what.corrects >= 0)
    )


def words_of(job: Job, event: Event) -> str:
    """Return in a sentence what the crew lead has to see."""
    what = event.what
    if isinstance(what, Explained):
        return f"{label_of(job, what.subject)}: “{what.reason}”, {event.by}."
    assert isinstance(what, Entered | Read)  # noqa: S101 - nothing else must be seen
    return f"{label_of(job, what.entry)} corrected: “{what.reason}”, {event.by}."


def label_of(job: Job, subject: str) -> str:
    """Return the label of an entry or of a computed value."""
    for computed in job.checklist.computed:
        if computed.id == subject:
            return computed.label
    return job.checklist.entry(subject).label


def _not_in_role(job: Job, role: str, name: str) -> tuple[str, ...]:
    if role not in (TECHNICIAN, LEAD):
        return (f"“{role}” signs nothing here.",)
    person = job.sheet.person(name)
    if person is not None and person.role != role:
        return (f"{name} is {person.role} and cannot sign as {role}.",)
    return ()


def _already(job: Job, role: str) -> tuple[str, ...]:
    if job.state.signature(role) is not None:
        return (f"The {role} has signed already.",)
    technician = job.state.signature(TECHNICIAN)
    if role == LEAD and technician is None:
        return ("The technician signs first.",)
    return ()


def _deviation(job: Job, subject: str, at: datetime) -> Deviation | None:
    return next((d for d in evaluate(job, at).deviations if d.subject == subject), None)
