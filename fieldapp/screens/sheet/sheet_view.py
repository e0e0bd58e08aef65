"""What the job sheet shows: its sections, the fields of one, and one field to type."""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from fieldapp.checklist.facts import FactKind
from fieldapp.judgement.words import people_unit
from fieldapp.screens.body_view import (
    AnswerBody,
    AskingView,
    Body,
    KeypadBody,
    VerdictView,
    WordsBody,
)
from fieldapp.screens.entry.entry_numbers import may_be_negative
from fieldapp.screens.entry.entry_times import shown_time
from fieldapp.screens.entry.entry_view import EntryView
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.row_view import ListView, RowView
from fieldapp.screens.sheet.sheet_fields import Section, SheetField
from fieldapp.units import written

_SAFE = PlateView("safe", "Stop and make safe", kind="warning")
_BACK = PlateView("back", "Back")
_LONGEST_BESIDE = 11
_ONE_COLUMN = 3
_CLOCK = 4


def sheet_view(
    title: str,
    sections: Sequence[Section],
    typed: Mapping[str, str],
    problems: Mapping[str, Mapping[str, str]],
    start: int,
    *,
    told: tuple[str, bool],
    writes: bool,
) -> ListView:
    """Return the sections, how full each is, and what is wrong in it."""
    wrong = sum(len(found) for found in problems.values())
    rows = (
        plan_row(wrong),
        *(_section_row(one, typed, problems.get(one.id, {})) for one in sections),
    )
    begin = PlateView("begin", "Begin the job", kind="main")
    if wrong:
        begin = PlateView("begin", "Begin", f"{wrong} to do", "waiting")
    return ListView(
        title=title,
        under=("typed on this tablet",) if writes else ("as it began", "read only"),
        rail=(_BACK, _SAFE, begin) if writes else (_BACK, _SAFE),
        rows=rows,
        start=start,
        told=told,
    )


def section_view(
    section: Section,
    typed: Mapping[str, str],
    problems: Mapping[str, str],
    start: int,
    *,
    told: tuple[str, bool],
    writes: bool,
) -> ListView:
    """Return the fields of a section, each with what stands there."""
    rows = [_field_row(field, typed, problems, writes=writes) for field in section.fields]
    if problems.get(""):
        rows.insert(0, RowView("", (), problems[""], "", "failed", "wrong"))
    return ListView(
        title=section.title, under=(), rail=(_BACK, _SAFE), rows=tuple(rows), start=start, told=told
    )


def field_view(
    section: Section, field: SheetField, text: str, problem: str, at: int
) -> EntryView:  # fmt: skip
    """Return one field to type, as the screen of an entry shows it."""
    verdict = VerdictView()
    if problem and text:
        verdict = VerdictView("failed", f"{problem[0].upper()}{problem[1:]}.")
    count = f"{at + 1} of {len(section.fields)}: {section.title}"
    note = field.note or ("" if field.required else "May be left out.")
    return EntryView(
        frame=FrameView(plates=(_BACK, _SAFE)),
        asking=AskingView(heading=count, task=field.label, text=note),
        body=_body(field, text, verdict),
    )


def plan_row(wrong: int) -> RowView:
    """Return the row that leads to the plan, once nothing in the sheet is left to put right."""
    if wrong:
        return RowView("", (), "The plan", "when nothing is left to put right", "todo", "waits")
    return RowView("plan", (), "The plan", "how wet, how long, with what, at what cost", "done",
                   "ready")  # fmt: skip


def _section_row(
    section: Section, typed: Mapping[str, str], problems: Mapping[str, str]
) -> RowView:  # fmt: skip
    filled = sum(bool(typed.get(field.name)) for field in section.fields)
    count = f"{filled} of {len(section.fields)}"
    if not problems:
        return RowView("section", (section.id,), section.title, "", "done", "sound", right=count)
    wrong = [words for key, words in problems.items() if not _missing(words) or not key]
    first = wrong[0] if wrong and filled else f"{len(problems)} to fill in"
    mark, word = ("failed", "wrong") if wrong and filled else ("todo", "to do")
    return RowView("section", (section.id,), section.title, first, mark, word, right=count)


def _missing(words: str) -> bool:
    return "is missing" in words or words.startswith("nobody is ")


def _field_row(
    field: SheetField, typed: Mapping[str, str], problems: Mapping[str, str], *, writes: bool
) -> RowView:
    text = typed.get(field.name, "")
    problem = problems.get(field.key, "") if field.key not in {"fitted", "set_point"} else ""
    mark = "failed" if problem and text else "done" if text else "todo"
    shown = _shown(field, text)
    long = len(shown) > _LONGEST_BESIDE
    to_fill = "" if text or not field.required else "to fill in"
    words = (problem if text else to_fill) or (shown if long else field.note)
    return RowView("field" if writes else "", (field.name,), field.label, words, mark,
                   right="" if long else shown)  # fmt: skip


def _shown(field: SheetField, text: str) -> str:
    if not text or field.kind is not FactKind.NUMBER or " " in text:
        return text
    return f"{text}{people_unit(field.unit)}" if field.unit else text


def _body(field: SheetField, text: str, verdict: VerdictView) -> Body:
    keep = PlateView("keep", "Next", kind="main" if text or not field.required else "waiting",
                     second="" if text or not field.required else "type first")  # fmt: skip
    erase = PlateView("erase", "Leave empty")
    if field.kind in (FactKind.YES_NO, FactKind.CHOICE):
        plates = tuple(
            PlateView("choose", option, kind="held" if option == text else "plain",
                      details=(option,))
            for option in field.options
        )  # fmt: skip
        columns = 1 if len(plates) <= _ONE_COLUMN else 2
        return AnswerBody(plates=plates, columns=columns, verdict=verdict, keep=(erase, keep))
    if field.kind is FactKind.TEXT:
        return WordsBody(typed=text, hint="touch here and type", verdict=verdict,
                         keep=(erase, keep))  # fmt: skip
    if field.kind is FactKind.DATE:
        digits = text.replace("-", "")
        shown = shown_time(digits) if len(digits) > _CLOCK else digits
        return KeypadBody("Type 20260616 for 16 June 2026.", shown, typed=digits, verdict=verdict,
                          side=(erase, keep))  # fmt: skip
    number, _, unit = text.partition(" ")
    return KeypadBody(_bounds(field), number, people_unit(unit or field.unit).strip(), number,
                      signed=bool(field.unit) and may_be_negative(field.unit), verdict=verdict,
                      side=(erase, keep))  # fmt: skip


def _bounds(field: SheetField) -> str:
    if not field.bounds:
        return ""
    low, high = (written(Decimal(f"{bound:.10g}")) for bound in field.bounds)
    return f"{low} to {high}{people_unit(field.unit) if field.unit else ''}."
