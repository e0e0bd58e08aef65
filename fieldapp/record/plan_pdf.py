"""Draws a plan as a PDF of one page, in the look of the record; equal plans give equal bytes."""

from datetime import UTC, datetime
from io import BytesIO

from fieldapp.plan.shapes import Plan
from fieldapp.record.pages.kit.paper import A4, Paper, Sheet
from fieldapp.record.pages.plans.plan_page import draw_plan


def plan_pdf(plan: Plan, issued: datetime, *, sheet: Sheet = A4) -> bytes:
    """Return the pages of a plan; `issued` is when it was made."""
    pages, _ = _drawn(plan, issued, sheet, 0)
    _, content = _drawn(plan, issued, sheet, pages)
    return content


def _drawn(plan: Plan, issued: datetime, sheet: Sheet, pages: int) -> tuple[int, bytes]:
    file = BytesIO()
    paper = Paper(file, sheet)
    canvas = paper.canvas
    canvas.setTitle(f"Plan {plan.number}")
    canvas.setSubject(f"{plan.unit}, {plan.site}")
    canvas.setAuthor("")
    canvas.setCreator("fieldapp")
    canvas.setProducer("fieldapp, ReportLab")
    # The library takes a date from nowhere but the environment, which belongs to the process.
    canvas._doc._timeStamp.YMDhms = issued.astimezone(UTC).timetuple()[:6]  # noqa: SLF001
    draw_plan(paper, plan, issued, pages)
    assert not paper.faults, paper.faults  # noqa: S101 - every text is wrapped or shortened
    last = paper.number - 1
    canvas.save()
    return last, file.getvalue()
