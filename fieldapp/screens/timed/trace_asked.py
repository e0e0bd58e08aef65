"""What a timed screen asks for next: a column by keypad, a correction, or a note."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from fieldapp.checklist.model import Column, Entry, Step
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.kit.diagram.diagram_view import STATES, VOLUMES, Diagram, PartState
from fieldapp.screens.steps.steps_view import shortened
from fieldapp.screens.timed.trace_note_view import NoteView, correction_note, end_note
from fieldapp.screens.timed.trace_pad_view import (
    PadView,
    moment_in,
    pad_view,
    reading_of,
    slip_plate,
    whole,
)
from fieldapp.screens.timed.trace_times import Due, due_of

NOTES = ("end", "why")


@dataclass(frozen=True, slots=True)
class Timed:
    """What a timed screen is about: its entry, the last attempt, and what is typed and asked."""

    job: Job
    evaluation: Evaluation
    entry: Entry
    attempt: Attempt | None
    now: datetime
    part: str
    typed: Mapping[str, str]

    @property
    def step(self) -> Step:
        """The step of the entry."""
        return self.job.checklist.step_of(self.entry.id)

    @property
    def runs(self) -> bool:
        """Say whether the attempt runs."""
        return self.attempt is not None and self.attempt.ended is None

    @property
    def asks(self) -> str:
        """The first word of what is asked for: a column, "correct", "why", "end" or nothing."""
        return self.part.partition(" ")[0]

    @property
    def due(self) -> Due | None:
        """The next reading that is due, while the attempt runs."""
        if self.attempt is None or self.attempt.ended is not None:
            return None
        return due_of(self.entry, self.attempt, self.now)

    @property
    def due_words(self) -> str:
        """When the next reading is due, in words."""
        return self.due.words if self.due else ""

    def instrument(self, column: Column) -> str:
        """Return the instrument in hand for a column."""
        return self.typed.get(f"{column.id}_instrument", "") or column.measure.instrument

    def column(self, name: str) -> Column:
        """Return the column of that id."""
        return next(column for column in self.entry.columns if column.id == name)


def asked_column(timed: Timed) -> PadView | None:
    """Return the keypad for the column that is asked for, if one is."""
    name, _, rest = timed.part.partition(" ")
    if timed.attempt is None or name in ("", "end", "why"):
        return None
    values = timed.evaluation.values
    if name == "correct":
        return _correction_pad(timed, rest)
    column, text = timed.column(name), timed.typed.get(name, "")
    moment = moment_in(timed.part)
    if moment is not None:
        keep = PlateView("reading", "Keep", details=(name, text, moment.isoformat()))
        under = f"Read at {moment:%H:%M:%S}; this time is kept with it."
    else:
        keep = PlateView("ask done", "Done", details=(_next_column(timed, name),))
        under = timed.due_words
    keep = as_main(keep) if whole(text) else replace(keep, kind="waiting", second="type first")
    return pad_view(timed.job, values, timed.entry, column, timed.attempt, text,
                    (slip_plate(timed.attempt, column), keep), under, timed.now,
                    in_hand=timed.instrument(column))  # fmt: skip


def asked_note(timed: Timed) -> NoteView | None:
    """Return the note that is asked for, if one is."""
    name, _, rest = timed.part.partition(" ")
    if name == "end":
        return end_note(timed.entry)
    if name != "why" or timed.attempt is None:
        return None
    sequence, _, column = rest.partition(" ")
    old = reading_of(timed.attempt, int(sequence))
    fields = {c.id: old.fields[c.id] for c in timed.entry.columns if c.id in old.fields}
    was = f"{old.fields[column]} becomes {timed.typed.get(column, '')}."
    return correction_note(int(sequence), {**fields, column: timed.typed.get(column, "")}, was)


def _correction_pad(timed: Timed, rest: str) -> PadView:
    assert timed.attempt is not None  # noqa: S101 - only then a reading can be corrected
    sequence, _, name = rest.partition(" ")
    old, column, text = reading_of(timed.attempt, int(sequence)), timed.column(name), ""
    text = timed.typed.get(name, "")
    then = PlateView("ask why", "Say why", details=(f"why {sequence} {name}",))
    then = as_main(then) if whole(text) else replace(then, kind="waiting", second="type first")
    return pad_view(
        timed.job, timed.evaluation.values, timed.entry, column, timed.attempt, text,
        (PlateView("ask leave", "Leave it", details=("",)), then),
        f"It was {old.fields[name]}; the old value stays readable.",
        timed.now, f"Correct {old.taken:%H:%M:%S}",
    )  # fmt: skip


def _next_column(timed: Timed, name: str) -> str:
    """Return the next column that is neither typed nor known from the last reading."""
    attempt = timed.attempt
    known = attempt.readings[-1].fields if attempt and attempt.readings else {}
    names = [column.id for column in timed.entry.columns]
    later = names[names.index(name) + 1 :]
    return next((n for n in later if not timed.typed.get(n) and n not in known), "")


def without_back(frame: FrameView) -> FrameView:
    """Return the frame around a note, which has its own way back."""
    return replace(frame, plates=tuple(p for p in frame.plates if p.name != "back"))


def as_main(plate: PlateView) -> PlateView:
    """Return the plate as the one main act, unless it waits."""
    return plate if plate.kind == "waiting" else replace(plate, kind="main")


def start_plate(timed: Timed, *, good: bool) -> PlateView:
    """Return the plate that starts an attempt, or goes on once one is good."""
    if timed.attempt is None:
        return PlateView("start", "Start", "the clock runs", "main")
    standing = timed.evaluation.steps[timed.step.id]
    coming = timed.evaluation.next_step
    if good and standing.in_order and coming is not None:
        return PlateView("go", f"Next: {shortened(coming.step.title, 30)}", "", "main",
                         (coming.step.id,))  # fmt: skip
    if good and not standing.in_order and len(timed.step.entries) > 1:
        return PlateView("go", "Next entry", "of this step", "main", (timed.step.id,))
    return PlateView("start", "Start again", "a new try", "main")


def as_it_runs(diagram: Diagram | None, timed: Timed) -> Diagram | None:
    """Return the line diagram with what the step brings about, while its attempt runs."""
    if diagram is None or not timed.runs:
        return diagram
    sets = dict(timed.step.sets)
    parts = {part.part: part for part in diagram.parts}
    for part, state in sets.items():
        if state in STATES.get(part, ()):
            parts[part] = PartState(part, state, parts[part].tag if part in parts else "")
    volumes = {**dict(diagram.volumes), **{v: s for v, s in sets.items() if v in VOLUMES}}
    return replace(diagram, parts=tuple(parts.values()), volumes=tuple(volumes.items()))
