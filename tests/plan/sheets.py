"""The demo's job sheet, whole, with facts taken out, or with others in their place."""

from dataclasses import replace
from datetime import date

from fieldapp.checklist.facts import FactKind, facts_by_id
from fieldapp.demo.player import sheet_text
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.plan.planning import plan_of
from fieldapp.units import parse_quantity

TODAY = date(2026, 6, 16)


def demo_sheet():
    found = read_sheet(sheet_text(), TODAY)
    assert isinstance(found, JobSheet)
    return found


def planned(without=(), owner=None, **stated):
    """Return the plan of the demo's sheet with facts left out or stated otherwise."""
    sheet = demo_sheet()
    facts = {name: value for name, value in sheet.facts.items() if name not in without}
    facts |= {name: _read(name, text) for name, text in stated.items()}
    figures = {name: parse_quantity(text) for name, text in (owner or {}).items()}
    return plan_of(replace(sheet, facts=facts, owner={**sheet.owner, **figures}))


def figure(plan, answer, label):
    """Return the figure of an answer whose label begins so."""
    return next(f for f in plan.answer(answer).figures if f.label.startswith(label))


def _read(name, text):
    return parse_quantity(text) if facts_by_id()[name].kind is FactKind.NUMBER else text
