"""Cartridges on the scale beside what the oil brought them, and when the present set is full."""

from datetime import datetime, timedelta

from fieldapp.engineering.drying.cartridges import FEWEST_BLANKS, Blank, water_in_cartridges
from fieldapp.logbook.course import Course
from fieldapp.logbook.figures import (
    BLANKS,
    DRAINED,
    SCALE,
    SPREAD,
    WEIGHED,
    Figures,
    figures_of,
)
from fieldapp.logbook.ledger import set_of
from fieldapp.logbook.shapes import Amount, Line, Weighing

LONGEST_FORECAST = 365
SOONER = "not all was counted, so nobody can say when they are full"
NO_BLANK = (
    "not known: the job sheet states no blank_mass, the mean of at least 3 unused cartridges "
    "soaked and drained the same way"
)
NO_SPREAD = (
    "The spread of the blanks was not entered, so nobody knows how well the scale tells the water."
)


def weighings_of(course: Course, lines: tuple[Line, ...]) -> tuple[Weighing, ...]:
    """Return what each set of cartridges took, on the scale and by the oil."""
    found = []
    jobs = {job.number: job for job in course.of("cartridge_change")}
    for at, line in enumerate(lines):
        if line.number not in jobs:
            continue
        figures = figures_of(jobs[line.number])
        drained, weighed = figures.number(DRAINED), figures.number(WEIGHED)
        if drained is None:
            continue
        scale, sure = _on_the_scale(figures, drained.si) if weighed else (None, False)
        by_oil = set_of(lines, at)
        sentence = f"Water on the scale {NO_BLANK}."
        if scale is not None:
            sentence = _agreement(scale, by_oil) if sure else _side_by_side(scale, by_oil)
        found.append(Weighing(line.number, line.at, line.day, drained.si, scale, by_oil, sentence))
    return tuple(found)


def change_words(course: Course, lines: tuple[Line, ...], written: datetime | None) -> str:
    """Return when the cartridges that are in will be full, as far as anybody can say."""
    fixed = f"Fixed at a visit: {written:%d %b}." if written else ""
    capacity = _capacity(course)
    last = next((line for line in reversed(lines) if line.since is not None), None)
    if capacity is None or last is None or not last.rate or last.rate <= 0:
        return fixed
    held = 0.0 if lines[-1].new_cartridges else set_of(lines, len(lines) - 1).water
    if held >= capacity:
        return (
            f"{held:.1f} of about {capacity:.1f} kg: full by the plan, change them. {fixed}".strip()
        )
    if _uncounted(lines):
        return f"at least {held:.1f} of about {capacity:.1f} kg; {SOONER}. {fixed}".strip()
    days = (capacity - held) / last.rate
    if days > LONGEST_FORECAST:
        return f"{held:.1f} of about {capacity:.1f} kg; not full within a year. {fixed}".strip()
    full = last.at + timedelta(days=days)
    words = f"{held:.1f} of about {capacity:.1f} kg; full about {full:%d %b} at the present rate."
    return f"{words} {fixed}".strip()


def _uncounted(lines: tuple[Line, ...]) -> bool:
    """Say whether a stretch with the present cartridges is missing from the sum."""
    changed = next((line for line in reversed(lines) if line.new_cartridges), None)
    uncounted = [line.at_least for line in lines].count(True)
    before = changed is not None and changed.at_least
    return uncounted > 0 and not before


def _on_the_scale(figures: Figures, drained: float) -> tuple[Amount, bool]:
    """Return the water of a set, and whether its uncertainty is known: by at least 3 blanks."""
    weighed, scale = figures.number(WEIGHED), figures.number(SCALE)
    water = weighed.si if weighed else 0.0
    of_scale = scale.si if scale else 0.0
    spread, count = figures.number(SPREAD), figures.number(BLANKS)
    if spread is None or count is None or count.si < FEWEST_BLANKS:
        return Amount(water, of_scale), False
    blank = Blank(drained - water, spread.si, int(count.si))
    found = water_in_cartridges([drained], blank)
    return Amount(water, (found.uncertainty**2 + of_scale**2) ** 0.5), True


def _side_by_side(scale: Amount, by_oil: Amount) -> str:
    return f"{_both(scale, by_oil)}. {NO_SPREAD}"


def _both(scale: Amount, by_oil: Amount) -> str:
    return f"{scale.water:.1f} kg on the scale, {by_oil.water:.1f} kg by the oil"


def _agreement(scale: Amount, by_oil: Amount) -> str:
    apart, allowed = scale.water - by_oil.water, (scale.uncertainty**2 + by_oil.uncertainty**2)
    words = _both(scale, by_oil)
    if abs(apart) <= allowed**0.5:
        return f"{words}: they agree within their uncertainty."
    return (
        f"{words}: further apart than their uncertainty. Read both probes on the same oil and "
        "have the laboratory read a pair."
    )


def _capacity(course: Course) -> float | None:
    sheet = course.jobs[0].sheet
    facts = [sheet.number_of(f"plan_{n}") for n in ("adsorbent_mass", "working_capacity",
                                                    "cartridges_at_once")]  # fmt: skip
    if any(fact is None for fact in facts):
        return None
    mass, share, count = (fact.si() for fact in facts if fact is not None)
    return mass * share * count
