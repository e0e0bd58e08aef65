"""What standards ask of mineral oil in service, by voltage; for the office to check and replace."""

from dataclasses import dataclass

from fieldapp.engineering.validity import require

IEEE = "IEEE C57.106-2006, limits for continued use of service-aged oil (value from memory)"
IEC = "IEC 60422:2013 Table 5 (value from memory; the edition of 2024 may differ)"
NOT_FOR_PAPER = "Limits for oil are not to be used to judge how dry the paper is."
HIGHEST_VOLTAGE = 1_200_000.0
IEEE_MIDDLE, IEEE_HIGH = 69e3, 230e3
IEC_MIDDLE, IEC_HIGH = 72.5e3, 170e3


@dataclass(frozen=True, slots=True)
class Limit:
    """A property of oil in the unit that its laboratory reports; `falls` if less is worse."""

    name: str
    unit: str
    good: float
    poor: float
    falls: bool = False

    def grade(self, value: float) -> str:
        """Return "good", "fair" or "poor"; where good and poor are one figure there is no fair."""
        sign = -1 if self.falls else 1
        if sign * value <= sign * self.good:
            return "good"
        return "poor" if sign * value > sign * self.poor else "fair"


@dataclass(frozen=True, slots=True)
class OilLimits:
    """The limits of one voltage class and where they stand."""

    voltage: str
    limits: tuple[Limit, ...]
    source: str

    def limit(self, name: str) -> Limit:
        """Return the limit of a property."""
        return next(limit for limit in self.limits if limit.name == name)


def _ieee(
    voltage: str, water: float, gap_1: float, gap_2: float, acidity: float, tension: float
) -> OilLimits:
    limits = (
        Limit("water", "mg/kg", water, water),
        Limit("breakdown voltage, 1 mm gap", "kV", gap_1, gap_1, falls=True),
        Limit("breakdown voltage, 2 mm gap", "kV", gap_2, gap_2, falls=True),
        Limit("acidity", "mg KOH/g", acidity, acidity),
        Limit("interfacial tension", "mN/m", tension, tension, falls=True),
        Limit("loss factor at 25 °C", "%", 0.5, 0.5),
        Limit("loss factor at 100 °C", "%", 5.0, 5.0),
    )
    return OilLimits(voltage, limits, IEEE)


def _iec(
    voltage: str,
    water: tuple[float, float],
    breakdown: tuple[float, float],
    acidity: tuple[float, float],
    loss: tuple[float, float],
) -> OilLimits:
    limits = (
        Limit("water", "mg/kg", *water),
        Limit("breakdown voltage, 2.5 mm gap", "kV", *breakdown, falls=True),
        Limit("acidity", "mg KOH/g", *acidity),
        Limit("loss factor at 90 °C", "1", *loss),
        Limit("interfacial tension, inhibited oil", "mN/m", 28, 22, falls=True),
        Limit("interfacial tension, uninhibited oil", "mN/m", 25, 20, falls=True),
    )
    return OilLimits(voltage, limits, IEC)


IEEE_LIMITS = (
    _ieee("up to 69 kV", 35, 23, 40, 0.20, 25),
    _ieee("above 69 and below 230 kV", 25, 28, 47, 0.15, 30),
    _ieee("230 kV and above", 20, 30, 50, 0.10, 32),
)
IEC_LIMITS = (
    _iec("up to 72.5 kV", (30, 40), (40, 30), (0.15, 0.30), (0.10, 0.50)),
    _iec("above 72.5 to 170 kV", (20, 30), (50, 40), (0.10, 0.20), (0.10, 0.50)),
    _iec("above 170 kV", (15, 20), (60, 50), (0.10, 0.15), (0.10, 0.20)),
)


def ieee_limits(voltage: float) -> OilLimits:
    """Return the limits of IEEE C57.106 for a highest voltage [V].

    >>> ieee_limits(115e3).limit("water").good
    25
    """
    require("voltage", voltage, 0, HIGHEST_VOLTAGE)
    return IEEE_LIMITS[(voltage > IEEE_MIDDLE) + (voltage >= IEEE_HIGH)]


def iec_limits(voltage: float) -> OilLimits:
    """Return the limits of IEC 60422 for a highest voltage [V].

    >>> iec_limits(123e3).limit("water").poor
    30
    """
    require("voltage", voltage, 0, HIGHEST_VOLTAGE)
    return IEC_LIMITS[(voltage > IEC_MIDDLE) + (voltage > IEC_HIGH)]
