"""The table that people read."""

from collections.abc import Iterable

from rich import box
from rich.table import Table

from tests.bench.row import Row, Spread

HEADS = ("what", "beside", "times", "ours, ms", "outside, ms", "ratio")


def table_of(rows: Iterable[Row]) -> Table:
    """One line for each row; every figure is median / 99th percentile."""
    table = Table(*HEADS, box=box.MARKDOWN, caption="median / 99th percentile")
    for row in rows:
        table.add_row(
            row.name,
            row.outside_name,
            str(row.count),
            _milliseconds(row.ours),
            _milliseconds(row.outside),
            f"{row.ratio.median:.2f} / {row.ratio.p99:.2f}",
        )
    return table


def _milliseconds(spread: Spread) -> str:
    return f"{spread.median:.3f} / {spread.p99:.3f}"
