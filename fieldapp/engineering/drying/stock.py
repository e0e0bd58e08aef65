"""The water there is: in paper, in oil, and how much of it is to come out."""

from typing import Annotated

from fieldapp.engineering.validity import require

Kilogram = Annotated[float, "mass"]
WaterContent = Annotated[float, "water content"]
Share = Annotated[float, "share"]

HEAVIEST_PAPER, HEAVIEST_OIL = 50_000.0, 300_000.0
WETTEST_PAPER = 0.10


def dry_basis(*, wet_basis: Share) -> Share:
    """Return water in paper as a share of the dry mass from one of the whole mass.

    Parameters
    ----------
    wet_basis : water as a share of paper and water together [-]

    Returns
    -------
    share of the dry mass [-]

    Valid for
    ---------
    wet_basis 0 to 0.5

    Source
    ------
    Definition: w/(1 - w).

    Examples
    --------
    >>> round(dry_basis(wet_basis=0.03) * 100, 3)
    3.093
    """
    require("wet_basis", wet_basis, 0, 0.5)
    return wet_basis / (1 - wet_basis)


def paper_mass(*, oil_mass: Kilogram, share_of_oil: Share) -> Kilogram:
    """Return the dry mass of paper and board where the maker states none.

    Parameters
    ----------
    oil_mass : mass of the oil [kg]
    share_of_oil : paper as a share of the oil's mass, 0.10 where nothing is known [-]

    Returns
    -------
    mass [kg]

    Valid for
    ---------
    oil_mass 100 to 300 000 kg, share_of_oil 0.06 to 0.12: work it out for both ends

    Source
    ------
    Rule of the trade for power transformers (common practice, value from memory).

    Examples
    --------
    >>> round(paper_mass(oil_mass=16_984, share_of_oil=0.10))
    1698
    """
    require("oil_mass", oil_mass, 100, HEAVIEST_OIL)
    require("share_of_oil", share_of_oil, 0.06, 0.12)
    return oil_mass * share_of_oil


def water_held_by_paper(*, dry_paper: Kilogram, water_in_paper: Share) -> Kilogram:
    """Return the mass of water in the paper.

    Parameters
    ----------
    dry_paper : dry mass of paper and board [kg]
    water_in_paper : share of the dry mass [-]

    Returns
    -------
    mass [kg]

    Valid for
    ---------
    dry_paper 1 to 50 000 kg, water_in_paper 0 to 0.10

    Source
    ------
    Definition of water in paper on a dry basis.

    Examples
    --------
    >>> water_held_by_paper(dry_paper=5000, water_in_paper=0.005)
    25.0
    """
    require("dry_paper", dry_paper, 1, HEAVIEST_PAPER)
    require("water_in_paper", water_in_paper, 0, WETTEST_PAPER)
    return dry_paper * water_in_paper


def water_held_by_oil(*, oil_mass: Kilogram, water: WaterContent) -> Kilogram:
    """Return the mass of water in the oil, which is next to nothing beside the paper's.

    Parameters
    ----------
    oil_mass : mass of the oil [kg]
    water : water content of the oil [kg/kg]

    Returns
    -------
    mass [kg]

    Valid for
    ---------
    oil_mass 1 to 300 000 kg, water 0 to 0.003 kg/kg

    Source
    ------
    Definition of water content.

    Examples
    --------
    >>> round(water_held_by_oil(oil_mass=20_000, water=10e-6), 3)
    0.2
    """
    require("oil_mass", oil_mass, 1, HEAVIEST_OIL)
    require("water", water, 0, 0.003)
    return oil_mass * water


def water_to_remove(*, dry_paper: Kilogram, now: Share, target: Share) -> Kilogram:
    """Return the water that has to leave the paper.

    Parameters
    ----------
    dry_paper : dry mass of paper and board [kg]
    now : water in paper now, as a share of the dry mass [-]
    target : water in paper aimed at, on the same basis [-]

    Returns
    -------
    mass [kg]

    Valid for
    ---------
    dry_paper 1 to 50 000 kg, now 0 to 0.10, target 0 to now

    Source
    ------
    Definition of water in paper on a dry basis.

    Examples
    --------
    >>> round(water_to_remove(dry_paper=5000, now=0.03, target=0.015), 6)
    75.0
    """
    require("dry_paper", dry_paper, 1, HEAVIEST_PAPER)
    require("now", now, 0, WETTEST_PAPER)
    require("target", target, 0, now)
    return dry_paper * (now - target)
