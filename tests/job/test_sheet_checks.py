"""A sheet must fit the checklist that the job begins with."""

from datetime import date
from pathlib import Path

import pytest

from fieldapp.checklist.model import Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_checks import check_instruments, check_owner
from fieldapp.job.sheet_reader import read_sheet
from tests.checklist.planting import VALID, line_of

SHEET = (Path(__file__).parent / "valid_sheet.toml").read_text("utf-8")
FIGURE = 'hold_pressure = "15 Torr"'
NOT_ASKED = "is nothing that “Swap an oil cooler” asks the owner"
ANSWER = "second_cooler = true"


def sheet_of(text) -> JobSheet:
    sheet = read_sheet(text, date(2031, 4, 1))
    assert isinstance(sheet, JobSheet), "\n".join(map(str, sheet))
    return sheet


def checklist_of(text) -> Checklist:
    checklist = read_checklist(text)
    assert isinstance(checklist, Checklist), "\n".join(map(str, checklist))
    return checklist


def test_sheet_that_fits():
    assert check_owner(sheet_of(SHEET), checklist_of(VALID)) == ()
    assert check_instruments(sheet_of(SHEET), checklist_of(VALID)) == ()


OWNER = {
    "nearly a constant": (
        FIGURE,
        'hold_presure = "15 Torr"',
        f"hold_presure {NOT_ASKED}: did you mean “hold_pressure”?",
    ),
    "nothing known": (
        FIGURE,
        "zzz = true",
        f"zzz {NOT_ASKED}",
    ),
    "fixed by the checklist": (
        FIGURE,
        'closing_time = "9 s"',
        "closing_time is fixed by the checklist: take it out",
    ),
    "another quantity": (
        FIGURE,
        'hold_pressure = "29 inHg"',
        "hold_pressure in inHg is vacuum below air: here belongs absolute pressure",
    ),
    "yes for a figure": (
        FIGURE,
        "hold_pressure = true",
        "hold_pressure is a figure: write it like “20 hPa”",
    ),
    "figure for a yes": (
        ANSWER,
        'second_cooler = "2 pieces"',
        "second_cooler is a question: write true or false",
    ),
}


@pytest.mark.parametrize(("old", "new", "what"), OWNER.values(), ids=OWNER)
def test_owner_states_what_nobody_asked(old, new, what):
    text = SHEET.replace(old, new)
    told = check_owner(sheet_of(text), checklist_of(VALID))
    assert told == (Problem(line_of(text, new), "[owner]", what),)


def test_instrument_missing():
    checklist = checklist_of(VALID.replace('"thermometer"', '"thermocouple"'))
    what = "is missing: step “Pump the cooler down” reads it, so add it as [[instrument]]"
    first = line_of(SHEET, '[[instrument]]\nid = "vacuum_gauge"')
    assert check_instruments(sheet_of(SHEET), checklist) == (
        Problem(first, 'instrument "thermocouple"', what),
    )


def test_instrument_of_another_quantity():
    text = SHEET.replace('unit = "hPa"', 'unit = "inHg"').replace("0.2 hPa", "0.2 inHg")
    text = text.replace("0.1 hPa", "0.1 inHg")
    what = (
        "measures vacuum below air, but step “Close the valve to the pump and watch the "
        "pressure” judges absolute pressure by its accuracy"
    )
    assert check_instruments(sheet_of(text), checklist_of(VALID)) == (
        Problem(line_of(text, '[[instrument]]\nid = "vac'), 'instrument "vacuum_gauge"', what),
    )
