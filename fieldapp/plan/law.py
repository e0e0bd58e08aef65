"""What the law says of the oil: its PCB class, and whether the spill rule counts it.

Rules of several places stand side by side, for planning; the owner's procedure governs.
"""

from datetime import date

from fieldapp.engineering.decision import pcb, spill
from fieldapp.plan.given import Given, MissingFactError, mineral
from fieldapp.plan.loop import LITRES, loop_of
from fieldapp.plan.shapes import Answer, Figure

# mg/kg near the upper end of each class that a sheet can state: a class is read by its worse end
CLASSES = {"below 50 mg/kg": 49.0, "50 to 500 mg/kg": 499.0, "500 mg/kg or more": 500.0}
WORSE = (pcb.NON_PCB, pcb.CONTAMINATED, pcb.PCB_TRANSFORMER)
DIFFER = (
    "The unit’s oil is stated as {}, the skid’s as {}: not one drop may cross before the owner’s "
    "engineer has decided in writing."
)
OTHER_FLUID = (
    "The skid last held {}, the unit holds {}: they may not mix before the owner’s engineer has "
    "decided in writing."
)
REPORT = (
    "Made {}: untested, American law takes such oil as {} ({}). “{}” needs the laboratory’s report."
)
COUNTED = (
    "Where the American rule (SPCC) is in force, it counts this oil: {:.0f} US gal, above 1320. "
    "Who runs the station holds the plan and says how the skid stands in it."
)
LAWS = (
    "American law: 40 CFR 761.2 and 761.3. European: Directive 96/59/EC, article 2 (value from "
    "memory)."
)
NO_REPORT = (
    "The sheet states classes, not the laboratory’s figures: have both reports at hand. The "
    "owner’s procedure governs."
)
COUNTED_TOO = (
    "Drums and other units above ground count too, each by what its shell holds, from 55 US gal on."
)
WHERE = (
    "Only where oil could reach navigable water or a shore. Elsewhere the water law of the place "
    "decides."
)
ELSEWHERE_ON_SITE = (
    "Unit and skid alone stay below the threshold of the American rule. The sheet does not state "
    "what else on the site holds oil: ask the owner."
)


def pcb_of(given: Given) -> Answer:
    """Return the classes of the unit's and the skid's oil, and what stops one meeting the other."""
    unit, skid = (_class(given, name) for name in ("unit_pcb_class", "skid_pcb_class"))
    stops = (_crossing(unit, skid), _fluids(given), _untested(given, unit))
    sentence = f"Unit: {unit}, {_named(unit)}. Skid: {skid}"
    sentence += "." if unit == skid else f", {_named(skid)}."
    return Answer("pcb", "", sentence, (), tuple(filter(None, stops)), (NO_REPORT, LAWS))


def _class(given: Given, name: str) -> str:
    stated = given.sheet.text_of(name)
    if stated is None:
        raise MissingFactError(name)
    return stated


def _named(stated: str) -> str:
    """Return what two laws call a class."""
    return f"{_american(stated)} by American law, {_european(stated)} by European law"


def _american(stated: str) -> str:
    where = pcb.Jurisdiction.UNITED_STATES
    return pcb.pcb_class(jurisdiction=where, content=CLASSES[stated]).name


def _european(stated: str) -> str:
    where = pcb.Jurisdiction.EUROPEAN_UNION
    return pcb.pcb_class(jurisdiction=where, content=CLASSES[stated]).name


def _crossing(unit: str, skid: str) -> str:
    return "" if unit == skid else DIFFER.format(unit, skid)


def _fluids(given: Given) -> str:
    unit, skid = given.sheet.text_of("fluid"), given.sheet.text_of("skid_last_fluid")
    return "" if None in (unit, skid) or unit == skid else OTHER_FLUID.format(skid, unit)


def _untested(given: Given, stated: str) -> str:
    """Return what American law assumes of this year without a test, where that is worse."""
    year = given.known("year_made")
    if year is None:
        return ""
    first_day = date(int(year), 1, 1)  # of a year in doubt the law takes the older part
    assumed = pcb.pcb_class(
        jurisdiction=pcb.Jurisdiction.UNITED_STATES, made=first_day, mineral_oil=mineral(given)
    )
    if WORSE.index(_american(stated)) >= WORSE.index(assumed.name):
        return ""
    return REPORT.format(int(year), assumed.name, assumed.source, stated)


def spill_rule(given: Given) -> Answer:
    """Return whether the American spill rule counts the oil of unit and skid."""
    unit, taken = given.needed("oil_volume"), loop_of(given)
    found = spill.spill_rule_of((unit, taken))
    figures = (
        Figure("Oil that counts, at least", found.counted * LITRES, "L", 0,
               source="unit, and skid if it holds 55 US gal or more; shells may hold more"),
        Figure("Threshold: above 1320 US gal", spill.THRESHOLD * LITRES, "L", 0,
               source=spill.SOURCE),
    )  # fmt: skip
    notes = (COUNTED_TOO, WHERE)
    if not found.applies:
        return Answer("spill", "", "", figures, (ELSEWHERE_ON_SITE,), notes)
    sentence = COUNTED.format(found.counted / spill.US_GALLON)
    return Answer("spill", "", sentence, figures, notes=notes)
