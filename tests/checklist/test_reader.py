"""Reading a checklist: what is wrong is told all at once, each on its line."""

from decimal import Decimal

import pytest

from fieldapp.checklist.model import Bound, Checklist, Kind, Limits, Measure, Rule, Waive
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.units import UNITS
from tests.checklist.planting import VALID, Fault, line_of, planted, problems_in

WHOLE = "the checklist"
COOLER = 'step "target", entry "cooler_temperature"'
ALARM = 'step "alarms", entry "low_flow_trip"'

SHAPES = [
    Fault(
        "newer format",
        "format = 1",
        "format = 2",
        "format = 2",
        WHOLE,
        "format is made for a newer fieldapp: this one reads format 1",
    ),
    Fault(
        "format of no edition",
        "format = 1",
        "format = 0",
        "format = 0",
        WHOLE,
        "format must lie between 1 and 1",
    ),
    Fault(
        "format missing",
        "format = 1\n",
        "",
        "# An invented",
        WHOLE,
        "format is missing: add format = a whole number without quotes",
    ),
    Fault(
        "id with capitals",
        'id = "cooler_swap"',
        'id = "Cooler"',
        '"Cooler"',
        WHOLE,
        "id “Cooler”: an id is made of a–z, 0–9 and _, a letter first",
    ),
    Fault(
        "revision as text",
        "revision = 3",
        'revision = "3"',
        'revision = "3"',
        WHOLE,
        "revision is a text: here belongs a whole number without quotes",
    ),
    Fault(
        "revision as yes",
        "revision = 3",
        "revision = true",
        "revision",
        WHOLE,
        "revision is true or false: here belongs a whole number without quotes",
    ),
    Fault(
        "revision below one",
        "revision = 3",
        "revision = 0",
        "revision",
        WHOLE,
        "revision must lie between 1 and 100000",
    ),
    Fault(
        "title as number",
        'title = "Swap an oil cooler"',
        "title = 7",
        "title = 7",
        WHOLE,
        "title is a number: here belongs a text in quotes",
    ),
    Fault(
        "title as date",
        'title = "Swap an oil cooler"',
        "title = 2031-01-01",
        "title = 2",
        WHOLE,
        "title is a date: here belongs a text in quotes",
    ),
    Fault(
        "title as time of day",
        'title = "Swap an oil cooler"',
        "title = 10:30:00",
        "title = 1",
        WHOLE,
        "title is a time of day: here belongs a text in quotes",
    ),
    Fault(
        "title empty",
        '"Swap an oil cooler"',
        '" "',
        'title = " "',
        WHOLE,
        "title is empty: write what people shall read",
    ),
    Fault(
        "title long",
        '"Swap an oil cooler"',
        '"' + "x" * 201 + '"',
        'title = "xx',
        WHOLE,
        "title is longer than 200 characters: shorten it",
    ),
    Fault(
        "title with a sign that hides",
        '"Swap an oil cooler"',
        '"Swap\\u202Ean"',
        "Swap",
        WHOLE,
        "title holds a sign that cannot be seen: type the text anew",
    ),
    Fault(
        "unknown key at the top",
        "revision = 3",
        'revision = 3\nauthor = "x"',
        "author",
        WHOLE,
        "key “author” is not known here",
    ),
    Fault(
        "unknown key, nearly right",
        'unless = "second_cooler"',
        'unles = "second_cooler"',
        'unles = "',
        'step "target"',
        "key “unles” is not known here: did you mean “unless”?",
    ),
    Fault(
        "unknown table",
        "[[happening]]\nid",
        "[[hapening]]\nid",
        "[[hapening",
        WHOLE,
        "key “hapening” is not known here: did you mean “happening”?",
    ),
    Fault(
        "list where tables belong",
        "\n[[happening]]\n",
        "\n[happening]\n",
        "[happening]",
        WHOLE,
        "happening is a table: here belongs a list of tables [[happening]]",
    ),
    Fault(
        "constant without source",
        'value = "5 s"\nsource = "common practice"',
        'value = "5 s"',
        '[[constant]]\nid = "closing',
        'constant "closing_time"',
        "source is missing: add source = a text in quotes",
    ),
    Fault(
        "constant without unit",
        '"5 s"',
        '"5"',
        '"5"',
        'constant "closing_time"',
        "value: “5” has no unit: write it like “1500 m”",
    ),
    Fault(
        "constant in an unknown unit",
        '"5 s"',
        '"5 S"',
        '"5 S"',
        'constant "closing_time"',
        "value: “S” is not a unit known here: did you mean “s”?",
    ),
    Fault(
        "constant with two decimal marks",
        '"5 s"',
        '"5,,0 s"',
        '"5,,0 s"',
        'constant "closing_time"',
        "value: “5,,0” is not a number: use digits and one decimal mark",
    ),
    Fault(
        "question without an answer",
        "otherwise = false\n",
        "",
        "[[question]]",
        'question "second_cooler"',
        "otherwise is missing: add otherwise = true or false, without quotes",
    ),
    Fault(
        "decimals as text",
        'label = "Leak rate"\nformula = "leak_rate"\nunit = "hPa L/s"\ndecimals = 2',
        'label = "Leak rate"\nformula = "leak_rate"\nunit = "hPa L/s"\ndecimals = "2"',
        'decimals = "2"',
        'computed "leak"',
        "decimals is a text: here belongs a whole number without quotes",
    ),
    Fault(
        "input as number",
        '"20 degC"',
        "20",
        "start_temperature",
        'computed "leak", inputs',
        "start_temperature is a number: here belongs a text in quotes",
    ),
    Fault(
        "limits of a computed value without a step",
        'unit = "hPa L/s"\ndecimals = 2',
        'unit = "hPa L/s"\ndecimals = 2\nbasis = "owner"\nlimits = { max = 1 }',
        "limits = { max = 1 }",
        'computed "leak"',
        "limits need a step: name the one that they hold up",
    ),
    Fault(
        "limits of a computed value without a basis",
        'unit = "hPa L/s"\ndecimals = 2',
        'unit = "hPa L/s"\ndecimals = 2\nstep = "hold"\nlimits = { max = "leak_allowed" }',
        '[[computed]]\nid = "leak"',
        'computed "leak"',
        'basis is missing: say where the limit comes from, or "common practice"',
    ),
    Fault(
        "step without an entry",
        '[[phase.step.entry]]\nid = "signed"\nkind = "sign"\n'
        'label = "Done as written"\nrole = "technician"\n',
        "",
        '[[phase.step]]\nid = "close"',
        'step "close"',
        "nothing is given at this step: add an entry, such as one to confirm",
    ),
    Fault(
        "caution word",
        'word = "WARNING"',
        'word = "Warning"',
        'word = "Warning"',
        'step "valves_closed", caution',
        "word “Warning” is not known: did you mean “WARNING”?",
    ),
    Fault(
        "caution without words",
        ', text = "Hot oil. Gloves and face shield."',
        "",
        "caution =",
        'step "valves_closed", caution',
        "text is missing: add text = a text in quotes",
    ),
    Fault(
        "part of no diagram",
        'part = "suction_tank_valve"',
        'part = "suction_valve"',
        "part =",
        'step "valves_closed"',
        "part “suction_valve” is not known: did you mean “suction_tank_valve”?",
    ),
    Fault(
        "state of no valve",
        'suction_tank_valve = "closed"',
        'suction_tank_valve = "shut"',
        "sets =",
        'step "valves_closed", sets',
        "suction_tank_valve “shut” is not known: take one of open, closed",
    ),
    Fault(
        "part without a state",
        'return_tank_valve = "closed"',
        'tray = "closed"',
        "sets =",
        'step "valves_closed", sets',
        "“tray” is no part with a state",
    ),
    Fault(
        "lasts nothing",
        '"120 min"',
        '"0 min"',
        '"0 min"',
        'step "hold"',
        "lasts must be longer than nothing",
    ),
    Fault(
        "lasts in litres",
        '"120 min"',
        '"120 L"',
        '"120 L"',
        'step "hold"',
        "lasts “120 L” is of the quantity volume: here belongs time",
    ),
    Fault(
        "lasts as number",
        '"120 min"',
        "120",
        "lasts = 120",
        'step "hold"',
        "lasts is a number: here belongs a number and its unit in quotes, such as “1500 m”",
    ),
    Fault(
        "needs as text",
        'needs = ["hold"]',
        'needs = "hold"',
        'needs = "hold"',
        'step "alarms"',
        "needs is a text: here belongs a list of ids in quotes",
    ),
    Fault(
        "needs with a number",
        'needs = ["hold"]',
        "needs = [\n 4]",
        " 4]",
        'step "alarms"',
        "needs holds a number: here belongs a list of ids in quotes",
    ),
]

ENTRIES = [
    Fault(
        "rounded to no side",
        'unit = "inHg"\ndecimals = 1\n\n[[computed]]',
        'unit = "inHg"\ndecimals = 1\nrounding = "upwards"\n\n[[computed]]',
        "rounding",
        'computed "hold_target"',
        "rounding “upwards” is not known: take one of nearest, up, down",
    ),
    Fault(
        "requires no state",
        'part = "suction_tank_valve"',
        'requires = { return_tank_valve = "half" }',
        "requires",
        'step "valves_closed", requires',
        "return_tank_valve “half” is not known: take one of open, closed",
    ),
    Fault(
        "kind unknown",
        'kind = "number"',
        'kind = "numbr"',
        "numbr",
        COOLER,
        "kind “numbr” is not known: did you mean “number”?",
    ),
    Fault(
        "kind missing",
        'kind = "number"\n',
        "",
        '[[phase.step.entry]]\nid = "cooler_temp',
        COOLER,
        "kind is missing: add kind = a word in quotes",
    ),
    Fault(
        "waive unknown",
        'at = [0, 10, 20, 30]\nbasis = "common practice"\nwaive = "owner"',
        'at = [0, 10, 20, 30]\nbasis = "common practice"\nwaive = "boss"',
        '"boss"',
        'step "hold", entry "hold"',
        "waive “boss” is not known: take one of never, owner, lead, reason",
    ),
    Fault(
        "key of another kind",
        'kind = "photo"',
        'kind = "photo"\nunit = "m"',
        'unit = "m"',
        'step "arrive", entry "plate_picture"',
        "key “unit” is not known here",
    ),
    Fault(
        "unit unknown",
        'unit = "degC"',
        'unit = "celsius"',
        "celsius",
        COOLER,
        f"unit “celsius” is not known: take one of {', '.join(UNITS)}",
    ),
    Fault(
        "limits without basis",
        'limits = { min = -20, max = 80.5 }\nbasis = "common practice"',
        "limits = { min = -20, max = 80.5 }",
        '[[phase.step.entry]]\nid = "cooler_temp',
        COOLER,
        'basis is missing: say where the limit comes from, or "common practice"',
    ),
    Fault(
        "min above max",
        "min = -20, max = 80.5",
        "min = 90, max = 80.5",
        "limits = { min = 90",
        f"{COOLER}, limits",
        "min lies above max: nothing can be inside",
    ),
    Fault(
        "no bound",
        "{ min = -20, max = 80.5 }",
        '{ rule = "simple" }',
        '{ rule = "simple" }',
        f"{COOLER}, limits",
        "no limit stands here: add min, max or about",
    ),
    Fault(
        "limit that no gauge shows",
        "max = 80.5",
        "max = 1e999",
        "1e999",
        f"{COOLER}, limits",
        "max is beyond anything that can be measured: write the figure in full",
    ),
    Fault(
        "limit of 400 digits",
        "max = 80.5",
        "max = 1" + "0" * 400,
        "max = 1000000",
        f"{COOLER}, limits",
        "max is beyond anything that can be measured: write the figure in full",
    ),
    Fault(
        "limit that is no number",
        "max = 80.5",
        "max = nan",
        "max = nan",
        f"{COOLER}, limits",
        "max is beyond anything that can be measured: write the figure in full",
    ),
    Fault(
        "limit as yes",
        "max = 80.5",
        "max = true",
        "max = true",
        f"{COOLER}, limits",
        "max is true or false: here belongs a number without quotes",
    ),
    Fault(
        "limit as sum",
        "max = 80.5",
        'max = "80 + 1"',
        "80 + 1",
        f"{COOLER}, limits",
        "max “80 + 1”: an id is made of a–z, 0–9 and _, a letter first",
    ),
    Fault(
        "limit with its unit",
        "max = 80.5",
        'max = "80.5 degC"',
        "80.5 degC",
        f"{COOLER}, limits",
        "max “80.5 degC”: write the number alone, no quotes and no unit",
    ),
    Fault(
        "unknown limit",
        "max = 80.5",
        "maximum = 80.5",
        "maximum",
        f"{COOLER}, limits",
        "key “maximum” is not known here: did you mean “max”?",
    ),
    Fault(
        "guarded without instrument",
        'limits = { min = "hold_target" }',
        'limits = { min = "hold_target", rule = "guarded" }',
        'rule = "guarded" }',
        'step "target", entry "pump_down", column "gauge", limits',
        "rule “guarded” needs an instrument: name it beside the limits",
    ),
    Fault(
        "about without a spread",
        ", within_percent = 10",
        "",
        'about = "low',
        f"{ALARM}, limits",
        "about needs either within or within_percent beside it",
    ),
    Fault(
        "about with two spreads",
        "within_percent = 10",
        "within_percent = 10, within = 1",
        "within_percent",
        f"{ALARM}, limits",
        "about needs either within or within_percent beside it",
    ),
    Fault(
        "spread around nothing",
        'about = "low_flow_set_point"',
        'max = "low_flow_set_point"',
        "within_percent",
        f"{ALARM}, limits",
        "within_percent needs about = the figure in the middle",
    ),
    Fault(
        "spread below nothing",
        "within_percent = 10",
        "within_percent = -10",
        "within_percent",
        f"{ALARM}, limits",
        "within_percent must be more than 0",
    ),
    Fault(
        "one option",
        '    { text = "mineral" },\n    { text = "natural ester" },\n'
        '    { text = "synthetic ester" },\n    { text = "silicone", waive = "owner" },\n',
        '    { text = "mineral" },\n',
        "options = [",
        'step "valves_closed", entry "fluid_seen"',
        "options must list two answers or more",
    ),
    Fault(
        "same option twice",
        '{ text = "natural ester" }',
        '{ text = "natural ester" }, { text = "Natural Ester" }',
        "options = [",
        'step "valves_closed", entry "fluid_seen"',
        "options holds “natural ester” twice: keep one of them",
    ),
    Fault(
        "option of an unknown word",
        '"silicone", waive = "owner"',
        '"silicone", waive = "no"',
        'waive = "no"',
        'step "valves_closed", entry "fluid_seen", option 4',
        "waive “no” is not known: take one of never, owner, lead, reason",
    ),
    Fault(
        "trace of one reading",
        "readings = 4",
        "readings = 1",
        "readings",
        'step "target", entry "pump_down"',
        "readings must lie between 2 and 10000",
    ),
    Fault(
        "trace without a rhythm",
        'every = "30 s"\n',
        "",
        '[[phase.step.entry]]\nid = "pump_down"',
        'step "target", entry "pump_down"',
        "every is missing: add every = a number and its unit in quotes, such as “1500 m”",
    ),
    Fault(
        "trace between seconds",
        'every = "30 s"',
        'every = "1.5 s"',
        "every =",
        'step "target", entry "pump_down"',
        "every must be whole seconds",
    ),
    Fault(
        "hold that goes back",
        "at = [0, 10, 20, 30]",
        "at = [0, 20, 10]",
        "at = [",
        'step "hold", entry "hold"',
        "at must begin with 0 and rise: the minutes at which to read",
    ),
    Fault(
        "hold at no minute",
        "at = [0, 10, 20, 30]",
        "at = []",
        "at = [",
        'step "hold", entry "hold"',
        "at must begin with 0 and rise: the minutes at which to read",
    ),
    Fault(
        "hold that begins late",
        "at = [0, 10, 20, 30]",
        "at = [5, 10]",
        "at = [",
        'step "hold", entry "hold"',
        "at must begin with 0 and rise: the minutes at which to read",
    ),
    Fault(
        "shutdown unknown",
        'trip = "low_flow"',
        'trip = "lowflow"',
        "trip =",
        ALARM,
        "trip “lowflow” is no shutdown of a skid: did you mean “low_flow”?",
    ),
    Fault(
        "alarm without checks",
        'checks = ["pump stopped", "both valves closed", "control room told"]',
        "checks = []",
        "checks",
        ALARM,
        "checks is empty: list what must be seen",
    ),
    Fault(
        "trip value without unit",
        'unit = "L/min"\n',
        "",
        "decimals = 1\nlimits = { about",
        ALARM,
        "decimals needs a unit: add unit = the trip value's",
    ),
    Fault(
        "closed before it began",
        '"closing_time"\nrequired',
        "0\nrequired",
        "closed_within",
        ALARM,
        "closed_within must be more than 0 seconds",
    ),
    Fault(
        "time ahead of nothing",
        '{ min = "2 h", max = "14 h" }',
        "{}",
        "ahead",
        'step "alarms", entry "permit_until", ahead',
        "neither min nor max stands here: add one of them",
    ),
    Fault(
        "time window turned round",
        'min = "2 h"',
        'min = "20 h"',
        "ahead",
        'step "alarms", entry "permit_until", ahead',
        "min lies above max: nothing can be inside",
    ),
    Fault(
        "age without an end",
        '{ max = "30 d" }',
        "{}",
        "age = {",
        'step "alarms", entry "sample_taken", age',
        "max is missing: add max = a number and its unit in quotes, such as “1500 m”",
    ),
    Fault(
        "role of nobody here",
        'role = "technician"',
        'role = "boss"',
        "boss",
        'step "close", entry "signed"',
        "role “boss” is not known: take one of technician, crew lead",
    ),
]


@pytest.mark.parametrize("fault", SHAPES + ENTRIES, ids=lambda fault: fault.name)
def test_fault_is_told_on_its_line(fault):
    text = planted(VALID, fault)
    expected = Problem(line_of(text, fault.at), fault.where, fault.what)
    told = problems_in(text)
    assert expected in told, "\n".join(map(str, told))


def test_five_faults_are_told_with_five_lines():
    faults = [
        fault
        for fault in SHAPES + ENTRIES
        if fault.name
        in {
            "revision as text",
            "question without an answer",
            "caution word",
            "unit unknown",
            "role of nobody here",
        }
    ]
    text = VALID
    for fault in faults:
        text = planted(text, fault)
    told = problems_in(text)
    assert [problem.line for problem in told] == sorted(line_of(text, f.at) for f in faults)
    assert len(told) == len(faults) == 5


@pytest.mark.parametrize(
    ("right", "written"),
    [("number", "numbr"), ("number", "Number"), ("number", "pressure"), ("hold", "hodl"),
     ("choice", "choise")],
)  # fmt: skip
def test_kind_that_is_misspelt_is_all_that_is_told(right, written):
    text = VALID.replace(f'kind = "{right}"', f'kind = "{written}"')
    assert all(each.what.startswith(f"kind “{written}”") for each in problems_in(text))


def test_list_of_the_wrong_shape_is_told_once():
    text = VALID.replace("at = [0, 10, 20, 30]", 'at = ["0", "10"]')
    (problem,) = problems_in(text)
    assert problem.what == "at holds a text: here belongs a list of whole numbers"


def test_problem_reads_as_line_where_what():
    assert (
        str(Problem(12, 'step "hold"', "label is missing")) == '12: step "hold": label is missing'
    )


def test_newer_format_is_told_alone():
    text = VALID.replace("format = 1", "format = 9") + 'what = "nobody knows yet"\n'
    assert len(problems_in(text)) == 1


def test_sound_checklist_keeps_what_was_written():
    checklist = read_checklist(VALID)
    assert isinstance(checklist, Checklist)
    assert (checklist.id, checklist.revision, len(checklist.phases)) == ("cooler_swap", 3, 2)
    hold = checklist.step("hold")
    assert (hold.lasts, hold.needs, hold.line) == (7200, ("target",), 159)
    entry = checklist.entry("hold")
    assert (entry.kind, entry.times, entry.waive) == (Kind.HOLD, (0, 10, 20, 30), Waive.OWNER)
    limits = entry.columns[0].measure.limits
    assert (limits.high, limits.rule) == (Bound(name="hold_pressure"), Rule.GUARDED)
    bounds = Limits(Bound(Decimal(-20)), Bound(Decimal("80.5")))
    temperature = Measure("degC", 1, bounds, "thermometer")
    assert checklist.entry("cooler_temperature").measure == temperature
    assert checklist.step("valves_closed").sets == (
        ("suction_tank_valve", "closed"),
        ("return_tank_valve", "closed"),
    )
    permit, sample = checklist.entry("permit_until"), checklist.entry("sample_taken")
    assert (permit.ahead_low, permit.ahead_high, sample.age_high) == (7200, 50400, 2592000)


@pytest.mark.parametrize("ending", ["\n", "\r\n"], ids=["Unix", "Windows"])
@pytest.mark.parametrize("mark", ["", "\ufeff"], ids=["no mark", "byte order mark"])
def test_file_of_any_editor_is_read(ending, mark):
    content = (mark + VALID.replace("\n", ending)).encode()
    assert read_checklist(content) == read_checklist(VALID)
