"""What is said of a pull: the figures on this gauge and on the other kind, and the verdict."""

from datetime import datetime
from math import ceil, floor

from fieldapp.checklist.model import Column
from fieldapp.engineering.air.outlook import Outlook
from fieldapp.engineering.atmosphere import SEA_LEVEL
from fieldapp.job.state import Attempt
from fieldapp.judgement.words import people_unit
from fieldapp.screens.body_view import VerdictView
from fieldapp.screens.timed.trace_pull import ABSOLUTE, Aim, Course
from fieldapp.units import from_si, rounded, unit_named, written

_OTHER = {ABSOLUTE: ("inHg", 1), "vacuum below air": ("hPa", 0)}
_MINUTE = 60
_STALLED = (Outlook.WILL_NOT, Outlook.LEAK, Outlook.WEAK_PUMP)


def figure(pressure: float, column: Column, aim: Aim, *, safe: bool = False) -> str:
    """Return an absolute pressure [Pa] as the gauge shows it; a safe target is the deeper one."""
    unit, decimals = column.measure.unit, column.measure.decimals
    if unit_named(unit).quantity == ABSOLUTE:
        return written(rounded(from_si(pressure, unit), decimals, "down" if safe else "nearest"))
    vacuum = from_si((aim.station or 0.0) - pressure, unit)
    return written(rounded(vacuum, decimals, "up" if safe else "nearest"))


def beside(pressure: float, column: Column, aim: Aim) -> str:
    """Return the same pressure as the other kind of gauge shows it."""
    quantity = unit_named(column.measure.unit).quantity
    unit, decimals = _OTHER[quantity]
    if quantity != ABSOLUTE:
        return f"= {written(rounded(from_si(pressure, unit), decimals))} {unit} absolute"
    if aim.station is None:
        return ""
    return f"= {written(rounded(from_si(aim.station - pressure, unit), decimals))} {unit} here"


def target_words(column: Column, aim: Aim) -> str:
    """Return the target on this gauge, what that is on a dial here, and how deep a dial can go."""
    if aim.pressure is None:
        return ""
    here = f"Target {figure(aim.pressure, column, aim, safe=True)}{_unit(column)}"
    if aim.station is None:
        return f"{here}."
    target = rounded(from_si(aim.station - aim.pressure, "inHg"), 1, "up")
    deepest = rounded(from_si(aim.station, "inHg"), 1, "down")
    if unit_named(column.measure.unit).quantity == ABSOLUTE:
        here += f", {written(target)} inHg on a dial here"
    return f"{here}. {_sea_level(aim)}The deepest a dial can go here is {written(deepest)}."


def _sea_level(aim: Aim) -> str:
    """Return that the figure used at sea level is beyond what this site's air gives."""
    if aim.limit is None or aim.station is None:
        return ""
    wanted = rounded(from_si(SEA_LEVEL - aim.limit, "inHg"), 1)
    deepest = rounded(from_si(aim.station, "inHg"), 1, "down")
    if wanted <= deepest:
        return ""
    return f"{written(wanted)} inHg, right at sea level, cannot be reached here. "


def pull_verdict(
    course: Course, attempt: Attempt | None, column: Column, aim: Aim, now: datetime
) -> VerdictView:
    """Return where the pull stands and where it will end."""
    if not course.pressures or aim.pressure is None or attempt is None:
        return VerdictView()
    present, target = course.pressures[-1], figure(aim.pressure, column, aim, safe=True)
    if present <= aim.pressure:
        words = f"Reached: {figure(present, column, aim)}, target {target}{_unit(column)}."
        return VerdictView("proven", words)
    if course.verdict is not None and course.verdict.outlook in _STALLED:
        return _stalled(course, column, aim)
    gap = f"Not yet: {_gap(present, aim.pressure, column)}{_unit(column)} to go to {target}."
    return VerdictView("notyet", gap, _to_go(course, attempt, now))


def _stalled(course: Course, column: Column, aim: Aim) -> VerdictView:
    assert course.fit is not None  # noqa: S101 - it levels out by its fit
    assert course.verdict is not None  # noqa: S101 - narrowed by the caller
    level = f"{figure(course.fit.ultimate, column, aim)}{_unit(column)}"
    words = f"Will not get there: it levels out at {level}."
    if aim.blanked is None:
        return VerdictView("failed", words, "Read the pump alone: leak or pump?")
    alone = f"Pump alone {figure(aim.blanked.pressure, column, aim)}"
    if course.verdict.outlook is Outlook.LEAK:
        return VerdictView("failed", words, f"{alone}: a leak, not the pump.")
    too = ", and air comes in too" if course.verdict.enters else ""
    return VerdictView("failed", words, f"{alone}: it is the pump{too}.")


def _gap(present: float, aim: float, column: Column) -> str:
    unit = column.measure.unit
    scale = abs(from_si(1.0, unit) - from_si(0.0, unit))
    return written(rounded((present - aim) * scale, column.measure.decimals, "up"))


def _to_go(course: Course, attempt: Attempt, now: datetime) -> str:
    if course.reached_after is None:
        return "Too early to say when."
    gone = (now - attempt.started).total_seconds()
    early, likely, late = ((time - gone) / _MINUTE for time in course.reached_after)
    if late <= 0:
        return "It should be there by now: read the gauge."
    if ceil(likely) <= 1:
        return "Less than a minute to go." if late <= 1 else f"At most {ceil(late)} min to go."
    least, most = max(0, floor(early)), ceil(late)
    return f"About {round(likely)} min to go ({least} to {most})."


def _unit(column: Column) -> str:
    return people_unit(column.measure.unit)
