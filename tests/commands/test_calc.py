"""`fieldapp calc` lists the formulas and works one out, with units as people write them."""

import json

import pytest

from fieldapp.engineering.catalogue import FORMULAS

TARGET = ("gauge_vacuum", "station_pressure=843.2 hPa", "residual_pressure=166,65 hPa")


def test_list_names_every_formula_with_inputs_validity_and_source(fieldapp):
    code, output, _ = fieldapp("calc")
    assert code == 0
    assert all(f"{name}: " in output for name in FORMULAS)
    assert output.count("valid for: ") == output.count("source: ") == len(FORMULAS)


def test_list_as_json_has_the_same_formulas(fieldapp):
    _, output, _ = fieldapp("calc", "--json")
    assert [formula["name"] for formula in json.loads(output)] == list(FORMULAS)


def test_answer_comes_in_the_usual_units(fieldapp):
    code, output, _ = fieldapp("calc", *TARGET)
    assert code == 0
    assert "19.9785 inHg" in output  # (843.2 - 166.65) hPa / 33.86389 hPa an inch, by hand


def test_answer_as_json_and_in_one_unit(fieldapp):
    _, output, _ = fieldapp("calc", *TARGET, "--json", "--unit", "inHg")
    answer = json.loads(output)
    assert answer["result"] == {"inHg": pytest.approx(19.9785, abs=1e-4)}
    assert answer["inputs"]["residual_pressure"] == "166.65 hPa"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["bulb"], "no formula “bulb”"),
        (["velocity"], "missing: flow, bore"),
        (["velocity", "flow=12 L/min", "bore=12,,5 mm"], "bore: “12,,5” is not a number"),
        (["velocity", "flow=12 L/min", "bore=1e999 mm"], "bore: “1e999” is not a number"),
        (["velocity", "flow=12 L/min", "bore=25.4"], "bore: “25.4” has no unit"),
        (["velocity", "flow=12 L/min", "bore=25.4 furlong"], "“furlong” is not a unit"),
        (["velocity", "flow=12 hPa", "bore=25 mm"], "flow: 12 hPa is absolute pressure; give flow"),
        (["velocity", "speed=1 m/s"], "“speed=1 m/s” names no input"),
        (["velocity", "flow=12 L/min", "bore=900 mm"], "bore 900 mm lies outside 5 to 200 mm"),
        (
            ["residual_pressure", "station_pressure=843.2 hPa", "vacuum=25 inHg"],
            "vacuum 25 inHg lies outside 0 to 24.8997 inHg",
        ),
        ([*TARGET, "--unit", "L"], "ask for it in inHg"),
    ],
)
def test_bad_input_is_one_line_that_says_what_to_do(fieldapp, arguments, words):
    code, output, complaint = fieldapp("calc", *arguments)
    assert code == 1
    assert output == ""
    assert words in complaint
    assert complaint.count("\n") == 1
