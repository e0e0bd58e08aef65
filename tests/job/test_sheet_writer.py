"""What is typed on the tablet becomes a sheet that reads back the same."""

import tomllib
from datetime import date
from decimal import Decimal
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.checklist.facts import SHUTDOWNS, facts_by_id
from fieldapp.job.sheet import JobSheet, Person
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.job.sheet_writer import write_sheet
from fieldapp.units import UNITS, Quantity

TODAY = date(2031, 4, 1)
WRITTEN = (Path(__file__).parent / "valid_sheet.toml").read_text("utf-8")
DERIVED = ("gas_cushion", "isolation_at_skid")
GAUGE = {
    "id": "vacuum_gauge",
    "name": "Gauge “B”",
    "serial": 'G\\88"',
    "unit": "inHg",
    "accuracy": "0,25",
    "accuracy_of_span": "1.6",
    "span": "30 inHg",
    "repeatability": "",
    "calibrated": "2030-09-01",
    "due": " 2031-09-01",
}
CREW = (
    {"name": "Ada Quill", "role": "technician", "company": "Dry Loop Crew"},
    {"name": "Ben Thorne", "role": "crew lead", "company": "Dry Loop Crew"},
)


def sheet_of(text) -> JobSheet:
    sheet = read_sheet(text, TODAY)
    assert isinstance(sheet, JobSheet), "\n".join(map(str, sheet))
    return sheet


def typed(value):
    """Return what somebody would type on the tablet for a fact."""
    if isinstance(value, Quantity):
        counted = value.unit.name == "pieces"
        return str(value.number) if counted else f"{value.number} {value.unit.name}"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


FACTS = sheet_of(WRITTEN).facts
TYPED = {name: typed(value) for name, value in FACTS.items() if name not in DERIVED}


def test_typed_sheet_reads_back_the_same():
    sheet = sheet_of(write_sheet(TYPED, [GAUGE], CREW, {"hold": "15 Torr", "second": "yes"}))
    assert sheet.facts == FACTS
    assert sheet.crew == tuple(Person(**person) for person in CREW)
    assert sheet.owner == {"hold": Quantity(Decimal(15), UNITS["Torr"]), "second": True}


def test_instrument_reads_back_the_same():
    gauge = sheet_of(write_sheet(TYPED, [GAUGE], CREW)).instruments[0]
    assert (gauge.name, gauge.serial) == (GAUGE["name"], GAUGE["serial"])
    assert gauge.accuracy == Quantity(Decimal("0.25"), UNITS["inHg"])
    assert (gauge.of_span, gauge.repeatability) == (Decimal("1.6"), None)
    assert gauge.due == date(2031, 9, 1)


def test_number_keeps_its_figures_and_gains_its_unit():
    text = write_sheet(TYPED | {"elevation": "1500,50"})
    assert tomllib.loads(text)["site"]["elevation"] == "1500,50 m"


def test_sections_and_lists_are_written_out():
    text = write_sheet(TYPED, [GAUGE], CREW)
    lines = text.splitlines()
    for header in ("[job]", "[suction_hose]", "[shutdown.low_flow]", "[[instrument]]", "[[crew]]"):
        assert header in lines
    assert lines.count("[[crew]]") == 2


def test_what_cannot_be_a_fact_is_told_by_the_reader():
    text = write_sheet(
        TYPED | {"elevation": "high", "sample_date": "soon", "year_made": "old", "tray_fitted": "?"}
    )
    told = read_sheet(text, TODAY)
    assert isinstance(told, tuple)
    lines = text.splitlines()
    assert {lines[problem.line - 1] for problem in told} >= {
        'elevation = "high"',
        'sample_date = "soon"',
        'year_made = "old"',
        'fitted = "?"',
    }


def test_empty_form_is_told_section_by_section():
    told = read_sheet(write_sheet({}), TODAY)
    assert isinstance(told, tuple)
    assert {"[job]", "[site]", "[skid]", "[return_hose]"} <= {problem.where for problem in told}
    assert set(SHUTDOWNS) <= tomllib.loads(write_sheet({}))["shutdown"].keys()


@settings(max_examples=100)
@given(st.dictionaries(st.sampled_from(sorted(facts_by_id())), st.text()), st.text())
def test_any_typed_text_can_be_written_and_read(changed, name):
    text = write_sheet(TYPED | changed, [GAUGE | {"name": name}], CREW, {"hold": name})
    read_sheet(text, TODAY)
    tomllib.loads(text)
