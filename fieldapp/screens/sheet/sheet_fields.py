"""The fields of a job sheet, section by section, as they are typed on the tablet."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from fieldapp.checklist.facts import REQUIRED_SHUTDOWNS, SHUTDOWNS, Fact, FactKind, facts_by_id
from fieldapp.checklist.model import Checklist, Measure
from fieldapp.job.sheet import ROLES
from fieldapp.job.sheet_facts import COUNTED, SECTIONS, key_of

INSTRUMENT, CREW, OWNER, SHUTDOWN = "instrument", "crew", "owner", "shutdown"
YES_NO = ("yes", "no")
_TITLES = {
    "job": "Job",
    "site": "Site",
    "transformer": "Transformer",
    "oil_sample": "Oil sample",
    "skid": "Skid",
    "suction_hose": "Suction hose",
    "return_hose": "Return hose",
    "plan": "For the plan",
    SHUTDOWN: "Shutdowns",
    OWNER: "The owner’s figures",
}


@dataclass(frozen=True, slots=True)
class SheetField:
    """One line of the sheet: `key` is its name in the file, `name` the one it is typed under."""

    name: str
    key: str
    label: str
    kind: FactKind = FactKind.TEXT
    unit: str = ""
    options: tuple[str, ...] = ()
    bounds: tuple[float, float] | None = None
    required: bool = True
    note: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the sheet; `table` is its place in the file, such as ("crew", 1)."""

    id: str
    title: str
    table: tuple[str, int]
    fields: tuple[SheetField, ...]


def sections_of(checklist: Checklist, typed: Mapping[str, str]) -> tuple[Section, ...]:
    """Return every section; there is one for each instrument asked for, and one more person."""
    facts = [_facts(name, members) for name, members in SECTIONS.items()]
    return (*facts, _shutdowns(), *_crew(typed), *_instruments(checklist), _owner(checklist))


def instruments_needed(checklist: Checklist) -> dict[str, str]:
    """Return the instruments that a checklist reads with, and the unit of each."""
    return {m.instrument: m.unit for m in _measures(checklist) if m.instrument}


def _measures(checklist: Checklist) -> Iterator[Measure]:
    for step in checklist.steps():
        for entry in step.entries:
            if entry.measure:
                yield entry.measure
            yield from (column.measure for column in entry.columns)


def _facts(section: str, members: tuple[Fact, ...]) -> Section:
    fields = tuple(_of_fact(fact, key_of(fact)) for fact in members)
    return Section(section, _TITLES.get(section, section), (section, 0), fields)


def _of_fact(fact: Fact, key: str) -> SheetField:
    options = YES_NO if fact.kind is FactKind.YES_NO else fact.options
    bounds = (fact.low, fact.high) if fact.kind is FactKind.NUMBER else None
    unit = "" if fact.unit == COUNTED else fact.unit
    return SheetField(fact.id, key, fact.label, fact.kind, unit, options, bounds, fact.required)


def _shutdowns() -> Section:
    known = facts_by_id()
    fields: list[SheetField] = []
    for name in SHUTDOWNS:
        needed = name in REQUIRED_SHUTDOWNS
        fitted = _of_fact(known[f"{name}_fitted"], "fitted")
        fields.append(replace(fitted, required=needed, note="" if needed else "without it no"))
        if f"{name}_set_point" in known:
            fields.append(_of_fact(known[f"{name}_set_point"], "set_point"))
    return Section(SHUTDOWN, _TITLES[SHUTDOWN], (SHUTDOWN, 0), tuple(fields))


def _crew(typed: Mapping[str, str]) -> list[Section]:
    numbers = [int(name.split()[1]) for name, text in typed.items()
               if name.startswith(f"{CREW} ") and text]  # fmt: skip
    count = max(numbers, default=-1) + 1
    return [
        Section(f"{CREW} {at}", f"Person {at + 1}" if at < count else "One more person", (CREW, at),
                (SheetField(f"{CREW} {at} name", "name", "Name"),
                 SheetField(f"{CREW} {at} role", "role", "Role", FactKind.CHOICE, options=ROLES),
                 SheetField(f"{CREW} {at} company", "company", "Company")))
        for at in range(count + 1)
    ]  # fmt: skip


def _instruments(checklist: Checklist) -> list[Section]:
    return [_instrument(at, name, unit)
            for at, (name, unit) in enumerate(instruments_needed(checklist).items())]  # fmt: skip


def _instrument(at: int, name: str, unit: str) -> Section:
    def number(key: str, label: str, of: str) -> SheetField:
        return SheetField(f"{INSTRUMENT} {name} {key}", key, label, FactKind.NUMBER, of,
                          required=False)  # fmt: skip

    def day(key: str, label: str) -> SheetField:
        return SheetField(f"{INSTRUMENT} {name} {key}", key, label, FactKind.DATE)

    words = name.replace("_", " ")
    fields = (
        SheetField(f"{INSTRUMENT} {name} name", "name", "Name"),
        SheetField(f"{INSTRUMENT} {name} serial", "serial", "Serial"),
        number("accuracy", "May be off by", unit),
        number("accuracy_of_reading", "and by a share of the reading", "%"),
        number("accuracy_of_span", "and by a share of the span", "%"),
        number("span", "Span", unit),
        number("repeatability", "Repeats to", unit),
        number("lowest", "Range begins at", unit),
        number("highest", "Range ends at", unit),
        day("calibrated", "Calibrated on"),
        day("due", "Calibration due on"),
    )
    return Section(f"{INSTRUMENT} {name}", f"Instrument: {words}", (INSTRUMENT, at), fields)


def _owner(checklist: Checklist) -> Section:
    figures = tuple(
        SheetField(f"{OWNER} {c.id}", c.id, c.label, FactKind.NUMBER, c.unit, required=False,
                   note=f"without it {c.number:f} {c.unit}")
        for c in checklist.constants if c.owner
    )  # fmt: skip
    answers = tuple(
        SheetField(f"{OWNER} {q.id}", q.id, q.label, FactKind.YES_NO, options=YES_NO,
                   required=False, note=f"without it {'yes' if q.otherwise else 'no'}")
        for q in checklist.questions
    )  # fmt: skip
    return Section(OWNER, _TITLES[OWNER], (OWNER, 0), (*figures, *answers))
