"""What vacuum to ask for here, and how long this pump takes to reach it."""

from fieldapp.engineering.atmosphere import deepest_vacuum, gauge_vacuum, standard_pressure
from fieldapp.engineering.pump_down import PumpDown
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.job.sheet import Instrument
from fieldapp.plan.given import Given, MissingFactError, outside
from fieldapp.plan.loop import loop_of
from fieldapp.plan.shapes import Answer, Figure
from fieldapp.units import UNITS, from_si, rounded, to_si

WEATHER = 2500.0
USUAL = 25.0
STANDARD = (
    "The station pressure was not measured: standard atmosphere at this elevation, "
    "for planning only ±25 hPa. The crew takes the target from a barometer."
)
ON_THE_DAY = (
    "Weather moves the station pressure: the crew takes the target from a barometer that day."
)
RELATIVE = "vacuum below air"
TOO_COARSE = (
    "{}: this gauge cannot decide here: its doubt of ±{:g} hPa leaves nothing of {:g} hPa. Bring "
    "a finer one."
)
TOO_SHALLOW = (
    "{}: this gauge cannot decide here: with its doubt it would have to show {:.1f} inHg, more "
    "than there is. Use an absolute gauge."
)
NO_BAROMETER = "{}: the sheet has no barometer, without which nobody knows its doubt."


def evacuation(given: Given) -> Answer:
    """Return the target on the gauges of this site, and the time to it."""
    residual, whose = given.owners("residual_limit")
    measured = given.known("measured_station_pressure")
    station = measured or standard_pressure(elevation=given.needed("elevation"))
    spread = 0.0 if measured else WEATHER
    gauge = gauge_vacuum(station_pressure=station, residual_pressure=residual)
    target, coarse = _absolute_target(given, residual)
    absolute = Figure("Target, absolute, the gauge’s doubt taken off",
                      float(rounded(from_si(target, "hPa"), 1, "down")), "hPa", 1,
                      source=_whose(given, residual, whose, target))  # fmt: skip
    relative = _on_gauge("Target on a gauge relative to air", gauge, spread, "up")
    dial, shallow = _on_dial(given, station, residual, spread)
    deepest = _on_gauge("Deepest that such a gauge can show here",
                        deepest_vacuum(station_pressure=station), spread, "down")  # fmt: skip
    minutes, late = _minutes(given, station, target)
    sure = [] if coarse else [absolute]
    figures = [*sure, relative, *dial, deepest, *([minutes] if minutes else [])]
    refusals = [] if measured else [STANDARD]
    refusals += [refusal for refusal in (coarse, shallow, late) if refusal]
    down_to = "" if coarse else f"Down to {absolute.value:.1f} hPa absolute: "
    sentence = f"{down_to}{relative.value:.1f} inHg here.{_beside_the_usual(station, spread)}"
    if minutes is not None:
        sentence += f" A tight loop gets there in {minutes.value:.1f} min, no sooner."
    notes = (ON_THE_DAY,) if measured else ()
    return Answer("vacuum", "", sentence, tuple(figures), tuple(refusals), notes)


def _whose(given: Given, residual: float, whose: str, target: float) -> str:
    limit = f"{whose}: {from_si(residual, 'hPa'):.2f} hPa"
    if given.sheet.instrument("absolute_gauge") is None:
        return f"{limit}; no absolute gauge in the sheet"
    return f"{limit}; gauge ±{from_si(residual - target, 'hPa'):g} hPa"


def _beside_the_usual(station: float, spread: float) -> str:
    """Return whether the vacuum that is usual at sea level can exist here, if it may not."""
    deepest, weather = (
        from_si(pressure, "inHg") for pressure in (deepest_vacuum(station_pressure=station), spread)
    )
    if deepest + weather < USUAL:
        return f" The usual {USUAL:.0f} inHg cannot exist at this site."
    if deepest - weather < USUAL:
        return f" The usual {USUAL:.0f} inHg cannot exist at this site in every weather."
    return ""


def _on_gauge(label: str, vacuum: float, spread: float, towards: str) -> Figure:
    value, low, high = (
        float(rounded(from_si(pressure, "inHg"), 1, towards))
        for pressure in (vacuum, vacuum - spread, vacuum + spread)
    )
    source = "station pressure less what is left, ISO 80000-4"
    if not spread:
        return Figure(label, value, "inHg", 1, source=source)
    return Figure(label, value, "inHg", 1, low, high, source=source)


def _on_dial(
    given: Given, station: float, residual: float, spread: float
) -> tuple[list[Figure], str]:
    """Return what a gauge of the sheet must show to be sure of the target, or why it cannot."""
    gauge = _instrument(given, RELATIVE)
    if gauge is None:
        return [], ""
    label = f"Target on the {gauge.name.split(',')[0].lower()}, its doubt added"
    barometer = given.sheet.instrument("barometer")
    if barometer is None:
        return [], NO_BAROMETER.format(label)
    shown = gauge_vacuum(station_pressure=station, residual_pressure=residual)
    reading = rounded(from_si(shown, gauge.unit), 2)
    own = to_si(float(gauge.uncertainty(reading, gauge.unit)), gauge.unit)
    sure = shown + (own**2 + _doubt_of(barometer, station) ** 2) ** 0.5
    if sure > deepest_vacuum(station_pressure=station):
        return [], TOO_SHALLOW.format(label, from_si(sure, "inHg"))
    return [_on_gauge(label, sure, spread, "up")], ""


def _doubt_of(barometer: Instrument, station: float) -> float:
    reading = rounded(from_si(station, barometer.unit), 2)
    return to_si(float(barometer.uncertainty(reading, barometer.unit)), barometer.unit)


def _absolute_target(given: Given, residual: float) -> tuple[float, str]:
    """Return the pressure to reach, and why the gauge of the sheet cannot tell, if so."""
    gauge = given.sheet.instrument("absolute_gauge")
    if gauge is None:
        return residual, ""
    reading = rounded(from_si(residual, gauge.unit), 2)
    doubt = to_si(float(gauge.uncertainty(reading, gauge.unit)), gauge.unit)
    if doubt >= residual:
        named = "Target on the absolute gauge"
        return residual, TOO_COARSE.format(named, *(from_si(p, "hPa") for p in (doubt, residual)))
    return residual - doubt, ""


def _instrument(given: Given, quantity: str) -> Instrument | None:
    found = (i for i in given.sheet.instruments if UNITS[i.unit].quantity == quantity)
    return next(found, None)


def _minutes(given: Given, station: float, target: float) -> tuple[Figure | None, str]:
    """Return the time to the target, or why there is none."""
    label = "Time to the target"
    try:
        speed, alone = given.needed("plan_pump_speed"), given.needed("plan_pump_blank_off")
    except MissingFactError as missing:
        return None, f"{label}: {missing}."
    try:
        course = PumpDown(station, alone, loop_of(given) / speed, 0.0)
        time = course.time_to(target)
    except OutsideValidity as fault:
        return None, f"{label}: {outside(fault)}."
    if time is None:
        return None, (
            f"{label}: this pump does not get there: alone it reads {from_si(alone, 'hPa'):g} hPa, "
            f"the target is {from_si(target, 'hPa'):.1f} hPa. Bring a better pump."
        )
    source = "V/S ln((P0 − Pu)/(P − Pu)); a leak, or oil and water left inside, makes it longer"
    return Figure(label, time / 60, "min", 1, source=source), ""
