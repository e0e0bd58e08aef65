"""What a trace with several columns shows: each reading a row, the row that is due below."""

from dataclasses import dataclass

from fieldapp.checklist.model import Column, Entry
from fieldapp.job.state import Attempt
from fieldapp.judgement.words import people_unit
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.timed.trace_pad_view import whole


@dataclass(frozen=True, slots=True)
class ColumnView:
    """One column: its readings from the oldest, and its figure in the row that is due.

    `plate` is what one touch does: leave it unchanged, or type it.
    """

    id: str
    label: str
    unit: str
    readings: tuple[str, ...]
    typed: str
    plate: PlateView


@dataclass(frozen=True, slots=True)
class TableView:
    """The times of the rows, the columns, and the row as it would be kept."""

    times: tuple[str, ...]
    rows: int
    due: str
    columns: tuple[ColumnView, ...]
    row: tuple[tuple[str, str], ...]

    @property
    def missing(self) -> int:
        """Return how many figures of the row are neither typed nor known from the last one."""
        return len(self.columns) - len(self.row)

    @property
    def unchanged(self) -> int:
        """Return how many figures of the row would be taken from the last one."""
        return sum(not column.typed for column in self.columns)


def table_view(
    entry: Entry, attempt: Attempt, typed: dict[str, str], due: str, most: int = 6
) -> TableView:
    """Return the table; `typed` are the figures of the row that is due."""
    last = dict(attempt.readings[-1].fields) if attempt.readings else {}
    row = {
        column.id: text
        for column in entry.columns
        if (text := typed.get(column.id, "") or last.get(column.id, "")) and whole(text)
    }
    shown = attempt.readings[-most:]
    return TableView(
        times=tuple(f"{reading.taken:%H:%M}" for reading in shown),
        rows=max(entry.readings, len(shown)),
        due=due,
        columns=tuple(
            _column(column, tuple(r.fields.get(column.id, "") for r in shown),
                    typed.get(column.id, ""), last.get(column.id, ""))
            for column in entry.columns
        ),
        row=tuple(row.items()),
    )  # fmt: skip


def _column(column: Column, readings: tuple[str, ...], typed: str, last: str) -> ColumnView:
    if typed and typed == last:
        plate = PlateView("ask column", typed, "same", "held", (column.id,))
    elif typed:
        plate = PlateView("ask column", typed, "new", "held", (column.id,))
    elif last:
        plate = PlateView("typed", last, "same", details=(last, column.id))
    else:
        plate = PlateView("ask column", "type it", details=(column.id,))
    return ColumnView(column.id, column.label, people_unit(column.measure.unit).strip(), readings,
                      typed, plate)  # fmt: skip
