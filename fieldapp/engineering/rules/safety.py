"""What keeps people and ground safe: PCB, the spill rule, approach distance, bond, bend of a hose.

Each is for planning: the owner's figures and local codes govern.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Annotated

from fieldapp.engineering.decision import approach, bonding, pcb, spill
from fieldapp.engineering.flow import bend
from fieldapp.engineering.rules.said import Figure, Said
from fieldapp.engineering.validity import require

WaterContent = Annotated[float, "water content"]
CubicMetre = Annotated[float, "volume"]
Volt = Annotated[float, "voltage"]
Metre = Annotated[float, "length"]
Ohm = Annotated[float, "resistance"]

OWNERS_PLAN = (
    "Who runs the station holds the plan and decides; containment of equipment in work by "
    "112.7(c), or its alternative 112.7(k)."
)
WATERS = "Only where oil could reach navigable water or a shore; buried tanks are counted apart."
LARGER = "Other voltages: the owner’s table. No European row is carried for {:g} kV."


@dataclass(frozen=True, slots=True)
class Container:
    """A container or piece of oil-filled equipment, by what its shell holds."""

    capacity: CubicMetre


def pcb_class(
    *,
    jurisdiction: pcb.Jurisdiction,
    content: WaterContent | None = None,
    uncertainty: WaterContent = 0.0,
    made: date | None = None,
    mineral_oil: bool = True,
) -> Said:
    """Say which PCB class an oil has, and what must be assumed where nobody tested it.

    Parameters
    ----------
    jurisdiction : whose law is shown
    content : PCB by laboratory; left out when never tested [kg/kg]
    uncertainty : of the laboratory, k = 2 [kg/kg]
    made : when the unit was made; left out when not known
    mineral_oil : whether the fluid is mineral oil

    Returns
    -------
    the class, whether it is assumed, and the class at the upper end of the uncertainty

    Valid for
    ---------
    content and uncertainty 0 to 1 kg/kg; the owner's procedure governs

    Source
    ------
    40 CFR 761.2 and 761.3; that equipment made after 2 July 1979 may be assumed below 50 mg/kg is
    a value from memory. Directive 96/59/EC, article 2 (value from memory).

    Examples
    --------
    >>> pcb_class(jurisdiction=pcb.Jurisdiction.UNITED_STATES, content=3e-6).sentence
    'Non-PCB (40 CFR 761.3).'
    """
    if content is not None:
        require("content", content, 0, 1)
    require("uncertainty", uncertainty, 0, 1)
    found = pcb.pcb_class(
        jurisdiction=jurisdiction,
        content=None if content is None else round(content * 1e6, 9),
        uncertainty=uncertainty * 1e6,
        made=made,
        mineral_oil=mineral_oil,
    )
    assumed = ", assumed" if found.assumed else ""
    could_be = f", but {found.could_be} at the upper end of the uncertainty"
    doubt = could_be if found.could_be else ""
    source = f" ({found.source})" if found.source else ""
    words = f"{found.name[:1].upper()}{found.name[1:]}{assumed}{doubt}{source}."
    return Said(words, notes=(found.note,))


def spill_rule(*, container: Sequence[Container]) -> Said:
    """Say whether the American spill rule (SPCC) counts the oil of a site.

    Parameters
    ----------
    container : what its shell holds: tank, conservator, skid and drums, one row each [m³]

    Returns
    -------
    the oil that counts, and whether it is above the threshold

    Valid for
    ---------
    1 to 1000 containers above ground, each 0 to 1000 m³; for planning, the owner decides

    Source
    ------
    40 CFR 112.1: more than 1320 US gal above ground, containers from 55 US gal count (as seen in
    EPA's guidance for inspectors, chapter 4).

    Examples
    --------
    >>> spill_rule(container=[Container(4.9), Container(0.2)]).sentence
    'The rule does not count this oil: 1 container, 1294 US gal of 1320.'
    """
    found = spill.spill_rule_of([each.capacity for each in container])
    many = f"{found.containers} container{'' if found.containers == 1 else 's'}"
    gallons = f"{found.counted / spill.US_GALLON:.0f} US gal"
    words = (
        f"The rule counts this oil: {many}, {gallons}, above 1320."
        if found.applies
        else f"The rule does not count this oil: {many}, {gallons} of 1320."
    )
    figures = (
        Figure("oil that counts", found.counted, "L"),
        Figure("threshold", spill.THRESHOLD, "L"),
        Figure("smallest container that counts", spill.SMALLEST, "L"),
    )
    return Said(words, figures, notes=(WATERS, OWNERS_PLAN))


def approach_distance(
    *,
    voltage: Volt,
    elevation: Metre,
    nominal_voltage: Volt | None = None,
    distance: Metre | None = None,
) -> Said:
    """Say which approach distances are published, for planning only, and whether one is too short.

    Parameters
    ----------
    voltage : highest voltage phase to phase [V]
    elevation : height of the site above sea level [m]
    nominal_voltage : nominal voltage, for the European zones [V]
    distance : a distance somebody wrote down, to be held against the American rule [m]

    Returns
    -------
    American distance phase to ground; European zones where carried; a doubt about `distance`

    Valid for
    ---------
    voltage 301 to 800 000 V, elevation -430 to 3600 m, nominal_voltage 1 to 1 200 000 V, distance
    0 to 100 m; the owner's table governs

    Source
    ------
    29 CFR 1910.269, tables R-5, R-6 and R-7 of 2014 (values from memory); EN 50110-1 (as
    reproduced).

    Examples
    --------
    >>> approach_distance(voltage=362_000, elevation=100, distance=2.59).sentence
    '2.59 m is the figure of the superseded table; 3.41 m holds. Look it up again.'
    """
    american = approach.american_distance(voltage=voltage, elevation=elevation)
    words = f"{american.distance:.2f} m by the American rule, phase to ground."
    if distance is not None:
        words = (
            approach.doubt_about(distance=distance, voltage=voltage, elevation=elevation)
            or f"{distance:.2f} m is no shorter than the published {american.distance:.2f} m."
        )
    figures = [Figure("American, phase to ground", american.distance, "m")]
    notes = [american.warning, american.source]
    if nominal_voltage is not None:
        require("nominal_voltage", nominal_voltage, 1, 1_200_000)
        zones = approach.european_distances(nominal_voltage=nominal_voltage)
        labels = ("European, live working zone", "European, vicinity zone")
        figures += [Figure(label, zone.distance, "m")
                    for label, zone in zip(labels, zones, strict=False)]  # fmt: skip
        notes.append(zones[0].source if zones else LARGER.format(nominal_voltage / 1000))
    return Said(words, tuple(figures), notes=tuple(notes))


def bond_place(*, resistance: Ohm, uncertainty: Ohm = 0.0) -> Said:
    """Say where a measured bond between skid and station stands.

    Parameters
    ----------
    resistance : bond measured, clamps and all [Ω]
    uncertainty : uncertainty of the meter, k = 2; it counts against the bond [Ω]

    Returns
    -------
    as aimed at, above it, or stop

    Valid for
    ---------
    resistance and uncertainty 0 to 1e9 Ω; the owner states size and limit

    Source
    ------
    Aim 0.1 Ω: common practice, no source. Stop above 0.5 Ω: acceptance testing practice (value
    from memory). Static figures: NFPA 77 practice, as quoted.

    Examples
    --------
    >>> bond_place(resistance=0.012, uncertainty=0.001).sentence
    'As aimed at.'
    """
    place = bonding.bond_place(resistance, uncertainty).value
    rows = tuple((f"{f.limit:.7g} Ω", f.meant_for, f.source) for f in bonding.FIGURES)
    return Said(
        f"{place[:1].upper()}{place[1:]}.",
        heads=("at most", "meant for", "source"),
        rows=rows,
        notes=(bonding.WARNING,),
    )


def bend_radius(*, bore: Metre) -> Said:
    """Say how tightly a suction hose may be bent, where its marking says nothing.

    Parameters
    ----------
    bore : inner diameter [m]

    Returns
    -------
    smallest bend radius of the next size up

    Valid for
    ---------
    bore 0.005 to 0.0515 m; type 100R4

    Source
    ------
    SAE J517, type 100R4 (value from memory).

    Examples
    --------
    >>> bend_radius(bore=0.0254).sentence
    'No tighter than 150 mm. The marking on the hose governs.'
    """
    found = bend.smallest_bend(bore)
    words = f"No tighter than {found.radius * 1000:.0f} mm. The marking on the hose governs."
    return Said(words, (Figure("bend radius", found.radius, "mm"),), notes=(found.warning,))
