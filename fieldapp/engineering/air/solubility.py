"""How much of each gas mineral oil takes, by two published tables that do not agree.

Table of percent by volume: DiGiorgio, 2005 (as reproduced; the figure for N2 too). Ostwald
coefficients: IEC 60567 and IEC 60599, averages over oils (value from memory). Both hold near
25 °C under one atmosphere of the gas itself. For any gas calculation take the IEC column; the
other is here because people carry it about.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Gas:
    """A gas in oil: percent of the oil's volume, and the Ostwald coefficient."""

    formula: str
    name: str
    percent: float
    ostwald: float

    @property
    def disagreement(self) -> float:
        """How many times the percent table gives what the Ostwald coefficient gives."""
        return self.percent / 100 / self.ostwald


GASES = {
    gas.formula: gas
    for gas in (
        Gas("H2", "hydrogen", 7, 0.056),
        Gas("N2", "nitrogen", 8.6, 0.091),
        Gas("CO", "carbon monoxide", 9, 0.132),
        Gas("O2", "oxygen", 16, 0.172),
        Gas("CH4", "methane", 30, 0.429),
        Gas("CO2", "carbon dioxide", 120, 1.09),
        Gas("C2H6", "ethane", 280, 2.40),
        Gas("C2H4", "ethylene", 280, 1.76),
        Gas("C2H2", "acetylene", 400, 1.22),
    )
}

NITROGEN_IN_AIR, OXYGEN_IN_AIR = 0.7808, 0.2095  # U.S. Standard Atmosphere 1976, table 3
CLOSE = 1.15


def air_by_percent_table() -> float:
    """Return the air at saturation under one atmosphere, by the table of percent.

    >>> round(air_by_percent_table() * 100, 2)
    10.07
    """
    nitrogen, oxygen = GASES["N2"].percent, GASES["O2"].percent
    return (NITROGEN_IN_AIR * nitrogen + OXYGEN_IN_AIR * oxygen) / 100


def air_by_ostwald() -> float:
    """Return the air at saturation under one atmosphere, by the Ostwald coefficients.

    >>> round(air_by_ostwald() * 100, 2)
    10.71
    """
    nitrogen, oxygen = GASES["N2"].ostwald, GASES["O2"].ostwald
    return NITROGEN_IN_AIR * nitrogen + OXYGEN_IN_AIR * oxygen


def disagreement_in_words(formula: str) -> str:
    """Return what the two tables say of a gas, and how far apart they are.

    >>> disagreement_in_words("C2H2")
    'acetylene: 400 % by volume in one table, 122 % by IEC: 3.3 times as much. Take IEC.'
    """
    gas = GASES[formula]
    both = f"{gas.name}: {gas.percent:g} % by volume in one table, {gas.ostwald * 100:.3g} % by IEC"
    if 1 / CLOSE <= gas.disagreement <= CLOSE:
        return f"{both}: they agree."
    if gas.disagreement > 1:
        return f"{both}: {gas.disagreement:.1f} times as much. Take IEC."
    return f"{both}: {gas.disagreement:.1f} of it. Take IEC."
