"""The plates in the foot of a hold: what one can do now, the safe way in blue."""

from dataclasses import replace

from fieldapp.screens.frame_view import Desktop, FrameView, PlateView, frame_view
from fieldapp.screens.timed.trace_asked import NOTES, Timed, as_main, start_plate, without_back
from fieldapp.screens.timed.trace_pad_view import whole as is_whole


def hold_frame(timed: Timed, desktop: Desktop, gone: float, whole: float) -> FrameView:
    """Return the frame with the plates that a hold needs now."""
    extra, main = _plates(timed, gone, whole)
    frame = frame_view(timed.job, timed.evaluation, timed.now, desktop, main=main, still=not extra)
    if extra is not None:
        *before, last = frame.plates
        return replace(frame, plates=(*before, extra, last))
    return without_back(frame) if timed.asks in NOTES else frame


def late(timed: Timed) -> bool:
    """Say whether a reading is due now or was due before."""
    return bool(timed.entry.columns) and timed.due is not None and timed.due.seconds <= 0


def _plates(timed: Timed, gone: float, whole: float) -> tuple[PlateView | None, PlateView | None]:
    if timed.asks in NOTES:
        return None, None
    if timed.asks:
        back = PlateView("ask back", "Back to the readings", "what is typed stays", details=("",))
        return None, back
    if not timed.runs:
        verdict = timed.evaluation.steps[timed.step.id].verdicts[timed.entry.id]
        return None, start_plate(timed, good=timed.attempt is not None and verdict.place.good)
    early = PlateView("ask end", "End early", "too short", details=("end",))
    finish = PlateView("ask end", "End it", "with a note", details=("end",))
    if not timed.entry.columns:
        over = gone >= whole
        return None, as_main(finish) if over else early
    if timed.due is None:
        return None, as_main(finish)
    return early, _keep(timed)


def _keep(timed: Timed) -> PlateView:
    missing = [c for c in timed.entry.columns if not is_whole(timed.typed.get(c.id, ""))]
    assert timed.due is not None  # noqa: S101 - else nothing is kept
    if missing:
        return PlateView("keep row", "Keep reading", f"type {len(missing)} first", "waiting")
    return PlateView("keep row", "Keep reading", f"number {timed.due.number}", "main")
