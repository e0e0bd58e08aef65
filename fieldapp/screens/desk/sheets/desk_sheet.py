"""What touches mean on a job sheet: typing it on the tablet, or reading the one of a job."""

from collections.abc import Callable, Mapping
from datetime import date
from functools import lru_cache

from fieldapp.checklist.facts import FactKind
from fieldapp.checklist.problems import Problem
from fieldapp.job.sheet_checks import check_instruments, check_owner
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.screens.desk.desk_jobs import begin_with
from fieldapp.screens.desk.desk_lists import asked_of_owner, checklist_of
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.place import Place
from fieldapp.screens.sheet.sheet_fields import Section, SheetField, sections_of
from fieldapp.screens.sheet.sheet_text import instrument_names, problems_in, text_of, typed_from
from fieldapp.whole import write_whole

SHEET = "sheet"
READ = "read"
_DAY = 8


def typed_sheet(state: DeskState) -> dict[str, str]:
    """Return the sheet that is typed; or that of the job in hand, where it is only read."""
    if state.place.purpose.startswith(READ):
        return typed_from(state.job.sheet.text)
    return {part: text for (name, part), text in state.typed.items() if name == SHEET}


def sections(state: DeskState) -> tuple[Section, ...]:
    """Return the sections of the sheet."""
    read = state.place.purpose.startswith(READ)
    checklist = state.job.checklist if read else checklist_of(state.checklist)
    found = sections_of(checklist, typed_sheet(state))
    return tuple(s for s in found if not (read and s.title == "One more person"))


def section_here(state: DeskState) -> Section:
    """Return the section in hand."""
    return next(one for one in sections(state) if one.id == state.place.step)


def field_here(state: DeskState) -> SheetField:
    """Return the field in hand."""
    return next(f for f in section_here(state).fields if f.name == state.place.entry)


def problems(state: DeskState) -> dict[str, dict[str, str]]:
    """Return what is wrong with the typed sheet, by section and key."""
    if state.place.purpose.startswith(READ):
        return {}
    text = text_of(typed_sheet(state), checklist_of(state.checklist))
    found = _problems(state.checklist, text, state.now.date(), asked_of_owner(state))
    names = instrument_names(text)
    each = {one.id: problems_in(one, found, text, names) for one in sections(state)}
    each = {name: wrong for name, wrong in each.items() if wrong}
    placed = sum(len(wrong) for wrong in each.values())
    if found and not placed:
        each["job"] = {"": found[0].what}
    return each


@lru_cache(maxsize=2)
def _problems(
    checklist: str, text: str, today: date, others: frozenset[str]
) -> tuple[Problem, ...]:
    found = read_sheet(text, today)
    if isinstance(found, tuple):
        return found
    wanted = checklist_of(checklist)
    return (*check_owner(found, wanted, others), *check_instruments(found, wanted))


def type_new(state: DeskState) -> None:
    """Begin to type a sheet; one that was begun is still there."""
    state.go(Place("sheet"))


def change(state: DeskState, name: str) -> None:
    """Type on from a sheet that lies on the tablet; the file itself stays as it is."""
    try:
        text = (state.sheets / name).read_text(encoding="utf-8-sig", errors="replace")
    except OSError:
        state.refused = f"{name}: cannot be read: copy it to the tablet again."
        return
    state.forget(SHEET)
    state.typed |= {(SHEET, part): words for part, words in typed_from(text).items()}
    state.turn(Place("sheet"))


def read_only(state: DeskState) -> None:
    """Show the sheet of the job in hand."""
    state.go(Place("sheet", purpose=READ))


def to_section(state: DeskState, section: str) -> None:
    """Show the fields of a section."""
    state.go(Place("section", section, purpose=state.place.purpose))


def to_field(state: DeskState, name: str) -> None:
    """Type a field."""
    state.go(Place("field", state.place.step, name))


def typed(state: DeskState, text: str) -> None:
    """Hold what stands typed; a day is written as the sheet wants it."""
    field = field_here(state)
    if field.kind is FactKind.DATE and len(text) == _DAY and text.isdecimal():
        text = f"{text[:4]}-{text[4:6]}-{text[6:]}"
    state.type(SHEET, text, field.name)


def erase(state: DeskState) -> None:
    """Leave a field empty and go on."""
    state.type(SHEET, "", state.place.entry)
    keep(state)


def keep(state: DeskState) -> None:
    """Write the sheet to the tablet and go to the next field, or back to the section."""
    save(state)
    members = section_here(state).fields
    at = members.index(field_here(state)) + 1
    if at < len(members):
        state.turn(Place("field", state.place.step, members[at].name))
    else:
        state.back()


def save(state: DeskState) -> None:
    """Keep the typed sheet in a file, so that it is there when the tablet stops."""
    held = typed_sheet(state)
    number = "".join(c for c in held.get("number", "") if c.isalnum() or c in "._-")
    path = state.sheets / f"typed-{number or 'sheet'}.toml"
    try:
        write_whole(path, text_of(held, checklist_of(state.checklist)).encode())
        state.not_saved = ""
    except OSError as failure:
        state.not_saved = f"The sheet does not fit on the disk ({failure.strerror}). Make room."


def begin(state: DeskState) -> None:
    """Begin the job with the typed sheet."""
    begin_with(state, text_of(typed_sheet(state), checklist_of(state.checklist)), "the typed sheet")


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("newjob", "type sheet"): type_new,
    ("newjob", "change"): change,
    ("people", "sheet"): read_only,
    ("sheet", "section"): to_section,
    ("sheet", "begin"): begin,
    ("section", "field"): to_field,
    ("field", "typed"): typed,
    ("field", "choose"): typed,
    ("field", "erase"): erase,
    ("field", "keep"): keep,
}
