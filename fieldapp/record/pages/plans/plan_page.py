"""The pages of a plan: what comes out, the charts, the answers, the limits, and every source."""

from collections.abc import Callable
from datetime import datetime

from fieldapp.plan.shapes import Plan
from fieldapp.plan.wording import range_words
from fieldapp.record.chapters.words import offset_words
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, shortened
from fieldapp.record.pages.kit.marks import OPEN, OUTSIDE, mark
from fieldapp.record.pages.kit.paper import (
    BAD,
    INK,
    RULE,
    SECONDARY,
    TEXT_WIDTH,
    TINT,
    Paper,
)
from fieldapp.record.pages.kit.volume import section
from fieldapp.record.pages.plans.plan_chart import draw_forecasts, draw_saturation
from fieldapp.record.pages.plans.plan_tables import (
    Roll,
    draw_answers,
    draw_inputs,
    draw_limits,
    draw_sources,
)

CHARTS = 193.0
CAUTION = (
    "This plan permits no energised work: the owner’s procedures, local codes and licensed "
    "practice decide. The crew measures."
)
NO_CURVE = "No chart: the sheet has no sound sample of mineral oil with its temperature."


def draw_plan(paper: Paper, plan: Plan, issued: datetime, pages: int) -> None:
    """Draw all pages; `pages` is how many there are, 0 while nobody knows."""

    def opened() -> float:
        _frame(paper, plan, issued, pages)
        return 62.0

    roll = Roll(paper, opened)
    _title(paper, plan)
    _outcome(paper, plan)
    _facts(paper, plan)
    _caution(paper)
    roll.y = _charts(paper, plan) + 8
    draw_answers(roll, plan)
    draw_limits(roll, plan)
    draw_inputs(roll, plan)
    draw_sources(roll, plan)
    paper.turn()


def _frame(paper: Paper, plan: Plan, issued: datetime, pages: int) -> None:
    end = paper.text(0, 34, f"Plan {shortened(plan.number, 200, 7.4, SEMIBOLD)}", 7.4, SEMIBOLD)
    page = f"Page {paper.number} of {pages or paper.number}"
    unit = shortened(f"{plan.unit}, {plan.site}  ·  {issued:%Y-%m-%d}", 400 - end, 7.4)
    paper.text(end + 6, 34, unit, 7.4, REGULAR, SECONDARY)
    paper.text(TEXT_WIDTH, 34, page, 7.4, SEMIBOLD, INK, "right")
    paper.rule(41)
    foot = paper.sheet.height - 41
    paper.line(0, foot, TEXT_WIDTH, foot, 0.4, RULE)
    digits = " ".join(plan.sheet_fingerprint[at : at + 4] for at in range(0, 64, 4))
    end = paper.text(0, foot + 11, "Job sheet, SHA-256", 6.4, SEMIBOLD)
    paper.text(end + 5, foot + 11, digits, 6.4)
    words = f"Worked out from that sheet alone. Issued {issued:%Y-%m-%d %H:%M}."
    paper.text(0, foot + 19.5, words, 6.2, REGULAR, SECONDARY)
    last = paper.number == pages
    words = "End of plan" if last else f"continues on page {paper.number + 1}"
    paper.text(TEXT_WIDTH, foot + 11, words, 6.4, SEMIBOLD if last else REGULAR,
               INK if last else SECONDARY, "right")  # fmt: skip
    paper.text(TEXT_WIDTH, foot + 19.5, offset_words(issued), 6.2, REGULAR, SECONDARY, "right")


def _title(paper: Paper, plan: Plan) -> None:
    paper.text(0, 66, "Plan for drying in service", 18, SEMIBOLD)
    number = shortened(plan.number, 200, 18, SEMIBOLD)
    paper.text(TEXT_WIDTH, 66, number, 18, SEMIBOLD, INK, "right")
    paper.text(0, 79, "A skid connected to an energised transformer: before the job", 9.2, REGULAR,
               SECONDARY)  # fmt: skip
    paper.text(TEXT_WIDTH, 79, "plan, not a record", 9.2, REGULAR, SECONDARY, "right")


def _outcome(paper: Paper, plan: Plan) -> None:
    refused = sum(bool(answer.refusals) for answer in plan.answers)
    outside = sum(not f.inside for answer in plan.answers for f in answer.figures)
    paper.box(0, 88, TEXT_WIDTH, 42, TINT)
    paper.box(0, 88, 3, 42, BAD if outside else RULE)
    # no green tick on a plan: it would read as a permission
    if outside or refused:
        mark(paper, OUTSIDE if outside else OPEN, 24, 109, 22)
    left = 46 if outside or refused else 14
    paper.text(left, 106, shortened(_headline(plan), 450, 13, SEMIBOLD), 13, SEMIBOLD)
    limits = f"{_counted(outside, 'figure')} outside the limit" if outside else (
        "Every figure that has a limit is inside it"
    )  # fmt: skip
    known = f"{_counted(refused, 'question')} not answered in full" if refused else (
        "every question is answered"
    )  # fmt: skip
    paper.text(left, 121, f"{limits}; {known}.", 8.4, room=450)


def _headline(plan: Plan) -> str:
    parts: list[str] = []
    wanted: tuple[tuple[str, str, Callable[[str], str]], ...] = (
        ("wet", "Water in paper", "paper {} % water".format),
        ("water", "Water to remove", "{} kg to take out".format),
        ("time", "Days of drying", "{} days".format),
        ("cartridges", "Cartridges", "{} cartridges".format),
    )
    for name, label, words in wanted:
        found = [f for f in plan.answer(name).figures if f.label == label]
        parts += [words(range_words(figure)) for figure in found if range_words(figure)]
    headline = ", ".join(parts) or "too little is known of the paper to plan"
    return f"{headline[0].upper()}{headline[1:]}."


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"


def _facts(paper: Paper, plan: Plan) -> None:
    left = (("On what", f"{plan.unit}, {plan.rating}"), ("Where", f"{plan.site}, {plan.bay}"))
    right = (
        ("Owner", plan.owner),
        ("Prepared", f"{plan.prepared_by}, to start {plan.planned_start}"),
    )
    for x, facts in ((0.0, left), (276.0, right)):
        for place, (label, words) in enumerate(facts):
            y = 145 + 12 * place
            paper.text(x, y, label, 7.2, REGULAR, SECONDARY)
            paper.text(x + 42, y, shortened(words, 186, 8), 8)


def _charts(paper: Paper, plan: Plan) -> float:
    """Draw the chart of the oil and, beside it, the forecasts; return where both end."""
    section(paper, 176, "The oil", "water as in the sample", 244)
    section(paper, 176, "Forecasts", "bar: least to most; dot: likely", begin=276)
    if plan.curve is None:
        lower = CHARTS + 8
        for line in lines(NO_CURVE, 240, 8):
            paper.text(0, lower, line, 8, REGULAR, SECONDARY)
            lower += 10
    else:
        lower = draw_saturation(paper, plan.curve, CHARTS + 10)
    return max(lower, draw_forecasts(paper, plan, CHARTS + 4))


def _caution(paper: Paper) -> None:
    end = paper.text(0, paper.bottom, "Caution", 7.2, SEMIBOLD)
    paper.text(end + 4, paper.bottom, CAUTION, 7.2, room=TEXT_WIDTH - end - 4)
