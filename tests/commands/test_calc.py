"""`fieldapp calc` lists formulas and rules and works one out, with units as people write them."""

import json

import pytest

from fieldapp.engineering.catalogue import FORMULAS, RULES, SUBJECTS

TARGET = ("gauge_vacuum", "station_pressure=843.2 hPa", "residual_pressure=166,65 hPa")
BLANKS = ("blank=42.2 kg", "blank=42.3 kg", "blank=42.4 kg")
HOLD = ("volume=120 L", "repeatability=0.1 hPa", "temperature_repeatability=0.1 K")
READINGS = """\
# the second hold
min; hPa; degC

0; 62.0; 21.5
10; 63.0; 21.5
20; 64,0; 21.5
30 min; 65.0 hPa; 21.5 degC
"""


def test_page_names_every_entry_with_inputs_validity_and_source(fieldapp):
    code, output, _ = fieldapp("calc")
    lines = output.splitlines()
    assert code == 0
    assert {*FORMULAS, *RULES} <= set(lines)
    many = len(FORMULAS) + len(RULES)
    assert sum(line.startswith("    valid for  ") for line in lines) == many
    assert sum(line.startswith("    source     ") for line in lines) == many
    assert f"{len(FORMULAS)} formulas, {len(RULES)} tables and judgements" in lines[0]


def test_page_fits_the_paper_and_is_ordered_by_subject(fieldapp):
    _, output, _ = fieldapp("calc")
    lines = output.splitlines()
    assert max(map(len, lines)) <= 100
    assert not any(line != line.rstrip() for line in lines)
    heads = [lines[at - 1] for at, line in enumerate(lines) if line and not line.strip("-")]
    assert heads == [*SUBJECTS, "Units as they are written"]
    assert "permits work" in output


def test_page_tells_the_units_of_every_quantity_once(fieldapp):
    _, output, _ = fieldapp("calc")
    units = output.split("Units as they are written")[1]
    assert "vacuum below air inHg, hPa vacuum" in " ".join(units.split())


def test_list_as_json_has_the_same_entries(fieldapp):
    _, output, _ = fieldapp("calc", "--json")
    found = {each["name"]: each for each in json.loads(output)}
    assert list(found) == [*FORMULAS, *RULES]
    reading = found["hold_test"]["inputs"]["reading"]
    assert list(reading["columns"]) == ["time", "pressure", "temperature"]
    assert found["pcb_class"]["inputs"]["made"]["needed"] is False
    assert "H2" in found["gas_solubility"]["inputs"]["gas"]["answers"]


def test_answer_says_what_a_number_below_zero_means(fieldapp):
    wetter = ("flow=12 L/min", "density=0.862 kg/L", "inlet_water=3 mg/kg", "outlet_water=5 mg/kg")
    _, output, _ = fieldapp("calc", "removal_rate", *wetter)
    assert output.startswith("removal_rate = -0.0297907 kg/d")
    assert "gives      mass flow [kg/s]; below zero the cartridges give water back: stop" in output


@pytest.mark.parametrize("typed", [(), ("elevation=1500 m",)], ids=["entry", "answer"])
def test_what_is_for_planning_only_says_so(fieldapp, typed):
    _, output, _ = fieldapp("calc", "standard_pressure", *typed)
    assert "For planning only: weather moves the air pressure by about ±25 hPa." in output
    assert max(map(len, output.splitlines())) <= 100


def test_json_of_an_answer_carries_what_to_heed(fieldapp):
    _, output, _ = fieldapp("calc", "standard_pressure", "elevation=1500 m", "--json")
    assert "weather moves" in json.loads(output)["note"]


def test_answer_comes_in_the_usual_units(fieldapp):
    code, output, _ = fieldapp("calc", *TARGET)
    assert code == 0
    assert "19.9785 inHg" in output  # (843.2 - 166.65) hPa / 33.86389 hPa an inch, by hand
    assert "ISO 80000-4:2019" in output


def test_answer_as_json_and_in_one_unit(fieldapp):
    _, output, _ = fieldapp("calc", *TARGET, "--json", "--unit", "inHg")
    answer = json.loads(output)
    assert answer["result"] == {"inHg": pytest.approx(19.9785, abs=1e-4)}
    assert answer["inputs"]["residual_pressure"] == "166.65 hPa"


def test_number_without_a_unit_is_one_for_counts_and_plain_numbers(fieldapp):
    _, output, _ = fieldapp("calc", "guard_for_risk", "standard_uncertainty=1.5", "risk=5 %")
    assert output.startswith("guard_for_risk = 2.467")  # JCGM 106: 1.645 u


def test_rows_are_given_by_naming_the_input_again(fieldapp):
    code, output, _ = fieldapp(
        "calc", "cartridges_weighed", *BLANKS, "drained=45.1 kg", "drained=45000 g"
    )
    assert (code, output) == (1, "")
    code, output, _ = fieldapp("calc", "cartridges_weighed", *BLANKS, "drained=45.1 kg")
    assert code == 0
    assert "2.8 kg of water in 1 cartridge" in output
    assert "Weighing by difference against blanks" in output


def test_rows_come_from_a_file_whose_units_stand_once(fieldapp, tmp_path):
    path = tmp_path / "readings.txt"
    path.write_text(READINGS, encoding="utf-8")
    code, output, complaints = fieldapp("calc", "hold_test", f"reading=@{path}", *HOLD)
    assert (code, complaints) == (0, "")
    assert output.startswith("hold_test: Straight: a leak.")
    # V dP/dt, by hand: 120 L x 3 hPa / 1800 s
    assert "leak rate 0.2 hPa·L/s ± " in " ".join(output.split())


def test_judgement_as_json_has_its_figures(fieldapp, tmp_path):
    path = tmp_path / "readings.txt"
    path.write_text(READINGS, encoding="utf-8")
    _, output, _ = fieldapp("calc", "hold_test", f"reading=@{path}", *HOLD, "--json")
    said = json.loads(output)
    assert said["sentence"] == "Straight: a leak."
    leak = next(figure for figure in said["figures"] if figure["label"] == "leak rate")
    assert (leak["unit"], leak["value"]) == ("hPa L/s", pytest.approx(0.2))
    assert said["inputs"]["reading"][1] == "0; 62.0; 21.5"


def test_words_dates_and_yes_or_no_are_read(fieldapp):
    code, output, _ = fieldapp(
        "calc", "pcb_class", "jurisdiction=united states", "made=1984-05-01", "mineral_oil=yes"
    )
    assert code == 0
    assert output.startswith("pcb_class: Non-PCB, assumed (40 CFR 761.2(a)).")
    assert "have it tested" in output


def test_table_of_words_is_set_in_columns(fieldapp):
    _, output, _ = fieldapp("calc", "oil_limits", "voltage=110 kV", "table=IEEE in service")
    lines = output.splitlines()
    assert "water at most 25 mg/kg" in [" ".join(line.split()) for line in lines]
    assert max(map(len, lines)) <= 100


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["bulb"], "no formula of that name"),
        (["two\nlines"], "calc two lines: no formula"),
        (["velocity", "flow=1\n2 L/min", "bore=25 mm"], "flow: “1 2” is not a number"),
        (["velocty"], "is “velocity” meant?"),
        (["velocity", "--json"], "missing: flow, bore"),
        (["velocity", "flow=12 L/min", "bore=12,,5 mm"], "bore: “12,,5” is not a number"),
        (["velocity", "flow=12 L/min", "bore=1e999 mm"], "bore: “1e999” is not a number"),
        (["velocity", "flow=12 L/min", "bore=25.4"], "bore: “25.4” has no unit"),
        (["velocity", "flow=12 L/min", "bore=25.4 furlong"], "“furlong” is not a unit"),
        (["velocity", "flow=12 hPa", "bore=25 mm"], "flow: 12 hPa is absolute pressure; give flow"),
        (["velocity", "speed=1 m/s"], "“speed=1 m/s” names no input"),
        (["velocity", "flow=12 L/min", "bore=900 mm"], "bore 900 mm lies outside 5 to 200 mm"),
        (["velocity", "flow=12 L/min", "flow=10 L/min", "bore=25 mm"], "flow is given twice"),
        (
            ["residual_pressure", "station_pressure=843.2 hPa", "vacuum=25 inHg"],
            "vacuum 25 inHg lies outside 0 to 24.8997 inHg",
        ),
        ([*TARGET, "--unit", "L"], "ask for it in inHg"),
        (["bond_place", "resistance=12 mohm", "--unit", "ohm"], "leave --unit out"),
        (["gas_solubility", "gas=Xe"], "gas: “Xe” is none of the answers: H2, N2"),
        (["gas_solubility", "gas="], "gas: “” is none of the answers"),
        (["pcb_class", "jurisdiction=other", "made=1984"], "made: “1984” is no date"),
        (["pcb_class", "jurisdiction=other", "mineral_oil=1"], "“1” is neither yes nor no"),
        (["site_solubility", "pair=30 degC; 20 mg/kg; 20 %", "taken_by= "], "nothing was typed"),
        (
            ["site_solubility", "pair=30 degC; 20 mg/kg", "taken_by=lab"],
            "is not temperature; water;",
        ),
        (["site_solubility", "pair=30 degC; 20 mg/kg; x %", "taken_by=lab"], "pair, row 1, satur"),
        (["site_solubility", "pair=30 degC; 20 mg/kg; 20 %", "taken_by=lab"], "carry no fit"),
        (["cartridges_weighed", "blank=42 kg", "drained=45 kg"], "at least 3 unused cartridges"),
        (["cartridges_weighed", *BLANKS, "drained=900 kg"], "drained mass 900 lies outside"),
        (["hold_test", *HOLD, "reading=0 s; 62 hPa; 21 degC"], "four readings or more"),
        (
            ["hold_test", *HOLD, "reading=60 s; 62 hPa; 21 degC", "reading=0 s; 62 hPa; 21 degC"],
            "do not run forward in time",
        ),
        (["hold_test", *HOLD, "reading=0 s; 620 kPa; 21 degC"], "four readings or more"),
        (["hold_test", *HOLD, "reading=min; hPa; degC"], "no reading was given"),
        (["bond_place", "resistance=-1 mohm"], "resistance -1 mohm lies outside 0 to 1e+12 mohm"),
    ],
)
def test_bad_input_is_one_line_that_says_what_to_do(fieldapp, arguments, words):
    code, output, complaint = fieldapp("calc", *arguments)
    assert code == 1
    assert output == ""
    assert words in complaint
    assert complaint.count("\n") == 1


@pytest.mark.parametrize(("content", "words"), [
    (b"\xff\xfe0\n", "is no text in UTF-8"), (b"0; 1; 2\n" * 10_001, "more than 10000 rows"),
])  # fmt: skip
def test_file_that_is_no_table_is_one_line(fieldapp, tmp_path, content, words):
    path = tmp_path / "readings.txt"
    path.write_bytes(content)
    code, _, complaint = fieldapp("calc", "hold_test", *HOLD, f"reading=@{path}")
    assert code == 1
    assert words in complaint
    assert complaint.count("\n") == 1


def test_file_that_is_not_there_is_one_line(fieldapp, tmp_path):
    code, _, complaint = fieldapp("calc", "hold_test", *HOLD, f"reading=@{tmp_path / 'none'}")
    assert code == 2
    assert "no such file" in complaint


def test_a_name_alone_says_what_it_takes_and_rests_on(fieldapp):
    code, output, complaint = fieldapp("calc", "gauge_vacuum")
    assert (code, complaint) == (0, "")
    assert output.startswith("gauge_vacuum\n")
    for words in ("station_pressure", "residual_pressure", "valid for", "source", "ISO 80000-4"):
        assert words in output
    assert fieldapp("calc", "gauge_vacuum", "--json")[0] == 1
