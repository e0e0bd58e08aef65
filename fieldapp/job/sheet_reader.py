"""Reads a job sheet from TOML: the whole sheet, or everything that is wrong with it."""

from collections.abc import Mapping
from datetime import date
from types import MappingProxyType
from unicodedata import normalize

from fieldapp.checklist.facts import REQUIRED_SHUTDOWNS, SHUTDOWNS
from fieldapp.checklist.problems import Problem, decoded, opened, without_mark
from fieldapp.checklist.reading.document import Document
from fieldapp.checklist.reading.shapes import Table
from fieldapp.job.sheet import FactValue, JobSheet, OwnerValue
from fieldapp.job.sheet_facts import SECTIONS, check_job_number, key_of, read_fact, shutdown_fact
from fieldapp.job.sheet_people import read_crew, read_instruments

GAS_CUSHION = "nitrogen or gas cushion"
AT_THE_SKID = "at the skid"


def read_sheet(content: str | bytes, today: date) -> JobSheet | tuple[Problem, ...]:
    """Return the job sheet that a file's text describes, or every problem in it by line."""
    text = decoded(content) if isinstance(content, bytes) else content
    if isinstance(text, Problem):
        return (text,)
    values = opened(normalize("NFC", text))
    if isinstance(values, Problem):
        return (values,)
    document = Document(without_mark(text))
    sheet = _sheet(Table(document, (), "the job sheet", values), text, today)
    return document.problems() or sheet


def _sheet(table: Table, text: str, today: date) -> JobSheet:
    facts = _facts(table, today) | _shutdowns(table)
    facts |= {
        "gas_cushion": facts.get("preservation") == GAS_CUSHION,
        "isolation_at_skid": facts.get("isolation_at") == AT_THE_SKID,
    }
    if facts["gas_cushion"] and "cushion_volume" not in facts:
        what = "cushion_volume is missing: a gas cushion needs its volume"
        table.below("transformer").fault(what, "preservation")
    sheet = JobSheet(
        number=str(facts.get("number", "")),
        facts=MappingProxyType(facts),
        instruments=read_instruments(table, today),
        crew=read_crew(table),
        owner=MappingProxyType(_owner(table.table("owner", where="[owner]"))),
        text=text,
    )
    table.close()
    return sheet


def _facts(table: Table, today: date) -> dict[str, FactValue]:
    facts: dict[str, FactValue] = {}
    for section, members in SECTIONS.items():
        if not table.has(section):
            if any(fact.required for fact in members):
                keys = ", ".join(map(key_of, members))
                table.fault(f"[{section}] is missing: add it with {keys}")
            continue
        below = table.table(section, where=f"[{section}]")
        for fact in members if below else ():
            value = read_fact(below, fact, today) if below else None
            if value is not None:
                facts[fact.id] = value
        if below:
            below.close()
    if "number" in facts:
        check_job_number(table.below("job"), str(facts["number"]))
    return facts


def _shutdowns(table: Table) -> dict[str, FactValue]:
    below = table.table("shutdown", where="[shutdown]")
    facts: dict[str, FactValue] = {}
    for name in SHUTDOWNS:
        stated = below.table(name, where=f"[shutdown.{name}]") if below else None
        facts |= _shutdown(stated, name) if stated else {f"{name}_fitted": False}
        if name in REQUIRED_SHUTDOWNS and not (below and below.has(name)):
            table.fault(f"[shutdown.{name}] is missing: say whether it is fitted")
    if not (facts["low_flow_fitted"] or facts["air_fitted"]):
        what = "neither low_flow nor air is fitted: the skid must have one of the two"
        table.fault(what, "shutdown")
    if below:
        below.close()
    return facts


def _shutdown(table: Table, name: str) -> dict[str, FactValue]:
    fitted = table.truth("fitted", otherwise=None)
    facts: dict[str, FactValue] = {f"{name}_fitted": fitted}
    fact = shutdown_fact(name, needed=fitted)
    value = read_fact(table, fact, date.max) if fact else None
    if value is not None:
        facts[f"{name}_set_point"] = value
    table.close()
    return facts


def _owner(table: Table | None) -> Mapping[str, OwnerValue]:
    """Return the owner's figures and answers; the checklist says later which may stand here."""
    stated: dict[str, OwnerValue] = {}
    for name in table.keys() if table else ():
        value = table.any(name) if table else None
        if isinstance(value, bool):
            stated[name] = value
        elif table and (quantity := table.quantity(name)):
            stated[name] = quantity
    return stated
