"""What the out-of-service way would cost instead: days without the unit, and crew-hours."""

from fieldapp.engineering.drying.duration import forecast_band
from fieldapp.engineering.moisture.estimate import NoFigure
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.plan.drying import days
from fieldapp.plan.given import Given
from fieldapp.plan.shapes import Answer, Figure
from fieldapp.plan.wetness import paper_of

DAY, HOUR = 86_400.0, 3600.0
ENERGISED = "The unit stays energised; working beside it stays the owner’s decision"
OUT_SOURCE = "days, shifts and people as put in"
HERE_SOURCE = "hookup, and a visit at 24 h and at each interval, as put in"
PUT_IN = (
    "plan_away_days", "plan_stand_time", "plan_away_shifts", "plan_away_people",
    "plan_shift_length", "plan_hookup_effort", "plan_visit_effort", "plan_visit_interval",
)  # fmt: skip


def alternative(given: Given) -> Answer:
    """Return days out of service and crew-hours of both ways."""
    away, stand = (given.planned(name) for name in ("plan_away_days", "plan_stand_time"))
    lost = (away + stand) / DAY
    effort = (
        away / DAY * given.planned("plan_away_shifts") * given.planned("plan_away_people")
        * given.planned("plan_shift_length") / HOUR
    )  # fmt: skip
    figures = [
        Figure("Out of service: days without the unit", lost, "d", 1, source=OUT_SOURCE),
        Figure("Out of service: crew-hours", effort, "h", 0, source=OUT_SOURCE),
        Figure("In service: days without the unit", 0, "d", 1, source=ENERGISED),
    ]
    here, refusal = _in_service(given)
    if here is not None:
        figures.append(here)
    words = f"Out of service: {lost:.0f} days without the unit and {effort:.0f} crew-hours."
    if here is not None:
        words += f" In service: none, and {here.low:.0f} to {here.high:.0f} crew-hours."
    given.practice_notes()  # each of them stands among the inputs
    inputs = tuple(given.put_in(name) for name in PUT_IN)
    return Answer("away", "", words, tuple(figures), refusal, inputs=inputs)


def _in_service(given: Given) -> tuple[Figure | None, tuple[str, ...]]:
    """Return the crew-hours of hookup and visits over the forecast, or why nobody can say."""
    label = "In service: crew-hours"
    paper = paper_of(given)
    if isinstance(paper, NoFigure):
        return None, (f"{label}: {paper.reason}.",)
    try:
        likely = days(given, paper)
    except OutsideValidity:
        return None, (f"{label}: without a duration nobody can count the visits.",)
    hours = [_hours(given, each) for each in (likely, *forecast_band(likely))]
    return Figure(label, hours[0], "h", 0, hours[1], hours[2], source=HERE_SOURCE), ()


def _hours(given: Given, length: float) -> float:
    """Return the crew-hours of hookup and of a visit at 24 h and at every interval."""
    interval = given.planned("plan_visit_interval") / DAY
    visits = 1 + int(length // interval)
    return (
        given.planned("plan_hookup_effort") + visits * given.planned("plan_visit_effort")
    ) / HOUR
