"""The oil: what the skid takes, what that does to the level, and what the tray would hold."""

from fieldapp.engineering.flow.escape import burst_flow, level_drop, time_before_alarm
from fieldapp.engineering.hydraulics import loop_volume, tray_needed
from fieldapp.engineering.level import expected_level, margin_cold, oil_lost_before_alarm
from fieldapp.engineering.oil import head, oil_density
from fieldapp.plan.given import Given, celsius, mineral, shares
from fieldapp.plan.shapes import Answer, Figure
from fieldapp.units import rounded

LITRES, MINUTE = 1000.0, 60.0
DISCHARGE = 0.6
CUSHION = (
    "Gas cushion after filling: the sheet does not state its pressure. What the skid takes lowers "
    "it; below air pressure the tank draws air. The crew measures it first."
)
AS_MINERAL = "Density and expansion are those of mineral oil: this liquid differs."
CUSHION_DRIVES = "The pressure of the gas cushion is left out: with it a torn hose runs faster."
BELOW_CONTACT = (
    "Lost before the contact acts: by the owner’s curve the level stands below the contact once "
    "the skid has taken its oil. Top up first, or look at the curve."
)
LEVEL_SOURCE = "linear expansion of the oil, the owner’s curve; the crew measures the level"


def loop_of(given: Given) -> float:
    """Return the free volume of hoses and skid [m³]."""
    return loop_volume(
        suction_bore=given.needed("suction_hose_bore"),
        suction_length=given.needed("suction_hose_length"),
        return_bore=given.needed("return_hose_bore"),
        return_length=given.needed("return_hose_length"),
        vessel_volume=given.needed("vessel_volume"),
        pipe_volume=given.needed("pipe_volume"),
    )


def oil_taken(given: Given) -> Answer:
    """Return what the skid takes, and whether the transformer's contact will act for it."""
    taken = loop_of(given)
    least, whose = given.owners("margin_least")
    margin = _margin(given, taken, given.needed("coldest_oil"))
    if taken > given.needed("conservator_volume"):
        return _too_much(given, taken)
    drop = level_drop(taken=taken, conservator_volume=given.needed("conservator_volume"))
    acts = _acts_at(given, taken)
    figures = (
        Figure("Oil that the skid takes", taken * LITRES, "L", 0,
               source="bore and length of the hoses, vessel and pipe of the sheet"),
        Figure("Level falls by", shares(drop), "points", 1, source="share of the conservator"),
        Figure("Level above the contact at the coldest oil", shares(margin), "points", 1,
               at_least=shares(least), source=f"{LEVEL_SOURCE}; limit: {whose}"),
        Figure("The contact acts at mean oil of", acts, "°C", 0, source=LEVEL_SOURCE),
    )  # fmt: skip
    cushion = (CUSHION,) if given.sheet.yes_no("gas_cushion") else ()
    notes = () if mineral(given) else (AS_MINERAL,)
    return Answer("oil", "", _level_words(given, taken, margin, acts), figures, cushion, notes)


def _too_much(given: Given, taken: float) -> Answer:
    most = given.needed("conservator_volume") * LITRES
    figure = Figure(
        "Oil that the skid takes",
        taken * LITRES,
        "L",
        0,
        at_most=most,
        source="bore and length of the hoses, vessel and pipe; limit: conservator",
    )
    words = f"The skid takes {taken * LITRES:.0f} L, more than the conservator’s {most:.0f} L: "
    return Answer("oil", "", f"{words}do not connect it.", (figure,))  # fmt: skip


def _level_words(given: Given, taken: float, margin: float, acts: float) -> str:
    coldest, (least, _) = celsius(given.needed("coldest_oil")), given.owners("margin_least")
    words = f"The skid takes {taken * LITRES:.0f} L. "
    if 0 <= margin < least:
        return words + (
            f"At the coldest oil, {_degrees(coldest)}, the level stands only "
            f"{shares(margin):.1f} points above the low-level contact, less than the "
            f"{shares(least):.1f} asked for: top up first."
        )
    if margin < 0:
        return words + (
            f"At the coldest oil, {_degrees(coldest)}, the low-level contact will act: "
            "top up first, or plan for it."
        )
    return words + (
        f"The low-level contact will not act for it: at the coldest oil, {_degrees(coldest)}, the "
        f"level stands {shares(margin):.1f} points above it. It would act at {_degrees(acts)}."
    )


def _degrees(value: float) -> str:
    return f"{value:.0f}\u00a0°C".replace("-", "−")


def _margin(given: Given, taken: float, coldest: float) -> float:
    expansion, _ = given.owners("expansion")
    return margin_cold(
        level=given.needed("curve_level"), mean_oil_temperature=given.needed("curve_temperature"),
        coldest_oil=coldest, alarm_level=given.needed("alarm_level"), still_to_take=taken,
        oil_volume=given.needed("oil_volume"), expansion=expansion,
        conservator_volume=given.needed("conservator_volume"),
    )  # fmt: skip


def _acts_at(given: Given, taken: float) -> float:
    """Return the mean oil temperature [°C] at which the level meets the contact."""
    warm = given.needed("curve_temperature")
    at_warm, a_kelvin_colder = (_margin(given, taken, warm - step) for step in (0.0, 1.0))
    return celsius(warm - at_warm / (at_warm - a_kelvin_colder))


def containment(given: Given) -> Answer:
    """Return what the tray must hold and does hold, and what a torn hose would lose."""
    taken, (rain, whose) = loop_of(given), given.owners("rain_allowance")
    area, tray = given.needed("tray_area"), given.needed("tray_volume")
    needed = tray_needed(loop_volume=taken, rain=rain, tray_area=area)
    flow = _burst(given)
    lost = _lost(given, taken)
    enough = "holds" if tray >= needed else "does not hold"
    sentence = (
        f"The tray {enough} the skid’s {taken * LITRES:.0f} L and the rain. It holds none of the "
        "tank’s oil"
    )
    figures = (
        Figure("Tray", tray * LITRES, "L", 0, at_least=float(rounded(needed * LITRES, 0, "up")),
               source=f"skid’s oil and {rain * 1000:.0f} mm of rain; rain: {whose}"),
        Figure("A hose torn off at the drain runs", flow * LITRES * MINUTE, "L/min", 0,
               source="Torricelli, coefficient 0.6 (value from memory)"),
    )  # fmt: skip
    if lost <= 0:
        return Answer("tray", "", f"{sentence}.", figures, (BELOW_CONTACT,))
    minutes = time_before_alarm(oil_lost=lost, flow=flow) / MINUTE
    told = (
        Figure("Lost before the contact acts", lost * LITRES, "L", 0, source=LEVEL_SOURCE),
        Figure("Time until the contact acts", minutes, "min", 1, source="both together"),
    )  # fmt: skip
    sentence += f": a torn hose would run {minutes:.1f} min before the level tells."
    return Answer("tray", "", sentence, (*figures, *told), notes=_steady(given))


def _steady(given: Given) -> tuple[str, ...]:
    return (CUSHION_DRIVES,) if given.sheet.yes_no("gas_cushion") else ()


def _burst(given: Given) -> float:
    warm = given.needed("curve_temperature")
    density = oil_density(density_at_20=given.needed("oil_density"), temperature=warm)
    pressure = head(
        density_at_20=given.needed("oil_density"), temperature=warm,
        oil_height=given.needed("oil_height"), port_height=given.needed("suction_height"),
        cushion_pressure=0,
    )  # fmt: skip
    return burst_flow(head=pressure, bore=given.needed("suction_hose_bore"), density=density,
                      discharge=DISCHARGE)  # fmt: skip


def _lost(given: Given, taken: float) -> float:
    volume, warm = given.needed("conservator_volume"), given.needed("curve_temperature")
    level = expected_level(
        curve_level=given.needed("curve_level"), curve_temperature=warm, temperature=warm,
        oil_volume=given.needed("oil_volume"), expansion=given.owners("expansion")[0],
        conservator_volume=volume,
    )  # fmt: skip
    left = level - min(taken, volume) / volume
    if left <= given.needed("alarm_level"):
        return 0.0
    return oil_lost_before_alarm(level=left, alarm_level=given.needed("alarm_level"),
                                 conservator_volume=volume)  # fmt: skip
