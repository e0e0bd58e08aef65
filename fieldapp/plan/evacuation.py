"""What vacuum to ask for here, and how long this pump takes to reach it."""

from fieldapp.engineering.atmosphere import deepest_vacuum, gauge_vacuum, standard_pressure
from fieldapp.engineering.pump_down import PumpDown
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.job.sheet import Instrument
from fieldapp.plan.given import Given, MissingFactError
from fieldapp.plan.loop import loop_of
from fieldapp.plan.shapes import Answer, Figure
from fieldapp.units import UNITS, from_si, rounded, to_si

WEATHER = 2500.0
USUAL = 25.0
STANDARD = (
    "The station pressure was not measured: standard atmosphere at this elevation, "
    "for planning only ±25 hPa. The crew takes the target from a barometer."
)
RELATIVE = "vacuum below air"


def evacuation(given: Given) -> Answer:
    """Return the target on the gauges of this site, and the time to it."""
    residual, whose = given.owners("residual_limit")
    measured = given.known("measured_station_pressure")
    station = measured or standard_pressure(elevation=given.needed("elevation"))
    spread = 0.0 if measured else WEATHER
    gauge = gauge_vacuum(station_pressure=station, residual_pressure=residual)
    target, guard = _absolute_target(given, residual)
    figures = [
        Figure("Target, absolute, the gauge’s doubt taken off",
               float(rounded(from_si(target, "hPa"), 1, "down")), "hPa", 1,
               source=f"{whose}: {from_si(residual, 'hPa'):.2f} hPa; {guard}"),
        _on_gauge("Target on a gauge relative to air", gauge, spread, "up"),
        *_on_dial(given, station, residual, spread),
        _on_gauge("Deepest that such a gauge can show here",
                  deepest_vacuum(station_pressure=station), spread, "down"),
    ]  # fmt: skip
    refusals: list[str] = [STANDARD] if not measured else []
    minutes, refusal = _minutes(given, station, target)
    if minutes is not None:
        figures.append(minutes)
    refusals += [refusal] if refusal else []
    sentence = _sentence(station, figures, minutes)
    return Answer("vacuum", "", sentence, tuple(figures), tuple(refusals))


def _sentence(station: float, figures: list[Figure], minutes: Figure | None) -> str:
    absolute, relative = figures[:2]
    deepest = from_si(deepest_vacuum(station_pressure=station), "inHg")
    words = f"Down to {absolute.value:.1f} hPa absolute: {relative.value:.1f} inHg here."
    if deepest < USUAL:
        words += f" The usual {USUAL:.0f} inHg cannot exist at this site."
    if minutes is not None:
        words += f" A tight loop gets there in {minutes.value:.1f} min, no sooner."
    return words


def _on_gauge(label: str, vacuum: float, spread: float, towards: str) -> Figure:
    value, low, high = (
        float(rounded(from_si(pressure, "inHg"), 1, towards))
        for pressure in (vacuum, vacuum - spread, vacuum + spread)
    )
    source = "station pressure less what is left, ISO 80000-4"
    if not spread:
        return Figure(label, value, "inHg", 1, source=source)
    return Figure(label, value, "inHg", 1, low, high, source=source)


def _on_dial(given: Given, station: float, residual: float, spread: float) -> list[Figure]:
    """Return the target that a gauge of the sheet must show to be sure of it."""
    gauge = _instrument(given, RELATIVE)
    if gauge is None:
        return []
    shown = gauge_vacuum(station_pressure=station, residual_pressure=residual)
    reading = rounded(from_si(shown, gauge.unit), 2)
    own = to_si(float(gauge.uncertainty(reading, gauge.unit)), gauge.unit)
    doubt = (own**2 + _barometer(given, station) ** 2) ** 0.5
    return [_on_gauge(f"Target on the {gauge.name.split(',')[0].lower()}, its doubt added",
                      shown + doubt, spread, "up")]  # fmt: skip


def _barometer(given: Given, station: float) -> float:
    barometer = given.sheet.instrument("barometer")
    if barometer is None:
        return 0.0
    reading = rounded(from_si(station, barometer.unit), 2)
    return to_si(float(barometer.uncertainty(reading, barometer.unit)), barometer.unit)


def _absolute_target(given: Given, residual: float) -> tuple[float, str]:
    gauge = given.sheet.instrument("absolute_gauge")
    if gauge is None:
        return residual, "no absolute gauge in the sheet"
    reading = rounded(from_si(residual, gauge.unit), 2)
    doubt = to_si(float(gauge.uncertainty(reading, gauge.unit)), gauge.unit)
    return residual - doubt, f"gauge ±{from_si(doubt, 'hPa'):g} hPa"


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
        return None, f"{label}: {fault}."
    if time is None:
        return None, (
            f"{label}: this pump does not get there: alone it reads {from_si(alone, 'hPa'):g} hPa, "
            f"the target is {from_si(target, 'hPa'):.1f} hPa. Bring a better pump."
        )
    source = "V/S ln((P0 − Pu)/(P − Pu)); a leak, or oil and water left inside, makes it longer"
    return Figure(label, time / 60, "min", 1, source=source), ""
