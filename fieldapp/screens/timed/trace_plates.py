"""The plates in the foot of a trace: what one can do now, the safe way in blue."""

from dataclasses import replace

from fieldapp.screens.body_view import VerdictView
from fieldapp.screens.frame_view import Desktop, FrameView, PlateView, frame_view
from fieldapp.screens.timed.trace_asked import NOTES, Timed, as_main, start_plate, without_back
from fieldapp.screens.timed.trace_table_view import TableView


def trace_frame(
    timed: Timed, desktop: Desktop, verdict: VerdictView, table: TableView | None
) -> FrameView:
    """Return the frame with the plates that a trace needs now."""
    extra, main = _plates(timed, verdict, table)
    frame = frame_view(timed.job, timed.evaluation, timed.now, desktop, main=main, still=not extra)
    if extra is None:
        return without_back(frame) if timed.asks in NOTES else frame
    *before, last = frame.plates
    return replace(frame, plates=(*before, extra, last))


def _plates(
    timed: Timed, verdict: VerdictView, table: TableView | None
) -> tuple[PlateView | None, PlateView | None]:
    """Return the plate before the last, and the last of the foot."""
    if timed.asks in NOTES:
        return None, None
    if timed.asks:
        return None, PlateView("ask back", "Back to the readings", "nothing is kept", details=("",))
    if not timed.runs:
        return None, start_plate(timed, good=verdict.mark == "proven" or table is not None)
    enough = timed.attempt is not None and len(timed.attempt.readings) >= timed.entry.readings
    finish = PlateView("ask end", "End it", "with a note", details=("end",))
    if table is not None:
        keep = _row_plate(table)
        return (keep, as_main(finish)) if enough else (finish, as_main(keep))
    column = timed.entry.columns[0]
    part = f"{column.id} {timed.now.isoformat()}"
    other = PlateView("ask other", "Other value", "keypad", details=(part,))
    ready = verdict.mark == "failed" or (verdict.mark == "proven" and enough)
    return other, as_main(finish) if ready else finish


def _row_plate(table: TableView) -> PlateView:
    if table.missing:
        return PlateView("keep row", "Keep the row", f"type {table.missing} first", "waiting")
    if table.unchanged == len(table.columns):
        return PlateView("keep row", "All unchanged", "keep the row")
    left = f"{table.unchanged} left unchanged" if table.unchanged else "all are typed"
    return PlateView("keep row", "Keep the row", left)
