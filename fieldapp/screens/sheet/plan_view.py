"""What the plan shows: the office's questions with their answers, and the chart of the oil.

Touches it passes on, besides those of the frame:
    "answer", id              the figures of one answer, as a list
    "input", fact             a figure put in, to type another
    "page", start
"""

from dataclasses import dataclass
from textwrap import wrap

from fieldapp.plan.shapes import Answer, Figure, Plan, SaturationCurve
from fieldapp.plan.wording import (
    limit_words,
    number,
    range_words,
    value_words,
    verdict_words,
)
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.kit.chart.chart_view import ChartData
from fieldapp.screens.row_view import ListView, RowView

_PLATES = (PlateView("back", "Back"), PlateView("safe", "Stop and make safe", kind="warning"))
NO_CHART = "No chart: the sheet has no sound sample of mineral oil with its temperature."
PERMITS = "For planning. It permits nothing; the crew measures."
FULL, MOST, WARMEST, STEP = 100.0, 130.0, 80, 20
A_NOTE = 120


@dataclass(frozen=True, slots=True)
class PlanView:
    """The answers as rows, and the chart of the sample's oil; None where there is no sample."""

    frame: FrameView
    title: str
    under: str
    rows: tuple[RowView, ...]
    start: int
    chart: ChartData | None


def plan_view(plan: Plan, start: int, clock: str, told: tuple[str, bool]) -> PlanView:
    """Return the plan of a job sheet."""
    words, stopped = told
    frame = FrameView(unit=plan.unit or plan.number, site=plan.site, clock=clock, plates=_PLATES,
                      refused=words, not_saved=words if stopped else "")  # fmt: skip
    return PlanView(
        frame=frame,
        title="Plan",
        under=PERMITS if plan.curve else f"{NO_CHART} {PERMITS}",
        rows=tuple(_answer_row(answer) for answer in plan.answers),
        start=start,
        chart=_chart(plan.curve) if plan.curve else None,
    )


def answer_view(
    plan: Plan, name: str, start: int, told: tuple[str, bool], *, writes: bool = False
) -> ListView:
    """Return the figures of one answer, what is refused, put in, and taken for granted."""
    answer = plan.answer(name)
    refused = (RowView("", (), refusal, "", "notyet", "no figure") for refusal in answer.refusals)
    notes = (RowView("", (), "Note", part) for note in answer.notes for part in wrap(note, A_NOTE))
    put_in = (_input_row(put, writes=writes) for put in answer.inputs)
    rows = (*refused, *map(_figure_row, answer.figures), *put_in, *notes)
    return ListView(title=answer.question, under=(PERMITS,), rail=_PLATES, rows=rows, start=start,
                    told=told)  # fmt: skip


def _answer_row(answer: Answer) -> RowView:
    words = " ".join((answer.sentence, *answer.refusals)).strip()
    if not answer.inside:
        mark, word = "failed", "outside"
    elif answer.refusals:
        mark, word = "notyet", "not all" if answer.sentence else "no figure"
    else:
        mark, word = "done", "answered"
    return RowView("answer", (answer.id,), answer.question, words, mark, word)


def _figure_row(figure: Figure) -> RowView:
    between = f"From {range_words(figure)}. " if range_words(figure) else ""
    limit = f"{limit_words(figure)}: {verdict_words(figure)}. " if figure.limited else ""
    limit = f"{limit[:1].upper()}{limit[1:]}"
    source = f"{figure.source[:1].upper()}{figure.source[1:]}."
    mark = ("done" if figure.inside else "failed") if figure.limited else ""
    word = ("inside" if figure.inside else "outside") if figure.limited else ""
    return RowView("", (), figure.label, f"{between}{limit}{source}", mark, word,
                   right=value_words(figure))  # fmt: skip


def _input_row(put: Figure, *, writes: bool) -> RowView:
    """Return a figure that was put in; on a sheet that is typed a touch types another."""
    touched, change = ("input", " Touch to change it.") if writes else ("", "")
    words = f"Put in: {put.source.partition(':')[0]}.{change}"
    return RowView(touched, (put.fact,), put.label, words, right=value_words(put))


def _chart(curve: SaturationCurve) -> ChartData:
    """Return the saturation over the oil's temperature; above 100 % there is free water."""
    cold, (at, share) = curve.free_water, curve.sample
    coldest = 0 if cold is None or cold >= 0 else int(cold // STEP) * STEP
    drawn = [(t, s) for t, s in curve.points if s <= FULL and (cold is None or t > cold)]
    if cold is not None:
        drawn.insert(0, (cold, FULL))
    below = "" if cold is None else f"free water below {number(cold, 0)} °C"
    return ChartData(
        time_span=(float(coldest), float(WARMEST)),
        value_span=(0.0, MOST),
        time_ticks=tuple((float(t), f"{number(t, 0)}\u00a0°C")
                         for t in range(coldest, WARMEST + 1, STEP)),
        value_ticks=tuple((float(s), f"{s}\u00a0%") for s in (0, 50, 100)),
        points=((at, min(share, FULL)),),
        fit=tuple(drawn),
        wash_from=FULL,
        wash_words="free water: hazy, then drops",
        value_text=number(share, 1),
        unit="%",
        value_beside=f"of what it holds at {number(at, 0)} °C",
        note=below,
    )  # fmt: skip
