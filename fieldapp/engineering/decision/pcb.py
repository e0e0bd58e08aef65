"""PCB in oil: which class the law of a place puts it in, and what must be assumed untested."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from fieldapp.engineering.validity import require


class Jurisdiction(StrEnum):
    """Whose law is shown; the owner's procedure governs everywhere."""

    UNITED_STATES = "United States"
    EUROPEAN_UNION = "European Union"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class PcbClass:
    """The class of an oil: the law's name, where it stands, and whether it is assumed.

    `could_be` is the class at the upper end of the laboratory's uncertainty, if another.
    """

    name: str
    source: str = ""
    assumed: bool = False
    could_be: str = ""
    note: str = "The owner’s procedure governs."


CONTAMINATED_FROM, TRANSFORMER_FROM = 50.0, 500.0
ENDED = date(1979, 7, 2)
NON_PCB, CONTAMINATED, PCB_TRANSFORMER = "non-PCB", "PCB-Contaminated", "PCB Transformer"
TESTED_SOURCE = "40 CFR 761.3"
ASSUMED_SOURCE = "40 CFR 761.2(a)"
UNION_SOURCE = "Directive 96/59/EC, article 2: above 0.005 % by weight (value from memory)"
NOT_KNOWN = "not known here"
TEST_FIRST = "Untested: have it tested before one drop crosses to the skid or back."
ASK = "No rule of this place is known here: the owner states the class."


def pcb_class(
    *,
    jurisdiction: Jurisdiction,
    content: float | None = None,
    uncertainty: float = 0.0,
    made: date | None = None,
    mineral_oil: bool = True,
) -> PcbClass:
    """Return the PCB class of an oil.

    Parameters
    ----------
    jurisdiction : whose law
    content : PCB by laboratory [mg/kg]; None when never tested
    uncertainty : of the laboratory, k = 2 [mg/kg]
    made : when the unit was made; None when not known
    mineral_oil : whether the fluid is mineral oil

    Returns
    -------
    the class; assumed when never tested

    Valid for
    ---------
    content and uncertainty 0 to 1 000 000 mg/kg

    Source
    ------
    40 CFR 761.2 and 761.3; that equipment made after 2 July 1979 may be assumed below 50 is a
    value from memory, the day itself is counted as before. Directive 96/59/EC (from memory).

    Examples
    --------
    >>> pcb_class(jurisdiction=Jurisdiction.UNITED_STATES, content=3).name
    'non-PCB'
    """
    if content is not None:
        require("content", content, 0, 1e6)
        require("uncertainty", uncertainty, 0, 1e6)
        return _tested(jurisdiction, content, uncertainty)
    if jurisdiction is Jurisdiction.UNITED_STATES:
        name = _assumed(made, mineral_oil=mineral_oil)
        return PcbClass(name, ASSUMED_SOURCE, assumed=True, note=TEST_FIRST)
    return PcbClass(NOT_KNOWN, note=TEST_FIRST)


def _assumed(made: date | None, *, mineral_oil: bool) -> str:
    if made is not None and made > ENDED:
        return NON_PCB
    return CONTAMINATED if mineral_oil else PCB_TRANSFORMER


def _tested(jurisdiction: Jurisdiction, content: float, uncertainty: float) -> PcbClass:
    if jurisdiction is Jurisdiction.OTHER:
        return PcbClass(NOT_KNOWN, note=ASK)
    named = _american if jurisdiction is Jurisdiction.UNITED_STATES else _european
    source = TESTED_SOURCE if jurisdiction is Jurisdiction.UNITED_STATES else UNION_SOURCE
    name, upper = named(content), named(content + uncertainty)
    return PcbClass(name, source, could_be=upper if upper != name else "")


def _american(content: float) -> str:
    if content < CONTAMINATED_FROM:
        return NON_PCB
    return CONTAMINATED if content < TRANSFORMER_FROM else PCB_TRANSFORMER


def _european(content: float) -> str:
    return "PCB" if content > CONTAMINATED_FROM else "not PCB"
