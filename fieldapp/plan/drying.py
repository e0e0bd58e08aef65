"""How much water, how long, and how many cartridges: each with its range."""

from fieldapp.engineering.drying.balance import removal_rate
from fieldapp.engineering.drying.cartridges import cartridges_needed
from fieldapp.engineering.drying.duration import drying_time, forecast_band
from fieldapp.engineering.drying.stock import paper_mass, water_held_by_oil
from fieldapp.engineering.moisture.estimate import NoFigure, PaperWater
from fieldapp.engineering.moisture.paper import oil_water_over_paper
from fieldapp.engineering.moisture.solubility import GRIFFIN
from fieldapp.engineering.oil import oil_density
from fieldapp.plan.given import SHEET, Given, MissingFactError, shares
from fieldapp.plan.shapes import Answer, Figure
from fieldapp.plan.wetness import middle_of, paper_of

DAY = 86_400.0
LEAST_PAPER, USUAL_PAPER, MOST_PAPER = 0.06, 0.10, 0.12
PAPER_SHARE = "10 % of the oil’s mass, 6 to 12 %: common practice, value from memory"
DRY_ENOUGH = "The paper is as dry as what is aimed at: nothing to remove by this sample."
BALANCE = "paper and oil keep pace, line of Fessler 1989; half to double: common practice"
SIEVE = "adsorbent times working capacity; 3A sieve 10 to 18 % in warm, dry oil (from memory)"
LONGER = "Water from ageing and through seals makes it longer; cold oil much longer."
FROM_THE_MIDDLE = (
    "The days begin at the middle figure of the paper: its own range, which the kilograms show, "
    "is not in them."
)


def paper_masses(given: Given) -> tuple[float, float, float, str]:
    """Return the dry paper [kg]: likely, at least, at most; and where that comes from."""
    stated = given.known("plan_paper_mass")
    if stated is not None:
        return stated, stated, stated, SHEET
    oil = oil_mass(given)
    low, usual, high = (
        paper_mass(oil_mass=oil, share_of_oil=share)
        for share in (LEAST_PAPER, USUAL_PAPER, MOST_PAPER)
    )
    return usual, low, high, PAPER_SHARE


def oil_mass(given: Given) -> float:
    """Return the mass of the oil [kg]."""
    return given.needed("oil_volume") * given.needed("oil_density")


def to_remove(given: Given) -> tuple[float, float, float] | NoFigure:
    """Return the water to remove [kg]: likely, at least, at most; or why nobody can say."""
    paper = paper_of(given)
    if isinstance(paper, NoFigure):
        return paper
    usual, low, high, _ = paper_masses(given)
    target = given.planned("plan_target_water")
    return (
        usual * max(0.0, middle_of(paper) - target),
        low * max(0.0, paper.low - target),
        high * max(0.0, paper.high - target),
    )


def water(given: Given) -> Answer:
    """Return how much water there is, and how much of it is to come out."""
    paper, found = paper_of(given), to_remove(given)
    usual, low, high, source = paper_masses(given)
    mass = Figure("Paper and board, dry", usual, "kg", 0, low, high, source=source)
    if isinstance(paper, NoFigure) or isinstance(found, NoFigure):
        return _unknown("water", (mass,), paper)
    removed, least, most = found
    oil = oil_mass(given)
    dissolved = water_held_by_oil(oil_mass=oil, water=given.needed("sample_water"))
    figures = (
        Figure("Water to remove", removed, "kg", 0, least, most,
               source="dry paper times what it is to lose; ends: both bands at once"),
        Figure("Water in the paper now", usual * middle_of(paper), "kg", 0, low * paper.low,
               high * paper.high, source="dry paper times its water"),
        Figure("Water in the oil now", dissolved, "kg", 1, source="oil mass times the sample"),
        mass,
    )  # fmt: skip
    sentence = (
        f"About {removed:.0f} kg of water is to come out of the paper, somewhere from {least:.0f} "
        f"to {most:.0f} kg. The oil itself holds {dissolved:.1f} kg."
    )
    return Answer("water", "", sentence if removed else DRY_ENOUGH, figures)


def duration(given: Given) -> Answer:
    """Return how long drying lasts, as a range."""
    paper = paper_of(given)
    if isinstance(paper, NoFigure):
        return _unknown("time", (), paper)
    found = days(given, paper)
    if not found:
        return Answer("time", "", DRY_ENOUGH)
    early, late = forecast_band(found)
    warmth = given.known("plan_working_oil")
    notes = () if warmth is not None else ("Oil at the skid: as warm as the sample was.",)
    sentence = f"{early:.0f} to {late:.0f} days, about {found:.0f}, from {_percent(paper)} % on."
    figures = (
        Figure("Days of drying", found, "d", 0, early, late, source=BALANCE),
        Figure("Water taken on the first day", _first_day(given, paper), "kg", 2, source=BALANCE),
    )
    return Answer("time", "", sentence, figures, notes=(LONGER, FROM_THE_MIDDLE, *notes))


def days(given: Given, paper: PaperWater) -> float:
    """Return the likely time to the target [days]; 0 where the paper is dry enough."""
    target = given.planned("plan_target_water")
    if middle_of(paper) <= target:
        return 0.0
    temperature = working_oil(given)
    density = oil_density(density_at_20=given.needed("oil_density"), temperature=temperature)
    found = drying_time(
        dry_paper=paper_masses(given)[0], now=middle_of(paper), target=target,
        flow=given.needed("working_flow"), density=density,
        efficiency=given.planned("plan_dryer_efficiency"), temperature=temperature,
        constant_a=GRIFFIN.constant_a, constant_b=GRIFFIN.constant_b,
    )  # fmt: skip
    return found / DAY


def working_oil(given: Given) -> float:
    """Return the temperature of the oil at the skid [K]: stated, else that of the sample."""
    stated = given.known("plan_working_oil")
    return given.needed("sample_temperature") if stated is None else stated


def cartridges(given: Given) -> Answer:
    """Return how many cartridges the water asks for."""
    found = to_remove(given)
    if isinstance(found, NoFigure):
        return _unknown("cartridges", (), found)
    capacity = given.planned("plan_working_capacity")
    adsorbent = Figure("Dry adsorbent for that water", found[0] / capacity, "kg", 0,
                       found[1] / capacity, found[2] / capacity, source=SIEVE)  # fmt: skip
    try:
        mass = given.needed("plan_adsorbent_mass")
    except MissingFactError as missing:
        refusal = (f"Number of cartridges: {missing}.",)
        return Answer("cartridges", "", "", (adsorbent,), refusal)
    likely, least, most = (
        cartridges_needed(water=kg, adsorbent_mass=mass, working_capacity=capacity) for kg in found
    )
    sentence = f"{likely:.0f} cartridges, somewhere from {least:.0f} to {most:.0f}"
    sentence += f", each for {mass * capacity:.1f} kg of water{_sets(given, likely)}."
    figures = (Figure("Cartridges", likely, "", 0, least, most, source=SIEVE), adsorbent)
    return Answer("cartridges", "", sentence if likely else DRY_ENOUGH, figures)


def _sets(given: Given, likely: float) -> str:
    together = given.known("plan_cartridges_at_once")
    if not together:
        return ""
    changes = max(0, -(-int(likely) // int(together)) - 1)
    return f"; {together:.0f} at once, so {changes} change{'' if changes == 1 else 's'}"


def _first_day(given: Given, paper: PaperWater) -> float:
    """Return the water taken on the first day [kg]: little enough to be a rate."""
    temperature = working_oil(given)
    density = oil_density(density_at_20=given.needed("oil_density"), temperature=temperature)
    inlet = oil_water_over_paper(
        water_in_paper=middle_of(paper), temperature=temperature,
        constant_a=GRIFFIN.constant_a, constant_b=GRIFFIN.constant_b,
    )  # fmt: skip
    outlet = inlet * (1 - given.planned("plan_dryer_efficiency"))
    flow = given.needed("working_flow")
    rate = removal_rate(flow=flow, density=density, inlet_water=inlet, outlet_water=outlet)
    return rate * DAY


def _percent(paper: PaperWater) -> str:
    return f"{shares(middle_of(paper)):.1f}"


def _unknown(name: str, figures: tuple[Figure, ...], found: object) -> Answer:
    reason = found.reason if isinstance(found, NoFigure) else ""
    return Answer(name, "", "", figures, (f"No figure: {reason}.",))
