"""Approach distances for planning only: the owner's table governs, on the drawing and on site."""

from dataclasses import dataclass

from fieldapp.engineering.validity import require
from fieldapp.units import rounded

PLANNING_ONLY = (
    "For planning only: the owner’s table governs. An older, shorter table of the American rule is "
    "still in circulation (2.59 m at 362 kV, where 3.41 m holds): compare before you copy."
)
AMERICAN = "29 CFR 1910.269, tables R-6 and R-7 of 2014, phase to ground (value from memory)"
EUROPEAN = "EN 50110-1, limits of live working zone and vicinity zone (as reproduced)"

# Highest voltage phase to phase [V], distance [m] up to 900 m. Below 72.6 kV table R-6; above,
# R-7, which its equation (table R-3, default overvoltages) gives when rounded up to 1 cm.
AMERICAN_ROWS = (
    (750.0, 0.33), (5_000.0, 0.63), (15_000.0, 0.65), (36_000.0, 0.77), (46_000.0, 0.84),
    (72_500.0, 1.00), (121_000.0, 1.13), (145_000.0, 1.30), (169_000.0, 1.46), (242_000.0, 2.01),
    (362_000.0, 3.41), (420_000.0, 4.25), (550_000.0, 5.07), (800_000.0, 6.88),
)  # fmt: skip
LOWEST_VOLTAGE = 301.0
# Highest elevation [m] and the factor of table R-5 (value from memory; the duty above 900 m seen)
ALTITUDES = (
    (900.0, 1.0), (1200.0, 1.02), (1500.0, 1.05), (1800.0, 1.08), (2100.0, 1.11), (2400.0, 1.14),
    (2700.0, 1.17), (3000.0, 1.20), (3600.0, 1.25),
)  # fmt: skip
# What must not be used: the table before 2014, still served on a public page.
SUPERSEDED_ROWS = (
    (121_000.0, 0.95), (145_000.0, 1.09), (169_000.0, 1.22), (242_000.0, 1.59), (362_000.0, 2.59),
    (550_000.0, 3.42), (800_000.0, 4.53),
)  # fmt: skip
# Nominal voltage [V]: limits of the live working zone and of the vicinity zone [m]
EUROPEAN_ROWS = {20_000.0: (0.22, 1.22), 110_000.0: (1.00, 2.00)}


@dataclass(frozen=True, slots=True)
class PlanningDistance:
    """A distance [m] to plan with, where it stands, and the warning that goes with it."""

    distance: float
    source: str
    altitude_factor: float = 1.0
    warning: str = PLANNING_ONLY


def american_distance(*, voltage: float, elevation: float) -> PlanningDistance:
    """Return the distance by the American rule, rounded up to a centimetre.

    Parameters
    ----------
    voltage : highest voltage phase to phase [V]
    elevation : height of the site above sea level [m]

    Returns
    -------
    distance [m] for planning, with its warning

    Valid for
    ---------
    voltage 301 to 800 000 V, elevation -430 to 3600 m

    Source
    ------
    29 CFR 1910.269, tables R-5, R-6 and R-7 of 2014 (values from memory).

    Examples
    --------
    >>> american_distance(voltage=123_000, elevation=1500).distance
    1.37
    """
    require("voltage", voltage, LOWEST_VOLTAGE, AMERICAN_ROWS[-1][0])
    require("elevation", elevation, -430, ALTITUDES[-1][0])
    row = next(distance for highest, distance in AMERICAN_ROWS if voltage <= highest)
    factor = next(factor for highest, factor in ALTITUDES if elevation <= highest)
    return PlanningDistance(float(rounded(row * factor, 2, "up")), AMERICAN, factor)


def european_distances(*, nominal_voltage: float) -> tuple[PlanningDistance, ...]:
    """Return live working zone and vicinity zone; nothing where the row is not carried here.

    >>> [each.distance for each in european_distances(nominal_voltage=110_000)]
    [1.0, 2.0]
    """
    zones = EUROPEAN_ROWS.get(nominal_voltage, ())
    return tuple(PlanningDistance(zone, EUROPEAN) for zone in zones)


def doubt_about(*, distance: float, voltage: float, elevation: float) -> str:
    """Return why a distance under the American rule should be looked up again; "" if nothing.

    >>> doubt_about(distance=2.59, voltage=345_000, elevation=100)
    '2.59 m is the figure of the superseded table; 3.41 m holds. Look it up again.'
    """
    require("distance", distance, 0, 100)
    holds = american_distance(voltage=voltage, elevation=elevation).distance
    if distance >= holds:
        return ""
    old = next((old for highest, old in SUPERSEDED_ROWS if voltage <= highest), None)
    if old is not None and round(distance, 2) == old:
        return (
            f"{distance:.2f} m is the figure of the superseded table; {holds:.2f} m holds. "
            "Look it up again."
        )
    return f"{distance:.2f} m is shorter than the published {holds:.2f} m. Look it up again."
