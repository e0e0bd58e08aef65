"""How wet: paper with its band, oil on a common basis, and when free water would be seen."""

from fieldapp.engineering.moisture.bands import SOURCE as BANDS_SOURCE
from fieldapp.engineering.moisture.bands import band_of
from fieldapp.engineering.moisture.estimate import (
    Liquid,
    NoFigure,
    OilSample,
    PaperWater,
    paper_estimate,
    trend_at_20,
)
from fieldapp.engineering.moisture.paper import saturation_over_paper
from fieldapp.engineering.moisture.saturation import free_water_temperature
from fieldapp.engineering.moisture.solubility import COLDEST, GRIFFIN, HOTTEST
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.plan.given import Given, celsius, shares
from fieldapp.plan.shapes import COMMON, Answer, Figure, SaturationCurve
from fieldapp.plan.wording import number

FESSLER = "lines of Fessler 1989 and of Oommen and McNutt, ±25 %: values from memory"
SOLUBILITY = "new mineral oil, Griffin 1988 (value from memory); aged oil holds more"
LIQUIDS = {
    "mineral": Liquid.MINERAL_OIL,
    "natural ester": Liquid.NATURAL_ESTER,
    "synthetic ester": Liquid.SYNTHETIC_ESTER,
}
OTHER_LIQUID = "the liquid is {}: no figure without a method made for it"
AT_REST = "The sample counts only if no dryer ran in the 72 hours before it was taken."
CLEAR, HAZY = "clear", "hazy, then drops"
EYE_NOTE = f"Clear oil does not say that the paper is dry. What the eye sees: {COMMON}."
HOTTEST_DRAWN, STEP = 353.15, 2.0
ROOM = 293.15


def sample_of(given: Given) -> OilSample | NoFigure:
    """Return the oil sample that the sheet states."""
    fluid = given.sheet.text_of("fluid") or "mineral"
    if fluid not in LIQUIDS:
        return NoFigure(OTHER_LIQUID.format(fluid))
    temperature, water = given.known("sample_temperature"), given.known("sample_water")
    return OilSample(temperature, water, None, None, LIQUIDS[fluid], None)


def paper_of(given: Given) -> PaperWater | NoFigure:
    """Return the water in paper that the sample tells of, or why it does not."""
    sample = sample_of(given)
    return sample if isinstance(sample, NoFigure) else paper_estimate(sample)


def middle_of(paper: PaperWater) -> float:
    """Return the water in paper to plan with [kg/kg]: the mean of the two lines."""
    return (paper.first + paper.second) / 2


def wetness(given: Given) -> Answer:
    """Return how wet the paper is."""
    paper, sample = paper_of(given), sample_of(given)
    refusals: list[str] = []
    figures: list[Figure] = []
    sentence = ""
    target = given.planned("plan_target_water")
    if isinstance(paper, NoFigure):
        refusals.append(f"Water in paper: {paper.reason}.")
    else:
        sentence = _sentence(paper, target)
        figures += _paper_figures(paper, target)
    if isinstance(sample, OilSample):
        found, refused = _oil_figures(sample)
        figures += found
        refusals += refused
    notes = (AT_REST, *_seen(given))
    return Answer("wet", "How wet?", sentence, tuple(figures), tuple(refusals), notes)


def _sentence(paper: PaperWater, target: float) -> str:
    middle, low, high = (shares(x) for x in (middle_of(paper), paper.low, paper.high))
    against = "above" if middle_of(paper) > target else "at or below"
    return (
        f"The paper holds about {middle:.1f} % water, somewhere from {low:.1f} to {high:.1f} %: "
        f"{against} the {shares(target):.1f} % aimed at."
    )


def _paper_figures(paper: PaperWater, target: float) -> list[Figure]:
    figures = [
        Figure("Water in paper", shares(middle_of(paper)), "%", 1, shares(paper.low),
               shares(paper.high), source=FESSLER),
        Figure(f"Oil saturated, at {celsius(paper.temperature):.0f}\u00a0°C",
               shares(paper.saturation), "%", 1, source=SOLUBILITY),
    ]  # fmt: skip
    aimed = _over_target(target, paper.temperature)
    if aimed is not None:
        label = f"Oil saturated at the target, {celsius(paper.temperature):.0f}\u00a0°C"
        figures.append(Figure(label, shares(aimed), "%", 1, source="inverse of Fessler’s line"))
    return figures


def _over_target(target: float, temperature: float) -> float | None:
    try:
        return saturation_over_paper(water_in_paper=target, temperature=temperature)
    except OutsideValidity:
        return None


def _oil_figures(sample: OilSample) -> tuple[list[Figure], list[str]]:
    """Return the oil's figures for a trend and for the eye, and what cannot be said of it."""
    refusals = []
    figures = []
    trend = trend_at_20(sample)
    if isinstance(trend, NoFigure):
        refusals.append(f"Oil on the 20 °C basis: {trend.reason}.")
    else:
        name = band_of(trend / GRIFFIN.at(ROOM)).name
        figures.append(Figure(f"Oil water on the 20 °C basis ({name})", trend * 1e6, "mg/kg", 1,
                              source=f"for a trend only; {BANDS_SOURCE}"))  # fmt: skip
    cold = free_water(sample)
    if cold is not None:
        figures.append(Figure("Free water appears below", celsius(cold), "°C", 0,
                              source=SOLUBILITY))  # fmt: skip
    return figures, refusals


def free_water(sample: OilSample) -> float | None:
    """Return the temperature [K] below which a sample sheds water; None where nobody can say."""
    if sample.water is None or sample.liquid is not Liquid.MINERAL_OIL:
        return None
    try:
        return free_water_temperature(
            water=sample.water, constant_a=GRIFFIN.constant_a, constant_b=GRIFFIN.constant_b
        )
    except OutsideValidity:
        return None


def _seen(given: Given) -> tuple[str, ...]:
    """Return what one would see of this oil, in words; nothing without a sound sample."""
    drawn = curve(given)
    if drawn is None:
        return ()
    seen = ", ".join(f"at {number(at, 0)}\u00a0°C {looks}" for at, looks in drawn.eye)
    return (f"In a bottle this oil is {seen}. {EYE_NOTE}",)


def curve(given: Given) -> SaturationCurve | None:
    """Return the saturation of the sample's oil over temperature; None without a sound sample."""
    sample = sample_of(given)
    if isinstance(sample, NoFigure) or sample.liquid is not Liquid.MINERAL_OIL:
        return None
    if sample.temperature is None or not sample.water:
        return None
    if not COLDEST <= sample.temperature <= HOTTEST:
        return None
    water, cold = sample.water, free_water(sample)
    count = int((HOTTEST_DRAWN - COLDEST) / STEP)
    drawn = [COLDEST + STEP * place for place in range(count + 1)]
    target = _over_target(given.planned("plan_target_water"), sample.temperature)
    eye = _eye(given, sample.temperature, cold)
    return SaturationCurve(
        points=tuple((celsius(t), shares(water / GRIFFIN.at(t))) for t in drawn),
        sample=(celsius(sample.temperature), shares(water / GRIFFIN.at(sample.temperature))),
        free_water=None if cold is None else celsius(cold),
        target=None if target is None else (celsius(sample.temperature), shares(target)),
        eye=eye,
        source=SOLUBILITY,
    )


def _eye(given: Given, sampled: float, cold: float | None) -> tuple[tuple[float, str], ...]:
    """Return what one would see in a bottle of this oil at three temperatures."""
    coldest = given.known("coldest_oil")
    looked = [sampled, ROOM, *([coldest] if coldest is not None else [])]
    return tuple((celsius(t), HAZY if cold is not None and t < cold else CLEAR) for t in looked)
