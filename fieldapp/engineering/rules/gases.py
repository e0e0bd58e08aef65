"""Gases in oil: how much of each it takes, and where an analysis stands beside typical values."""

from enum import StrEnum
from typing import Annotated

from fieldapp.engineering.air import solubility
from fieldapp.engineering.decision import dissolved_gas
from fieldapp.engineering.rules.said import Figure, Said
from fieldapp.engineering.validity import require

PlainNumber = Annotated[float, "plain number"]
GasContent = Annotated[float, "gas content"]

PER_MILLION = 1e6
IEC_NOTE = "For any gas calculation take the Ostwald coefficient."


class GasName(StrEnum):
    """Gases of the two tables, and air, which is two of them."""

    HYDROGEN = "H2"
    NITROGEN = "N2"
    CARBON_MONOXIDE = "CO"
    OXYGEN = "O2"
    METHANE = "CH4"
    CARBON_DIOXIDE = "CO2"
    ETHANE = "C2H6"
    ETHYLENE = "C2H4"
    ACETYLENE = "C2H2"
    AIR = "air"


class TypicalGas(StrEnum):
    """The gases that the standards print typical values of."""

    HYDROGEN = "H2"
    METHANE = "CH4"
    ETHANE = "C2H6"
    ETHYLENE = "C2H4"
    ACETYLENE = "C2H2"
    CARBON_MONOXIDE = "CO"
    CARBON_DIOXIDE = "CO2"


def gas_solubility(*, gas: GasName) -> Said:
    """Say how much of a gas mineral oil takes, by two tables that do not agree.

    Parameters
    ----------
    gas : chemical formula, or air

    Returns
    -------
    share of the oil's volume under one atmosphere of the gas, by both

    Valid for
    ---------
    mineral oil near 25 °C, one atmosphere of the gas itself

    Source
    ------
    DiGiorgio 2005 (as reproduced); Ostwald coefficients of IEC 60567 and IEC 60599, averages over
    oils (values from memory). Air: 78.08 % N2 and 20.95 % O2, U.S. Standard Atmosphere 1976.

    Examples
    --------
    >>> gas_solubility(gas=GasName.ACETYLENE).sentence
    'Acetylene: 400 % by volume in one table, 122 % by IEC: 3.3 times as much. Take IEC.'
    """
    if gas is GasName.AIR:
        percent, ostwald = solubility.air_by_percent_table(), solubility.air_by_ostwald()
        both = f"{100 * percent:.2f} % by volume in one table, {100 * ostwald:.2f} % by IEC"
        words = f"air: {both}: they agree."
    else:
        found = solubility.GASES[gas.value]
        percent, ostwald = found.percent / 100, found.ostwald
        words = solubility.disagreement_in_words(gas.value)
    return Said(
        f"{words[:1].upper()}{words[1:]}",
        (Figure("by the table of percent", percent, "%"), Figure("by Ostwald", ostwald, "%")),
        notes=(IEC_NOTE,),
    )


def gas_beside_typical(
    *,
    gas: TypicalGas,
    content: GasContent,
    oxygen_to_nitrogen: PlainNumber | None = None,
    joint_tap_changer: bool = False,
) -> Said:
    """Say where a dissolved gas stands beside typical values: information, never a release.

    Parameters
    ----------
    gas : chemical formula
    content : gas dissolved in the oil, by analysis [-]
    oxygen_to_nitrogen : O2/N2 of the same analysis; left out, the smaller IEEE figure counts [-]
    joint_tap_changer : whether the tap changer shares its oil or air with the tank

    Returns
    -------
    below, among or above typical values, by two standards

    Valid for
    ---------
    content 0 to 1 (a million µL/L), oxygen_to_nitrogen 0 to 10; mineral oil

    Source
    ------
    IEEE C57.104-2019, table 1; IEC 60599:2015 (values from memory; the owner's edition wins).

    Examples
    --------
    >>> gas_beside_typical(gas=TypicalGas.HYDROGEN, content=18e-6, oxygen_to_nitrogen=0.34).sentence
    '18 µL/L H2: below typical values by IEEE, below typical values by IEC.'
    """
    require("content", content, 0, 1)
    parts = round(content * PER_MILLION, 9)
    note = dissolved_gas.gas_note(
        gas.value, parts, oxygen_to_nitrogen=oxygen_to_nitrogen,
        joint_tap_changer=joint_tap_changer,
    )  # fmt: skip
    ieee, iec = note.typical
    words = (
        f"{parts:g} µL/L {gas.value}: {ieee.standing.value} by IEEE, {iec.standing.value} by IEC."
    )
    rows = tuple(
        (f"{t.low:g}" if t.low == t.high else f"{t.low:g} to {t.high:g}", t.source)
        for t in note.typical
    )
    notes = tuple(each for each in (note.explain, note.warning, note.afterwards) if each)
    return Said(words, heads=("typical, µL/L", "source"), rows=rows, notes=notes)
