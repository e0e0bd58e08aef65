"""Fills a list by pages with rows, and keeps the widgets that are there already."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from fieldapp.screens.kit.paging import PagedRows
from fieldapp.screens.row import Row
from fieldapp.screens.row_view import RowView


def fill(
    paged: PagedRows, views: Sequence[RowView], start: int, told: Callable[..., None]
) -> None:  # fmt: skip
    """Show the rows from `start` on; `told` hears what is touched."""
    rows = list(paged.rows)
    while len(rows) < len(views):
        row = Row()
        row.bind(on_touched=told)
        rows.append(row)
    rows = rows[: len(views)]
    for row, view in zip(rows, views, strict=True):
        row.tid = " ".join((view.touch, *view.details)) if view.touch else ""
        row.view = view
    if rows != paged.rows:
        paged.rows = rows
    if paged.start != start:
        paged.start = start
