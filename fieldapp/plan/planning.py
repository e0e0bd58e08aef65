"""Makes a plan of a job sheet: the office's questions in their order, answered or refused."""

from collections.abc import Callable

from fieldapp.job.sheet import JobSheet
from fieldapp.plan.alternative import alternative
from fieldapp.plan.drying import cartridges, duration, water
from fieldapp.plan.evacuation import evacuation
from fieldapp.plan.given import Given, answered
from fieldapp.plan.hoses import hoses
from fieldapp.plan.law import pcb_of, spill_rule
from fieldapp.plan.loop import containment, oil_taken
from fieldapp.plan.nearness import nearness
from fieldapp.plan.shapes import Answer, Plan
from fieldapp.plan.wetness import curve, wetness

QUESTIONS: tuple[tuple[str, str, Callable[[Given], Answer]], ...] = (
    ("wet", "How wet?", wetness),
    ("water", "How much water?", water),
    ("time", "How long?", duration),
    ("cartridges", "How many cartridges?", cartridges),
    ("vacuum", "What vacuum, and how long to it?", evacuation),
    ("oil", "How much oil does the skid take?", oil_taken),
    ("hoses", "Hoses: velocity and pressures", hoses),
    ("tray", "What holds spilled oil?", containment),
    ("spill", "Does the spill rule count this oil?", spill_rule),
    ("pcb", "Which PCB class?", pcb_of),
    ("near", "How near to live parts?", nearness),
    ("away", "What would out of service cost?", alternative),
)


def plan_of(sheet: JobSheet) -> Plan:
    """Return the plan of a job sheet; what the sheet does not say is refused in words."""
    given = Given(sheet)
    start = sheet.date_of("planned_start")
    return Plan(
        number=sheet.number,
        unit=sheet.text_of("unit") or "",
        rating=sheet.text_of("rating") or "",
        site=sheet.text_of("site_name") or "",
        bay=sheet.text_of("bay") or "",
        owner=sheet.text_of("owner_name") or "",
        prepared_by=sheet.text_of("prepared_by") or "",
        planned_start=start.isoformat() if start else "",
        sheet_fingerprint=sheet.fingerprint(),
        answers=tuple(answered(given, name, asked, make) for name, asked, make in QUESTIONS),
        curve=curve(given),
    )
