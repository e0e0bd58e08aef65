"""How near one may come to live parts: the owner's distance, and beside it what is published."""

from collections.abc import Callable

from fieldapp.engineering.decision.approach import (
    american_distance,
    doubt_about,
    european_distances,
)
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.plan.given import Given, MissingFactError, outside
from fieldapp.plan.shapes import Answer, Figure
from fieldapp.units import from_si, rounded

GOVERNS = "The owner’s {:.2f} m governs. "
PLANNING = (
    "What is published is for planning only; an older, shorter American table is still in "
    "circulation."
)
COMPARE = "The older table says 2.59 m at 362 kV, where 3.41 m holds: compare before you copy."
NO_OWNER = (
    "The owner’s approach distance is not in the sheet: add approach_distance to [owner]. Nobody "
    "goes near without it."
)
NO_REACH = "The reach allowance is not in the sheet: add reach_allowance to [owner]."
NO_RULE = "the sheet does not say where it stands"
NO_ROW = "European zones: no row is carried here for {:g} kV: see the owner’s table."
CROSSED = (
    "the sheet states a nominal voltage above the highest voltage: look at nominal_voltage and "
    "highest_voltage in [plan]"
)
THE_OWNERS = "the owner’s figure, as the sheet states it"
AMERICAN, EUROPEAN = "American rule, phase to ground", "European zones"


def nearness(given: Given) -> Answer:
    """Return the owner's distance, which governs, and what is published, for planning only."""
    own, missing = _owners(given)
    stated = _as_stated(given)
    american, no_american = _looked_up(given, AMERICAN, _american)
    european, no_european = _looked_up(given, EUROPEAN, _european)
    words = GOVERNS.format(own[0].value) if own else ""
    refusals = (*missing, *no_american, *no_european, *_doubts(given, [*own[:1], *stated]))
    figures = (*own, *stated, *american, *european)
    return Answer("near", "", f"{words}{PLANNING}", figures, refusals, (PLANNING, COMPARE))


def _owners(given: Given) -> tuple[list[Figure], list[str]]:
    distance = given.sheet.owner_number("approach_distance")
    if distance is None:
        return [], [NO_OWNER]
    figures = [_metres("Owner’s approach distance", distance.si(), THE_OWNERS)]
    reach = given.sheet.owner_number("reach_allowance")
    if reach is None:
        return figures, [NO_REACH]
    whole = distance.si() + reach.si()
    return [*figures, _metres("With the owner’s reach allowance", whole, THE_OWNERS)], []


def _as_stated(given: Given) -> list[Figure]:
    planned = given.known("planning_distance")
    if planned is None:
        return []
    rule = given.sheet.text_of("planning_rule") or NO_RULE
    return [_metres("Published distance that the sheet states", planned, rule)]


def _looked_up(
    given: Given, name: str, look_up: Callable[[Given], list[Figure]]
) -> tuple[list[Figure], list[str]]:
    """Return what a rule publishes, or why it cannot be looked up."""
    nominal, highest = (given.known(f"plan_{which}_voltage") for which in ("nominal", "highest"))
    if nominal is not None and highest is not None and nominal > highest:
        return [], [f"{name}: {CROSSED}."]
    try:
        figures = look_up(given)
    except MissingFactError as missing:
        return [], [f"{name}: {missing}."]
    except OutsideValidity as fault:
        return [], [f"{name}: {outside(fault)}."]
    if figures:
        return figures, []
    return [], [NO_ROW.format(from_si(given.needed("plan_nominal_voltage"), "kV"))]


def _american(given: Given) -> list[Figure]:
    found = american_distance(
        voltage=given.needed("plan_highest_voltage"), elevation=given.needed("elevation")
    )
    source = f"{found.source}; times {found.altitude_factor:.2f} for the elevation"
    return [_metres(AMERICAN, found.distance, source)]


def _european(given: Given) -> list[Figure]:
    zones = european_distances(nominal_voltage=given.needed("plan_nominal_voltage"))
    names = ("European, live working zone", "European, vicinity zone")
    return [
        _metres(name, zone.distance, zone.source) for name, zone in zip(names, zones, strict=False)
    ]


def _doubts(given: Given, figures: list[Figure]) -> list[str]:
    """Return which distances are shorter than the American rule's, as far as that is known."""
    voltage, elevation = (given.known(name) for name in ("plan_highest_voltage", "elevation"))
    if voltage is None or elevation is None:
        return []
    try:
        doubts = [
            (figure, doubt_about(distance=figure.value, voltage=voltage, elevation=elevation))
            for figure in figures
        ]
    except OutsideValidity:
        return []  # said beside the American figure
    return [f"{figure.label}, by the American rule: {doubt}" for figure, doubt in doubts if doubt]


def _metres(label: str, value: float, source: str) -> Figure:
    """Return a distance, never rounded to a shorter one."""
    return Figure(label, float(rounded(value, 2, "up")), "m", 2, source=source)
