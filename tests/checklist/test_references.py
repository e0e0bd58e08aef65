"""What a checklist names must be there, come in time, and measure the same."""

import pytest

from fieldapp.checklist.model import Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.engineering.catalogue import Formula
from fieldapp.engineering.docstring import Input
from tests.checklist.planting import VALID, Fault, line_of, planted, problems_in

COOLER = 'step "target", entry "cooler_temperature"'
JUDGED = 'unit = "hPa L/s"\ndecimals = 2'

NAMES = [
    Fault(
        "repeated constant",
        'id = "closing_time"',
        'id = "leak_allowed"',
        'id = "leak_allowed"\nlabel = "Valves',
        'constant "leak_allowed"',
        "the name “leak_allowed” is taken on line 8: take another id",
    ),
    Fault(
        "constant named like a fact",
        'id = "closing_time"',
        'id = "elevation"',
        'id = "elevation"',
        'constant "elevation"',
        "“elevation” is a fact of the job sheet: take another id",
    ),
    Fault(
        "entry named like a constant",
        'id = "both_closed"',
        'id = "leak_allowed"',
        'id = "leak_allowed"\nkind',
        'step "valves_closed", entry "leak_allowed"',
        "the name “leak_allowed” is taken on line 8: take another id",
    ),
    Fault(
        "entry named like a reading",
        'id = "signed"',
        'id = "gauge_last"',
        'id = "gauge_last"',
        'step "close", entry "gauge_last"',
        "the name “gauge_last” is taken on line 151: take another id",
    ),
    Fault(
        "column twice",
        'columns = [{ id = "gauge"',
        'columns = [{ id = "gauge", label = "G", unit = "inHg", decimals = 1 },\n { id = "gauge"',
        ' { id = "gauge", label = "Gauge"',
        'step "target", entry "pump_down", column "gauge"',
        "the name “gauge” is taken on line 157: take another id",
    ),
    Fault(
        "repeated step",
        'id = "close"',
        'id = "arrive"',
        'id = "arrive"\ntitle = "Sign"',
        'step "arrive"',
        "the name “arrive” is taken on line 71: take another id",
    ),
    Fault(
        "repeated phase",
        'id = "prove"',
        'id = "prepare"',
        'id = "prepare"\ntitle = "Prove',
        'phase "prepare"',
        "the name “prepare” is taken on line 67: take another id",
    ),
]

GATES = [
    Fault(
        "requires what nobody sets",
        'lasts = "120 min"',
        'requires = { suction_tank_valve = "closed", vacuum_pump = "gone" }',
        "requires",
        'step "hold", requires',
        "no earlier step sets vacuum_pump = “gone”: this step could never begin",
    ),
    Fault(
        "requires what a later step sets",
        'title = "Find the unit"',
        'title = "Find the unit"\nrequires = { bond = "on" }',
        "requires",
        'step "arrive", requires',
        "no earlier step sets bond = “on”: this step could never begin",
    ),
    Fault(
        "needs nothing known",
        'needs = ["target"]',
        'needs = ["targt"]',
        'needs = ["targt"]',
        'step "hold"',
        "needs “targt” is no step: did you mean “target”?",
    ),
    Fault(
        "needs itself",
        'needs = ["target"]',
        'needs = ["hold", "target"]',
        'needs = ["hold", ',
        'step "hold"',
        "needs “hold” is this very step: it could never begin",
    ),
    Fault(
        "needs what comes later",
        '"arrive", "valves_closed"',
        '"arrive",\n "close"',
        ' "close"]',
        'step "target"',
        "needs “close” comes later: put that step first, or take it out of needs",
    ),
    Fault(
        "when of no value",
        'when = "low_flow_fitted"',
        'when = "low_flow"',
        'when = "',
        'step "alarms"',
        "when “low_flow” is no value known here: did you mean “low_flow_trip”?",
    ),
    Fault(
        "when of a figure",
        'when = "low_flow_fitted"',
        'when = "elevation"',
        'when = "',
        'step "alarms"',
        "when “elevation” is length: here belongs yes or no",
    ),
    Fault(
        "unless of a text",
        'unless = "second_cooler"',
        'unless = "unit_serial"',
        'unless = "',
        'step "target"',
        "unless “unit_serial” is text: here belongs yes or no",
    ),
    Fault(
        "undone by nothing that happens",
        '["joint_touched"]',
        '["joint_open"]',
        "undone_by",
        'step "valves_closed"',
        "undone_by “joint_open” is no happening: did you mean “joint_touched”?",
    ),
    Fault(
        "causes nothing that happens",
        'lasts = "120 min"',
        'causes = ["joint_touch"]',
        "causes",
        'step "hold"',
        "causes “joint_touch” is no happening: did you mean “joint_touched”?",
    ),
    Fault(
        "until an earlier step",
        'lasts = "120 min"',
        'lasts = "120 min"\nuntil = ["arrive"]',
        "until = ",
        'step "hold"',
        "until “arrive” is no step that comes later",
    ),
    Fault(
        "judged at no step",
        JUDGED,
        JUDGED + '\nstep = "holdd"',
        "step = ",
        'computed "leak"',
        "step “holdd” is no step: did you mean “hold”?",
    ),
    Fault(
        "judged before it is known",
        JUDGED,
        JUDGED + '\nstep = "target"',
        "step = ",
        'computed "leak"',
        "step “target” comes before “hold”, which this value rests on: name a later step",
    ),
]

QUANTITIES = [
    Fault(
        "limit unknown",
        "max = 80.5",
        'max = "zzz"',
        "zzz",
        f"{COOLER}, limits",
        "max “zzz” is no value known here",
    ),
    Fault(
        "limit of another quantity",
        "max = 80.5",
        'max = "hold_pressure"',
        "limits = { min = -20",
        f"{COOLER}, limits",
        "max “hold_pressure” is absolute pressure: here belongs temperature",
    ),
    Fault(
        "absolute pressure on a gauge",
        'min = "hold_target"',
        'min = "hold_pressure"',
        'min = "hold_pressure"',
        'step "target", entry "pump_down", column "gauge", limits',
        "min “hold_pressure” is absolute pressure: here belongs vacuum below air",
    ),
    Fault(
        "limit of many readings",
        'min = "hold_target"',
        'min = "gauge_series"',
        'min = "gauge_series"',
        'step "target", entry "pump_down", column "gauge", limits',
        "min “gauge_series” holds one number for each reading: here belongs one",
    ),
    Fault(
        "limit that comes too late",
        'about = "low_flow_set_point", within_percent = 10 }',
        'max = "later" }',
        'max = "later" }',
        'step "alarms", entry "low_flow_trip", limits',
        "max “later” rests on “later” of a later step: nobody can judge it in time",
    ),
    Fault(
        "limit worked out too late",
        "max = 80.5",
        'max = "warm"',
        'max = "warm"',
        f"{COOLER}, limits",
        "max “warm” rests on “later_temperature” of a later step: nobody can judge it in time",
    ),
    Fault(
        "limit of a computed value",
        JUDGED,
        JUDGED + '\nstep = "hold"\nbasis = "owner"\nlimits = { max = "hold_pressure" }',
        'limits = { max = "hold_pressure" }',
        'computed "leak", limits',
        "max “hold_pressure” is absolute pressure: here belongs leak rate",
    ),
    Fault(
        "closed within a pressure",
        'closed_within = "closing_time"',
        'closed_within = "hold_pressure"',
        "closed_within",
        'step "alarms", entry "low_flow_trip"',
        "closed_within “hold_pressure” is absolute pressure: here belongs time",
    ),
    Fault(
        "text that must equal a figure",
        'equals = "unit_serial"',
        'equals = "elevation"',
        'equals = "elevation"',
        'step "arrive", entry "serial_read"',
        "equals “elevation” is length: here belongs text",
    ),
    Fault(
        "choice without what the sheet may say",
        '    { text = "natural ester" },\n',
        "",
        "options = [",
        'step "valves_closed", entry "fluid_seen"',
        "options lacks “natural ester”, which the job sheet can state: add it",
    ),
]

FORMULAS = [
    Fault(
        "formula unknown",
        'formula = "leak_rate"',
        'formula = "leakrate"',
        '"leakrate"',
        'computed "leak"',
        "formula “leakrate” is not in the catalogue: did you mean “leak_rate”?",
    ),
    Fault(
        "formula quite unknown",
        'formula = "leak_rate"',
        'formula = "zzz"',
        '"zzz"',
        'computed "leak"',
        "formula “zzz” is not in the catalogue: “fieldapp calc” lists them all",
    ),
    Fault(
        "result in another unit",
        'unit = "inHg"\ndecimals = 1\n\n[[computed]]',
        'unit = "hPa"\ndecimals = 1\n\n[[computed]]',
        'unit = "hPa"\ndecimals = 1\n\n[[computed]]\nid = "leak"',
        'computed "hold_target"',
        "unit “hPa” measures absolute pressure: gauge_vacuum gives vacuum below air",
    ),
    Fault(
        "input missing",
        'volume = "vessel_volume"\n',
        "",
        "[computed.inputs]",
        'computed "leak"',
        "inputs lacks “volume” (volume) of leak_rate",
    ),
    Fault(
        "input too many",
        'volume = "vessel_volume"',
        'volume = "vessel_volume"\nvolum = "3 L"',
        'volum = "3 L"',
        'computed "leak", inputs',
        "“volum” is no input of leak_rate: did you mean “volume”?",
    ),
    Fault(
        "input of another quantity",
        'volume = "vessel_volume"',
        'volume = "elevation"',
        'volume = "elevation"',
        'computed "leak", inputs',
        "volume “elevation” is length: here belongs volume",
    ),
    Fault(
        "figure of another quantity",
        '"20 degC"',
        '"20 K"',
        '"20 K"',
        'computed "leak", inputs',
        "start_temperature “20 K” is of the quantity temperature difference: "
        "here belongs temperature",
    ),
    Fault(
        "input that is nothing",
        'volume = "vessel_volume"',
        'volume = "vesel_volume"',
        "vesel_volume",
        'computed "leak", inputs',
        "volume “vesel_volume” is no value known here: did you mean “vessel_volume”?",
    ),
    Fault(
        "input not worked out yet",
        'elevation = "elevation"',
        'elevation = "leak"',
        'elevation = "leak"',
        'computed "station_pressure", inputs',
        "elevation “leak” is not worked out yet: move it further up",
    ),
    Fault(
        "input is itself",
        'elevation = "elevation"',
        'elevation = "station_pressure"',
        'elevation = "station_pressure"',
        'computed "station_pressure", inputs',
        "elevation “station_pressure” is not worked out yet: move it further up",
    ),
    Fault(
        "input as formula",
        'elevation = "elevation"',
        'elevation = "elevation * 2"',
        "* 2",
        'computed "station_pressure", inputs',
        "elevation: “elevation” is not a number: use digits and one decimal mark",
    ),
]

LATER = """
[[phase.step]]
id = "last"
title = "Last"
sets = { bond = "on" }

[[phase.step.entry]]
id = "later"
kind = "number"
label = "Later"
unit = "L/min"
decimals = 1

[[phase.step.entry]]
id = "later_temperature"
kind = "number"
label = "Later"
unit = "degC"
decimals = 1
"""
WARM = """
[[computed]]
id = "warm"
label = "Warm"
formula = "temperature_less"
inputs = { temperature = "later_temperature", difference = "5 K" }
unit = "degC"
decimals = 1
"""
WITH_MORE = VALID + LATER + WARM


@pytest.mark.parametrize(
    "fault", NAMES + GATES + QUANTITIES + FORMULAS, ids=lambda fault: fault.name
)
def test_fault_is_told_on_its_line(fault):
    text = planted(WITH_MORE, fault)
    expected = Problem(line_of(text, fault.at), fault.where, fault.what)
    told = problems_in(text)
    assert [expected] == [problem for problem in told if problem.line == expected.line]


def test_example_with_more_steps_is_sound():
    assert isinstance(read_checklist(WITH_MORE), Checklist)


def test_catalogue_is_the_one_that_was_handed_over():
    text = VALID.replace('"standard_pressure"', '"by_hand"')
    assert isinstance(read_checklist(text), tuple)
    elevation = Input("elevation", "length", "height of the site")
    by_hand = Formula("by_hand", float, (elevation,), "absolute pressure", "", "", "")
    told = problems_in(text, {"by_hand": by_hand})
    assert {problem.line for problem in told} == {
        line_of(text, 'formula = "gauge_vacuum"'),
        line_of(text, 'formula = "leak_rate"'),
    }
