"""What a new job shows: the job sheets on this tablet, or all that is wrong with one."""

from collections.abc import Sequence
from datetime import date

from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView


def newjob_view(
    sheets: Sequence[tuple[str, str]], today: date, start: int, told: tuple[str, bool],
    checklist: str = "",
) -> ListView:  # fmt: skip
    """Return the sheets by file name with what they say, and the choice to type one.

    Where more than one list can begin a job, `checklist` is the title of the chosen one.
    """
    lists = (PlateView("lists", "Other checklist"),) if checklist else ()
    rows = (
        *(_row(name, text, today) for name, text in sheets),
        RowView("type sheet", (), "Type a new sheet", "on this tablet, section by section", "todo"),
    )
    return ListView(
        title="New job",
        under=(*((checklist,) if checklist else ()), "Job sheets", "on this tablet"),
        rail=(*_rail(), *lists),
        rows=rows,
        start=start,
        told=told,
    )


def problems_view(
    name: str, problems: Sequence[str], start: int, told: tuple[str, bool]
) -> ListView:  # fmt: skip
    """Return all that is wrong with a job sheet, each with its line."""
    rows = tuple(RowView("", (), problem, "", "failed") for problem in problems)
    here = PlateView("change", "Change it", "on this tablet", "main", (name,))
    change = (here,) if name.endswith(".toml") else ()
    count = f"{len(problems)} to put right" if len(problems) > 1 else "1 to put right"
    return ListView(
        title=name, under=(count, "in it, or here"), rail=(*_rail(), *change), rows=rows,
        start=start, told=told,
    )  # fmt: skip


def _rail() -> tuple[PlateView, ...]:
    safe = PlateView("safe", "Stop and make safe", kind="warning")
    return (PlateView("back", "Back"), safe)


def _row(name: str, text: str, today: date) -> RowView:
    found = read_sheet(text, today)
    if isinstance(found, JobSheet):
        unit, site = found.text_of("unit"), found.text_of("site_name")
        return RowView("sheet", (name,), f"{found.number}: {unit}, {site}", name, "todo", "sound")
    count = len(found)
    words = "1 problem" if count == 1 else f"{count} problems"
    return RowView("sheet", (name,), name, f"{words}: touch to see them", "failed", "faulty")
