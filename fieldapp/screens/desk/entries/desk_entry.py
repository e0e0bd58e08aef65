"""What touches mean where an entry is given, and where a reason is asked for."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from fieldapp.actions.entering import cannot_measure, correct, enter
from fieldapp.actions.rules import OWNER
from fieldapp.actions.sign_off import accept, explain, promise
from fieldapp.checklist.model import Entry, Kind, Waive
from fieldapp.screens.desk import desk_jobs
from fieldapp.screens.desk.desk_steps import after_entry, to_whole_step
from fieldapp.screens.desk.entries.desk_instruments import in_hand
from fieldapp.screens.desk.entries.desk_photo import CHOSEN, kept_picture
from fieldapp.screens.desk.entries.desk_units import unit_of
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.draft import Draft
from fieldapp.screens.entry.entry_answers import parts_of
from fieldapp.screens.entry.entry_times import written_time
from fieldapp.screens.place import Place
from fieldapp.screens.reason_view import (
    CONDITION,
    CORRECT,
    DOCUMENT,
    DUE,
    EXPLAIN,
    MISSING,
    NOTE,
    PERSON,
    REASONS,
    day_in,
)

_DAYS = {"0": "1", "1": "2", "2": "3", "3": "-1", "-1": "0"}


def draft_of(state: DeskState, entry: Entry) -> Draft:
    """Return what stands typed at an entry."""
    fields = {
        part: text
        for (name, part), text in state.typed.items()
        if name == entry.id and text and part not in REASONS
    }
    if entry.kind is Kind.TIME and fields.get("digits"):
        days = int(fields.get("days", "0"))
        fields["value"] = written_time(fields["digits"], days, state.now)
    unit = unit_of(state, entry)
    if entry.measure and unit != entry.measure.unit and fields.get("value"):
        fields["value_unit"] = unit
    return Draft(fields, instrument_of(state, entry), state.who, state.now)


def instrument_of(state: DeskState, entry: Entry) -> str:
    """Return the instrument in hand for an entry: the one taken, or the checklist's."""
    return in_hand(state, entry, entry.measure)


def typed(state: DeskState, text: str, field: str = "") -> None:
    """Hold what stands typed at the present place; it is kept by another touch."""
    place = state.place
    if place.screen == "reason":
        state.type(place.entry, text, place.purpose)
        return
    name = place.entry or place.screen
    part = field or place.part or "value"
    if place.screen == "entry" and state.job.checklist.entry(name).kind is Kind.TIME:
        part = "digits"
    state.type(name, text, part)


def choose(state: DeskState, option: str) -> None:
    """Hold an answer."""
    state.type(state.place.entry, option)


def answer(state: DeskState, field: str, yes_or_no: str) -> None:
    """Hold what was seen of a shutdown; after the first answer the next figure is asked for."""
    state.type(state.place.entry, yes_or_no, field)
    if field == "tripped":
        _ask(state, 1)


def next_part(state: DeskState) -> None:
    """Ask for the next figure of a shutdown."""
    _ask(state, 1)


def part_before(state: DeskState) -> None:
    """Ask for the figure before."""
    _ask(state, -1)


def keep(state: DeskState) -> None:
    """Keep what stands typed, on the disk, then go on."""
    entry = _entry(state)
    if _keep(state, entry):
        after_entry(state, entry)


def confirm(state: DeskState) -> None:
    """Confirm, keep and go on."""
    state.type(state.place.entry, "yes")
    keep(state)


def keep_and_say_why(state: DeskState) -> None:
    """Keep what stands typed and ask why it is kept."""
    entry = _entry(state)
    if _keep(state, entry):
        step = state.place.step
        to_whole_step(state, step)
        state.go(Place("reason", step, entry.id, purpose=EXPLAIN))


def again(state: DeskState) -> None:
    """Let go of what stands typed: it is measured again."""
    entry = _entry(state)
    state.forget(entry.id)
    if entry.kind is Kind.ALARM:
        state.place = replace(state.place, part="tripped")


def correct_slip(state: DeskState) -> None:
    """Ask what was wrong with what is kept; the new value stands typed."""
    entry = _entry(state)
    fields = draft_of(state, entry).fields
    if not any(fields.get(name) for name in ("value", "tripped", CHOSEN)):
        state.refused = "Give the right one first, then touch “it was a slip”."
        return
    state.go(Place("reason", state.place.step, entry.id, purpose=CORRECT))


def say_why_missing(state: DeskState) -> None:
    """Ask why something cannot be taken."""
    place = state.place
    state.go(Place("reason", place.step, place.entry, purpose=MISSING))


def later(state: DeskState) -> None:
    """Leave an entry open and go to the step as it stands."""
    to_whole_step(state, state.place.step)


def another_day(state: DeskState) -> None:
    """Take another day for a time: today, tomorrow, the two after, yesterday."""
    name = state.place.entry
    state.type(name, _DAYS[state.text(name, "days") or "0"], "days")


def reason_kept(state: DeskState, text: str) -> None:
    """Do what the reason was asked for."""
    place = state.place
    state.type(place.entry, text, place.purpose)
    _FOR_PURPOSE[place.purpose](state, text)


def reason_left(state: DeskState) -> None:
    """Go back without a reason; what was typed at the entry stays."""
    state.back()


def _keep(state: DeskState, entry: Entry) -> bool:
    draft = draft_of(state, entry)
    fields = _to_keep(state, entry, draft)
    kept = fields is not None and state.keep(
        lambda job: enter(job, entry.id, fields, state.act, instrument=draft.instrument)
    )
    if kept:
        state.forget(entry.id)
    return kept


def _to_keep(state: DeskState, entry: Entry, draft: Draft) -> dict[str, str] | None:
    """Return the fields to keep; None where a picture cannot be kept, and why is told."""
    return kept_picture(state, entry) if entry.kind is Kind.PHOTO else kept_fields(draft)


def kept_fields(draft: Draft) -> dict[str, str]:
    """Return the fields that are kept of a draft: not how a time was typed."""
    return {name: text for name, text in draft.fields.items() if name not in ("digits", "days")}


def _explain(state: DeskState, text: str) -> None:
    place = state.place
    if state.keep(lambda job: explain(job, place.entry, text, state.act)):
        state.forget(place.entry)
        to_whole_step(state, place.step)


def _correct(state: DeskState, text: str) -> None:
    entry = _entry(state)
    draft = draft_of(state, entry)
    fields = _to_keep(state, entry, draft)
    if fields is not None and state.keep(
        lambda job: correct(job, entry.id, fields, text, state.act, instrument=draft.instrument)
    ):
        state.forget(entry.id)
        to_whole_step(state, state.place.step)


def _condition(state: DeskState, text: str) -> None:
    place = state.place
    deviation = next(d for d in state.evaluation().deviations if d.subject == place.entry)
    if deviation.verdict.waive is Waive.OWNER:
        state.turn(replace(place, purpose=DOCUMENT))
        return
    if state.keep(lambda job: accept(job, place.entry, text, state.act)):
        state.forget(place.entry)
        to_whole_step(state, place.step)


def _document(state: DeskState, text: str) -> None:
    place = state.place
    condition = state.text(place.entry, CONDITION)
    engineers = state.job.sheet.people(OWNER)
    if not engineers:
        state.refused = "No owner’s engineer is in the crew of this job sheet."
        return
    name = state.who if state.who in [p.name for p in engineers] else engineers[0].name
    if state.keep(
        lambda job: accept(job, place.entry, condition, state.act, accepter=name, document=text)
    ):
        state.forget(place.entry)
        to_whole_step(state, place.step)


def _missing(state: DeskState, text: str) -> None:
    place = state.place
    if state.keep(lambda job: cannot_measure(job, place.entry, text, state.act)):
        state.forget(place.entry)
        to_whole_step(state, place.step)


def _person(state: DeskState, _: str) -> None:
    state.turn(replace(state.place, purpose=DUE))


def _due(state: DeskState, text: str) -> None:
    place, person = state.place, state.text(state.place.entry, PERSON)
    if state.keep(lambda job: promise(job, place.entry, person, day_in(text), state.act)):
        state.forget(place.entry)
        to_whole_step(state, place.step)


def _note(state: DeskState, text: str) -> None:
    desk_jobs.keep_note(state, state.place.entry, text)


_FOR_PURPOSE: Mapping[str, Callable[[DeskState, str], None]] = {
    EXPLAIN: _explain,
    CORRECT: _correct,
    CONDITION: _condition,
    DOCUMENT: _document,
    MISSING: _missing,
    PERSON: _person,
    DUE: _due,
    NOTE: _note,
}


def _ask(state: DeskState, steps: int) -> None:
    entry = _entry(state)
    parts = parts_of(entry, state.text(entry.id, "tripped"))
    at = parts.index(state.place.part) if state.place.part in parts else 0
    state.place = replace(state.place, part=parts[max(0, min(at + steps, len(parts) - 1))])


def _entry(state: DeskState) -> Entry:
    return state.job.checklist.entry(state.place.entry)


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("entry", "keep"): keep,
    ("entry", "yes"): confirm,
    ("entry", "again"): again,
    ("entry", "say why"): keep_and_say_why,
    ("entry", "correct"): correct_slip,
    ("entry", "missing"): say_why_missing,
    ("entry", "later"): later,
    ("entry", "choose"): choose,
    ("entry", "answer"): answer,
    ("entry", "next part"): next_part,
    ("entry", "part before"): part_before,
    ("entry", "day"): another_day,
    ("reason", "kept"): reason_kept,
    ("reason", "left"): reason_left,
}
