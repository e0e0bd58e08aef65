"""Who did what: the crew, what they reported and were warned of, and who signed."""

from collections import Counter
from collections.abc import Mapping
from datetime import datetime

from fieldapp.actions.rules import LEAD, TECHNICIAN
from fieldapp.job import events
from fieldapp.job.events import Event
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation, StepState
from fieldapp.record.chapters.front.heading import is_commissioning
from fieldapp.record.chapters.shapes.shapes_of_sources import Happened, Person, Signature, Warned
from fieldapp.record.chapters.words import initials_of, stamp

DID = "I did this work, or saw it done. The entries are mine and were made when they say."
REVIEWED = (
    "I have reviewed this record, with every deviation and correction in it, and close the {what} "
    "as it stands."
)

NOBODY = "nobody was named to take it over"


def people_of(job: Job) -> tuple[Person, ...]:
    """Return the crew, with how many lines of the journal each has written."""
    initials = initials_of(person.name for person in job.sheet.crew)
    written = Counter(event.by for event in job.state.log)
    return tuple(
        Person(p.name, initials[p.name], p.role, p.company, written[p.name]) for p in job.sheet.crew
    )


def cautions_of(job: Job, evaluation: Evaluation) -> tuple[Warned, ...]:
    """Return the cautions of the steps that this job needs."""
    return tuple(
        Warned(step.id, step.title, str(step.caution.word), step.caution.text)
        for step in job.checklist.steps()
        if step.caution and evaluation.steps[step.id].state is not StepState.NOT_NEEDED
    )


def signatures_of(job: Job, keys: Mapping[str, str]) -> tuple[Signature, ...]:
    """Return the signatures that stand, the technician's first; `keys` are fingerprints by name."""
    found = []
    what = "hookup" if is_commissioning(job) else "job"
    meanings = {TECHNICIAN: DID, LEAD: REVIEWED.format(what=what)}
    for role in (TECHNICIAN, LEAD):
        signed = job.state.signature(role)
        if signed is not None and isinstance(signed.what, events.Signed):
            found.append(Signature(
                role, signed.what.name, stamp(signed.at), meanings[role],
                signed.what.head, keys.get(signed.what.name, ""), signed.what.strokes,
                signed.what.typed,
            ))  # fmt: skip
    return tuple(found)


def happenings_of(job: Job) -> tuple[Happened, ...]:
    """Return what was reported, made safe, closed or sent back, in order."""
    happened = (_happened(job, event) for event in job.state.log)
    return tuple(one for one in happened if one is not None)


def _happened(job: Job, event: Event) -> Happened | None:
    labels = {happening.id: happening.label for happening in job.checklist.happenings}
    found: Happened | None = None
    match event.what:
        case events.Reported(happening, note):
            again = _again(job, happening, event.sequence)
            found = _line(event, "reported", labels.get(happening, happening), note, again)
        case events.Closed(part, note):
            found = _line(event, "closed", part.replace("_", " "), note)
        case events.MadeSafe(done, note):
            found = _line(event, "made safe", done, note)
        case events.Blocked() | events.Restored() | events.HandedOver():
            found = _in_force(job, event)
        case events.GapStated(missing, _, reason):
            found = _line(event, "entries lost", f"{missing} kept entries lost by the disk", reason)
        case events.Settled(after, kept, reason, aside):
            what = f"tablets apart after event {after}: {kept} goes on, {len(aside)} set aside"
            found = _line(event, "settled", what, reason)
        case events.SentBack(reason):
            found = _line(event, "sent back", reason, "")
    return found


def _in_force(job: Job, event: Event) -> Happened | None:
    """Return what was blocked, restored, or handed over when somebody left with it in force."""
    match event.what:
        case events.Blocked(what, person, role, until):
            ends = f"until {until}" if until else "without an end"
            return _line(event, "blocked", what, f"by {person}, {role}, {ends}")
        case events.Restored(sequence, person, role, proved):
            blocked = job.state.log[sequence].what
            assert isinstance(blocked, events.Blocked)  # noqa: S101 - the action saw to it
            return _line(event, "restored", blocked.what, f"by {person}, {role}; {proved}")
        case events.HandedOver(in_force, person, role):
            taken = f"handed over to {person}, {role}" if person else NOBODY
            return _line(event, "left the site", "; ".join(in_force), taken.rstrip(", "))
    return None


def _line(event: Event, kind: str, what: str, note: str, again: tuple[str, ...] = ()) -> Happened:
    return Happened(stamp(event.at), kind, what, note, event.by, again)


def _again(job: Job, happening: str, sequence: int) -> tuple[str, ...]:
    """Return the steps that a happening made stale, and when each was done again."""
    words = []
    for step in job.checklist.steps():
        if happening not in step.undone_by:
            continue
        moments = [m for entry in step.entries for m in _moments(job, entry.id)]
        if not any(number < sequence for number, _ in moments):
            continue
        later = [at for number, at in moments if number > sequence]
        words.append(f"{step.title}: {f'{later[0]:%H:%M}' if later else 'not yet'}")
    return tuple(words)


def _moments(job: Job, entry: str) -> list[tuple[int, datetime]]:
    given = [(g.since, g.done_at) for g in job.state.given.get(entry, ())]
    return given + [(a.sequence, a.started) for a in job.state.attempts.get(entry, ())]
