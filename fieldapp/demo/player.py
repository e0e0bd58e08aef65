"""Plays the invented job through the same actions as the screens, with the same checks."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from fieldapp.actions.entering import (
    correct,
    end,
    enter,
    make_safe,
    read,
    report,
    start,
)
from fieldapp.actions.rules import Act, Outcome
from fieldapp.actions.sign_off import accept, explain, promise, see, sign, to_see
from fieldapp.checklist.model import Entry, Kind
from fieldapp.demo.hands import strokes_of
from fieldapp.demo.script import Line, read_script, span
from fieldapp.demo.sketches import sketch
from fieldapp.errors import FieldAppError
from fieldapp.job.job import Job
from fieldapp.journal import pictures
from fieldapp.journal.jobs import Jobs, KeptJob
from fieldapp.places import checklists
from fieldapp.units import UNITS

HERE = Path(__file__).parent


class DemoRefusedError(FieldAppError):
    """The demo did something that the app does not allow: one of the two is wrong."""

    def __init__(self, line: Line, why: str) -> None:
        super().__init__(f"demo, {line.at:%m-%d %H:%M}, {line.verb} {line.subject}: {why}")
        self.line = line


@dataclass
class SteppingClock:
    """A clock that shows what it was last set to."""

    now: datetime

    def __call__(self) -> datetime:
        """Return the time."""
        return self.now


@dataclass(frozen=True, slots=True)
class Played:
    """What is told of each line as it is played."""

    line: Line
    done: int
    lines: int


def script() -> tuple[Line, ...]:
    """Return the demo's script."""
    return read_script((HERE / "script.psv").read_text(encoding="utf-8"))


def checklist_text() -> str:
    """Return the hookup checklist as it is in the package."""
    return (checklists() / "hookup" / "checklist.toml").read_text(encoding="utf-8")


def sheet_text() -> str:
    """Return the demo's job sheet."""
    return (HERE / "sheet.toml").read_text(encoding="utf-8")


def play(home: Path, told: Callable[[Played], None], until: datetime | None = None) -> Jobs:
    """Play the job into the journals below `home`; return its jobs, still open."""
    lines = script()
    begun = lines[0].at - timedelta(minutes=25)
    clock = SteppingClock(begun)
    jobs = Jobs(home, clock)
    kept = jobs.begin(checklist_text(), sheet_text(), lines[0].who)
    if not isinstance(kept, KeptJob):
        raise DemoRefusedError(lines[0], "; ".join(map(str, kept)))
    for place, line in enumerate(lines):
        if until is not None and line.at > until:
            break
        clock.now = line.at
        for act in _acts(line, kept, jobs):
            refusal = kept.keep(act(kept.job))
            if refusal is not None:
                raise DemoRefusedError(line, str(refusal))
        told(Played(line, place + 1, len(lines)))
    return jobs


Doing = Callable[[Job], Outcome]


def _acts(line: Line, kept: KeptJob, jobs: Jobs) -> Iterator[Doing]:
    """Yield what a line does, each as an action on the job as it then is."""
    act = Act(line.who, line.at)
    match line.verb:
        case "enter":
            yield from _entered(line, kept, act, jobs)
        case "correct":
            subject, _, given = line.given.partition(" ")
            fields = _fields(kept.job.checklist.entry(subject), given)
            yield lambda job: correct(job, subject, fields, line.note, act)
        case "happening":
            yield lambda job: report(job, line.given, act, note=line.note)
        case "explain":
            subject, words = _pair(line.given)
            yield lambda job: explain(job, subject, words, act)
        case "accept":
            subject, words = _pair(line.given)
            yield lambda job: accept(job, subject, words, act)
        case "promise":
            subject, words = _pair(line.given)
            person, _, day = words.rpartition(", ")
            yield lambda job: promise(job, subject, person, day, act)
        case "leave":
            yield lambda job: make_safe(job, "leaving", act, note=line.given)


def _pair(text: str) -> tuple[str, str]:
    subject, _, words = text.partition(":")
    return subject.strip(), words.strip()


def _entered(line: Line, kept: KeptJob, act: Act, jobs: Jobs) -> Iterator[Doing]:
    entry = kept.job.checklist.entry(line.subject)
    if entry.kind is Kind.SIGN:
        yield from _signed(entry, kept, act)
    elif entry.kind in (Kind.TRACE, Kind.HOLD):
        yield from _timed(entry, line)
    elif entry.kind is Kind.PHOTO:
        shown = _pictured(line.given, kept, jobs)
        yield lambda job: enter(job, entry.id, shown, act)
    else:
        fields = _fields(entry, line.given)
        yield lambda job: enter(job, entry.id, fields, act, instrument=_named(line))


def _pictured(name: str, kept: KeptJob, jobs: Jobs) -> dict[str, str]:
    """Take the demo's picture on the tablet and keep it with the job."""
    taken = jobs.home / pictures.FOLDER / name
    taken.parent.mkdir(exist_ok=True)
    taken.write_bytes(sketch(name))
    picture = pictures.keep(jobs.folder(kept.job.number), taken)
    return {"photo": picture.name, "sha256": picture.sha256}


def _named(line: Line) -> str:
    return "" if "," in line.instrument or " " in line.instrument else line.instrument


def _signed(entry: Entry, kept: KeptJob, act: Act) -> Iterator[Doing]:
    if entry.role == "crew lead":
        for event in to_see(kept.job):
            sequence = event.sequence
            yield lambda job, sequence=sequence: see(job, sequence, act)  # type: ignore[misc]
    yield lambda job: sign(job, entry.role, kept.head.hash, act, strokes=strokes_of(act.who))


def _timed(entry: Entry, line: Line) -> Iterator[Doing]:
    separator = ", " if entry.kind is Kind.TRACE and len(entry.columns) == 1 else ";"
    begin = Act(line.who, line.at)
    yield lambda job: start(job, entry.id, begin)
    last = line.at
    for part in filter(None, (part.strip() for part in line.given.split(separator))):
        time, figures = _time_and_figures(part)
        last = line.at + span(time)
        if entry.columns:
            fields = dict(zip((c.id for c in entry.columns), figures, strict=True))
            act = Act(line.who, last)
            yield lambda job, fields=fields, act=act: read(  # type: ignore[misc]
                job, entry.id, fields, act
            )
    note = line.note.partition("note ")[2].strip('“”" ')
    finish = Act(line.who, last + timedelta(seconds=30))
    yield lambda job: end(job, entry.id, finish, note=note)


def _time_and_figures(part: str) -> tuple[str, list[str]]:
    """Return the time and the figures of “2:30 406”, “10: 63.1, 22.0” or “15:”."""
    time, _, rest = part.partition(" ")
    return time.removesuffix(":"), [figure.strip(",") for figure in rest.split()]


def _fields(entry: Entry, given: str) -> dict[str, str]:
    match entry.kind:
        case Kind.NUMBER:
            return _figure(given)
        case Kind.ALARM:
            return _alarm(entry, given)
    return {"value": given}


def _figure(text: str) -> dict[str, str]:
    number, _, unit = text.partition(" ")
    return {"value": number, "value_unit": unit} if unit in UNITS else {"value": number}


def _alarm(entry: Entry, given: str) -> dict[str, str]:
    tripped, value, closed, seen = (part.strip() for part in given.split(";"))
    if tripped != "yes":
        return {"tripped": "no"}
    checks = {f"seen_{place}": "yes" for place in range(len(entry.checks))}
    if seen != "all":
        checks |= {
            f"seen_{place}": "no" for place, check in enumerate(entry.checks) if check in seen
        }
    figure = _figure(value) if value and entry.measure else {}
    return {"tripped": "yes", "closed_after": closed, **figure, **checks}
