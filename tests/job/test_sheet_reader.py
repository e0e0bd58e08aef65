"""Reading a job sheet: what is wrong is told all at once, each on its line."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.checklist.facts import FACTS, SHUTDOWNS, facts_by_id
from fieldapp.checklist.problems import Problem
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.units import UNITS, Quantity
from tests.checklist.planting import Fault, line_of, planted

VALID = (Path(__file__).parent / "valid_sheet.toml").read_text("utf-8")
TODAY = date(2031, 4, 1)
WHOLE = "the job sheet"
GAUGE = 'instrument "vacuum_gauge"'
FLOW = '[shutdown.low_flow]\nfitted = true\nset_point = "4.0 L/min"\n'
FOLDER = "cannot be the name of a folder: change it"
SIGNS = "only letters without accents, digits, dot, dash and underscore"

FACT_FAULTS = [
    Fault(
        "elevation too high",
        '"1500 m"',
        '"15000 m"',
        "elevation",
        "[site]",
        "elevation 15000 m: outside −430 to 5000 m: look at the figure again",
    ),
    Fault(
        "elevation too low, in feet",
        '"1500 m"',
        '"-2000 ft"',
        "elevation",
        "[site]",
        "elevation −2000 ft: outside −430 to 5000 m: look at the figure again",
    ),
    Fault(
        "elevation as number",
        '"1500 m"',
        "1500",
        "elevation",
        "[site]",
        "elevation is a number: here belongs a number and its unit in quotes, such as “1500 m”",
    ),
    Fault(
        "elevation as pressure",
        '"1500 m"',
        '"1500 hPa"',
        "elevation",
        "[site]",
        "elevation “1500 hPa” is of the quantity absolute pressure: here belongs length",
    ),
    Fault(
        "no number",
        '"1500 m"',
        '"high m"',
        "elevation",
        "[site]",
        "elevation: “high” is not a number: use digits and one decimal mark",
    ),
    Fault(
        "absolute pressure for a relief",
        '"2.5 bar g"',
        '"250 kPa"',
        "relief",
        "[skid]",
        "relief_setting “250 kPa” is of the quantity absolute pressure: "
        "here belongs pressure above air",
    ),
    Fault(
        "unknown unit",
        '"2.5 bar g"',
        '"2.5 bar"',
        "relief",
        "[skid]",
        "relief_setting: “bar” is not a unit known here: did you mean “bar g”?",
    ),
    Fault(
        "year as text",
        "1984",
        '"1984"',
        "year_made",
        "[transformer]",
        "year_made is a text: here belongs a whole number without quotes",
    ),
    Fault(
        "year too early",
        "1984",
        "1884",
        "year_made",
        "[transformer]",
        "year_made must lie between 1900 and 2100",
    ),
    Fault(
        "fact missing",
        'bay = "T2"\n',
        "",
        "[site]",
        "[site]",
        "bay is missing: add bay = a text in quotes",
    ),
    Fault(
        "section missing",
        "[oil_sample]\n",
        "",
        "# An invented",
        WHOLE,
        "[oil_sample] is missing: add it with sample_date, sample_temperature, sample_water, "
        "sample_breakdown, gas_analysis_date",
    ),
    Fault(
        "fact unknown",
        "elevation",
        "elevatoin",
        "elevatoin",
        "[site]",
        "key “elevatoin” is not known here: did you mean “elevation”?",
    ),
    Fault(
        "fluid unknown",
        'fluid = "mineral"\npres',
        'fluid = "oil"\npres',
        'fluid = "oil"',
        "[transformer]",
        "fluid “oil” is not known: take one of mineral, natural ester, synthetic ester, silicone",
    ),
    Fault(
        "sample from the future",
        "2031-03-01",
        "2032-03-01",
        "sample_date",
        "[oil_sample]",
        "sample_date 2032-03-01 lies in the future: look at the year again",
    ),
    Fault(
        "hose tested in the future",
        'length = "8 m"\nrating = "1600 kPa g"\ntested = 2030',
        'length = "8 m"\nrating = "1600 kPa g"\ntested = 2039',
        "2039",
        "[suction_hose]",
        "tested 2039-11-02 lies in the future: look at the year again",
    ),
    Fault(
        "date as text",
        "2031-03-01",
        '"1 March"',
        "sample_date",
        "[oil_sample]",
        "sample_date is a text: here belongs a date without quotes, such as 2026-03-12",
    ),
    Fault(
        "date with a time of day",
        "2031-03-01",
        "2031-03-01T10:00:00",
        "sample_date",
        "[oil_sample]",
        "sample_date holds a time of day: write the date alone",
    ),
    Fault(
        "cushion without volume",
        '"free-breathing"',
        '"nitrogen or gas cushion"',
        "preservation",
        "[transformer]",
        "cushion_volume is missing: a gas cushion needs its volume",
    ),
    Fault(
        "number with a slash",
        "KM-2031.04",
        "KM/04",
        "KM/04",
        "[job]",
        f"number “KM/04” becomes the name of a folder: {SIGNS}",
    ),
    Fault(
        "number with an accent",
        "KM-2031.04",
        "KÄ-4",
        "KÄ-4",
        "[job]",
        f"number “KÄ-4” becomes the name of a folder: {SIGNS}",
    ),
    Fault(
        "number of two dots", "KM-2031.04", "..", 'number = ".."', "[job]", f"number “..” {FOLDER}"
    ),
    Fault("number of one dot", "KM-2031.04", ".", 'number = "."', "[job]", f"number “.” {FOLDER}"),
    Fault(
        "number that begins with a sign",
        "KM-2031.04",
        "_KM",
        '"_KM"',
        "[job]",
        f"number “_KM” {FOLDER}",
    ),
    Fault(
        "number that Windows keeps", "KM-2031.04", "con", '"con"', "[job]", f"number “con” {FOLDER}"
    ),
    Fault(
        "number that Windows keeps too",
        "KM-2031.04",
        "LPT1.a",
        "LPT1",
        "[job]",
        f"number “LPT1.a” {FOLDER}",
    ),
    Fault(
        "number that is long",
        "KM-2031.04",
        "K" * 41,
        "KKK" + '"',
        "[job]",
        "number is longer than 40 characters: shorten it",
    ),
]

SHUTDOWN_FAULTS = [
    Fault(
        "no emergency stop",
        "[shutdown.emergency_stop]\nfitted = true\n",
        "",
        "# An invented",
        WHOLE,
        "[shutdown.emergency_stop] is missing: say whether it is fitted",
    ),
    Fault(
        "fitted or not",
        FLOW,
        '[shutdown.low_flow]\nset_point = "4.0 L/min"\n',
        "[shutdown.low_f",
        "[shutdown.low_flow]",
        "fitted is missing: add fitted = true or false, without quotes",
    ),
    Fault(
        "fitted without set point",
        FLOW,
        "[shutdown.low_flow]\nfitted = true\n",
        "[shutdown.low_f",
        "[shutdown.low_flow]",
        "set_point is missing: add set_point = a number and its unit in quotes, such as “1500 m”",
    ),
    Fault(
        "set point in another unit",
        "4.0 L/min",
        "4.0 L",
        "4.0 L",
        "[shutdown.low_flow]",
        "set_point “4.0 L” is of the quantity volume: here belongs flow",
    ),
    Fault(
        "set point of a button",
        "[shutdown.supply]\nfitted = true",
        '[shutdown.supply]\nset_point = "1 L"\nfitted = true',
        'set_point = "1 L"',
        "[shutdown.supply]",
        "key “set_point” is not known here",
    ),
    Fault(
        "neither low flow nor air",
        FLOW,
        "[shutdown.low_flow]\nfitted = false\n",
        "[shutdown.emergency",
        WHOLE,
        "neither low_flow nor air is fitted: the skid must have one of the two",
    ),
    Fault(
        "shutdown unknown",
        "[shutdown.air]",
        "[shutdown.gas]",
        "[shutdown.gas]",
        "[shutdown]",
        "key “gas” is not known here",
    ),
]

PEOPLE_FAULTS = [
    Fault(
        "instrument twice",
        'id = "thermometer"',
        'id = "vacuum_gauge"',
        'id = "vacuum_gauge"\nname = "Therm',
        GAUGE,
        "the id “vacuum_gauge” is taken on line 100: take another id",
    ),
    Fault(
        "no accuracy",
        'accuracy = "0.5 K"\n',
        "",
        '[[instrument]]\nid = "therm',
        'instrument "thermometer"',
        "no accuracy stands here: add accuracy, accuracy_of_reading or accuracy_of_span",
    ),
    Fault(
        "accuracy of another quantity",
        '"0.2 hPa"',
        '"0.2 mm"',
        '"0.2 mm"',
        GAUGE,
        "accuracy “0.2 mm” is of the quantity length: here belongs absolute pressure",
    ),
    Fault(
        "accuracy of nothing",
        '"0.2 hPa"',
        '"0 hPa"',
        '"0 hPa"',
        GAUGE,
        "accuracy must be more than 0",
    ),
    Fault(
        "span missing",
        'accuracy = "0.2 hPa"',
        'accuracy_of_span = "1 %"',
        "accuracy_of_span",
        GAUGE,
        "accuracy_of_span needs the span beside it",
    ),
    Fault(
        "span alone",
        'accuracy = "0.2 hPa"',
        'span = "100 hPa"',
        "span",
        GAUGE,
        "span goes with accuracy_of_span: add that, or take span out",
    ),
    Fault(
        "due before calibrated",
        'repeatability = "0.1 hPa"\ncalibrated = 2030-09-01\ndue = 2031',
        'repeatability = "0.1 hPa"\ncalibrated = 2030-09-01\ndue = 2029',
        "due = 2029",
        GAUGE,
        "due must come after calibrated",
    ),
    Fault(
        "calibrated in the future",
        'repeatability = "0.1 hPa"\ncalibrated = 2030',
        'repeatability = "0.1 hPa"\ncalibrated = 2035',
        "2035",
        GAUGE,
        "calibrated 2035-09-01 lies in the future: look at the year again",
    ),
    Fault(
        "one person in two roles",
        '"Ben Thorne"',
        '"ada  QUILL"',
        "QUILL",
        "person 2",
        "name “ada  QUILL” stands already on line 120: one person has one role",
    ),
    Fault(
        "role unknown",
        '"crew lead"',
        '"boss"',
        '"boss"',
        "person 2",
        "role “boss” is not known: take one of technician, crew lead, authorised person, "
        "owner's engineer",
    ),
    Fault(
        "no crew lead",
        '"crew lead"',
        '"technician"',
        '[[crew]]\nname = "Ada',
        WHOLE,
        'nobody is crew lead: add a [[crew]] with role = "crew lead"',
    ),
    Fault(
        "company missing",
        'role = "crew lead"\ncompany = "Dry Loop Crew"',
        'role = "crew lead"',
        '[[crew]]\nname = "Ben',
        "person 2",
        "company is missing: add company = a text in quotes",
    ),
    Fault(
        "owner's text",
        '"15 Torr"',
        '"low"',
        '"low"',
        "[owner]",
        "hold_pressure: “low” has no unit: write it like “1500 m”",
    ),
    Fault(
        "owner's bare number",
        '"15 Torr"',
        "15",
        "hold_pressure",
        "[owner]",
        "hold_pressure is a number: here belongs a number and its unit in quotes, such as “1500 m”",
    ),
    Fault(
        "section unknown",
        "[owner]",
        "[owners]",
        "[owners]",
        WHOLE,
        "key “owners” is not known here: did you mean “owner”?",
    ),
]


@pytest.mark.parametrize(
    "fault", FACT_FAULTS + SHUTDOWN_FAULTS + PEOPLE_FAULTS, ids=lambda fault: fault.name
)
def test_fault_is_told_on_its_line(fault):
    text = planted(VALID, fault)
    told = read_sheet(text, TODAY)
    assert isinstance(told, tuple)
    expected = Problem(line_of(text, fault.at), fault.where, fault.what)
    assert [expected] == [problem for problem in told if problem.line == expected.line]


def test_five_faults_are_told_with_five_lines():
    names = {"elevation too high", "year too early", "no accuracy", "role unknown", "owner's text"}
    text = VALID
    faults = [fault for fault in FACT_FAULTS + PEOPLE_FAULTS if fault.name in names]
    for fault in faults:
        text = planted(text, fault)
    told = read_sheet(text, TODAY)
    assert isinstance(told, tuple)
    assert [problem.line for problem in told] == sorted(line_of(text, f.at) for f in faults)
    assert len(told) == 5


def sound(text, today=TODAY) -> JobSheet:
    sheet = read_sheet(text, today)
    assert isinstance(sheet, JobSheet), "\n".join(map(str, sheet))
    return sheet


def test_sound_sheet_keeps_what_was_written():
    sheet = sound(VALID)
    assert sheet.number == "KM-2031.04"
    assert sheet.text == VALID
    assert sheet.number_of("measured_station_pressure") == Quantity(Decimal("846.2"), UNITS["hPa"])
    assert sheet.number_of("return_hose_bore") == Quantity(Decimal(1), UNITS["in"])
    assert sheet.number_of("year_made") == Quantity(Decimal(1984), UNITS["pieces"])
    assert sheet.text_of("skid_last_fluid") == "mineral"
    assert sheet.date_of("planned_start") == date(2031, 5, 4)
    assert sheet.number_of("low_flow_set_point") == Quantity(Decimal("4.0"), UNITS["L/min"])
    assert sheet.instruments[0].of_reading == 2
    assert [person.name for person in sheet.people("crew lead")] == ["Ben Thorne"]


def test_every_fact_that_must_be_there_is():
    sheet = sound(VALID)
    assert {fact.id for fact in FACTS if fact.required} <= sheet.facts.keys()
    assert sheet.facts.keys() <= facts_by_id().keys()
    assert {f"{name}_fitted" for name in SHUTDOWNS} <= sheet.facts.keys()
    assert sheet.yes_no("sleeve_fitted") is False


@pytest.mark.parametrize(
    ("old", "new", "fact", "expected"),
    [
        (
            '"free-breathing"',
            '"nitrogen or gas cushion"\ncushion_volume = "900 L"',
            "gas_cushion",
            True,
        ),
        ('"free-breathing"', '"bag or membrane"', "gas_cushion", False),
        ('"on the tank valves"', '"at the skid"', "isolation_at_skid", True),
        ('"on the tank valves"', '"on the tank valves"', "isolation_at_skid", False),
    ],
)
def test_derived_facts(old, new, fact, expected):
    assert sound(VALID.replace(old, new)).yes_no(fact) is expected


@pytest.mark.parametrize("bound", ["-430 m", "5000 m", "16404.199 ft", "-1410.76 ft"])
def test_bounds_belong_to_the_range(bound):
    assert sound(VALID.replace('"1500 m"', f'"{bound}"')).number_of("elevation")


def test_calibration_that_ran_out_is_left_to_the_checklist():
    assert sound(VALID, date(2040, 1, 1)).instruments[0].overdue(date(2040, 1, 1))


@settings(max_examples=300)
@given(st.integers(0, len(VALID)), st.text(max_size=8), st.integers(0, 60))
def test_any_change_gives_a_sheet_or_problems(place, new, gone):
    text = VALID[:place] + new + VALID[place + gone :]
    told = read_sheet(text, TODAY)
    if isinstance(told, tuple):
        assert told
        assert all(1 <= problem.line <= text.count("\n") + 1 for problem in told)


@settings(max_examples=300)
@given(st.lists(st.tuples(st.integers(0, VALID.count("\n")), st.integers(0, VALID.count("\n")))))
def test_lines_swapped_and_doubled(swaps):
    lines = VALID.split("\n")
    for first, second in swaps:
        lines[first] = lines[second]
    told = read_sheet("\n".join(lines), TODAY)
    if isinstance(told, tuple):
        assert all(1 <= problem.line <= len(lines) for problem in told)
