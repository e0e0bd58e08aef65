"""What is doubtful in a sound checklist is told on its line; what is shipped gives no doubt."""

import pytest

from fieldapp.checklist.doubts.finding import doubts_in
from fieldapp.checklist.model import Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.places import checklists
from tests.checklist.planting import VALID, Fault, line_of, planted
from tests.checklists.playing import checklist_text

NAMES = sorted(path.parent.name for path in checklists().glob("*/checklist.toml"))
USED = 'formula = "standard_pressure"\ninputs = { elevation = "elevation" }'
LEAK = 'formula = "leak_rate"\nunit = "hPa L/s"\ndecimals = 2'
RUNS = 'sets = { suction_tank_valve = "closed", return_tank_valve = "closed" }'
CLOSE = '[[phase.step]]\nid = "close"'
NUMBER = 'limits = { min = -20, max = 80.5 }\nbasis = "common practice"'


def step(name, keys="", entry='kind = "confirm"'):
    """A step before the last one, with one entry."""
    return (
        f'[[phase.step]]\nid = "{name}"\ntitle = "Do it"\n{keys}\n\n'
        f'[[phase.step.entry]]\nid = "{name}_done"\nlabel = "Done"\n{entry}\n\n{CLOSE}'
    )


def long_caution():
    return f'caution = {{ word = "WARNING", text = "{"Hot oil and " * 8}steam." }}'


ANSWERS = ", ".join(f'{{ text = "{number}" }}' for number in range(6))
FAULTS = [
    Fault("constant", LEAK, f"{LEAK}", 'id = "leak_allowed"', 'constant "leak_allowed"',
          "no limit and no formula uses this constant: take it out, or use it"),
    Fault("question", 'unless = "second_cooler"\n', "", 'id = "second_cooler"',
          'question "second_cooler"',
          "no step asks this question in when or unless: take it out, or use it"),
    Fault("happening", 'undone_by = ["joint_touched"]\n', "", 'id = "joint_touched"',
          'happening "joint_touched"',
          "no step is undone_by this: people would report it for nothing"),
    Fault("computed", LEAK, LEAK, 'id = "leak"', 'computed "leak"',
          "nothing uses this value and no step shows it: add step, or take it out"),
    Fault("step", CLOSE, step("spare"), 'id = "spare"', 'step "spare"',
          "no step needs this one: it holds back nothing but the signatures"),
    Fault("lasts", CLOSE, step("spare", 'lasts = "9 min"'), 'lasts = "9 min"', 'step "spare"',
          "its time never matters: no step needs it, and no until stands here"),
    Fault("expires", CLOSE, step("spare", "", 'kind = "time"\nexpires = true'), 'id = "spare"',
          'step "spare"', "its time never matters: no step needs it, and no until stands here"),
    Fault("signature", CLOSE, CLOSE, 'id = "prove"', 'phase "prove"',
          "nobody signs as crew lead: end with an entry of kind “sign”"),
    Fault("confirmed in the end", CLOSE,
          step("spare", 'when = { entry = "both_closed", is = "yes" }'), 'entry = "both_closed"',
          'step "spare", when',
          "“both_closed” is always confirmed in the end: write it into needs, or ask by choice"),
    Fault("every answer", '"natural ester", "synthetic ester"] }',
          '"natural ester", "synthetic ester",\n "mineral", "silicone"] }', '"fluid_seen", is',
          'step "flushed", when', "every answer of “fluid_seen” stands here: this decides nothing"),
    Fault("answer that holds back its own step", CLOSE,
          step("spare", "", 'kind = "choice"\noptions = [{ text = "dry" }, { text = "wet", waive = '
               '"never" }]\nbasis = "owner"').removesuffix(CLOSE)
          + step("between", 'needs = ["spare"]').removesuffix(CLOSE)
          + step("mopped", 'needs = ["between"]\nwhen = { entry = "spare_done", is = "wet" }'),
          'entry = "spare_done"', 'step "mopped", when',
          "“wet” is accepted by nobody: a step that needs “spare_done” never begins"),
    Fault("limit of a step that may not be", 'columns = [{ id = "gauge", label = "Gauge", '
          'unit = "inHg", decimals = 1, limits = { min = "hold_target" } }]\n',
          'columns = [{ id = "gauge", label = "Gauge", unit = "inHg", decimals = 1 }]\n\n'
          + step("spare", 'unless = "second_cooler"', 'kind = "number"\nunit = "mm"\ndecimals = 0')
          .removesuffix(CLOSE)
          + step("other", "", 'kind = "number"\nunit = "mm"\ndecimals = 0\n'
                 'limits = { max = "spare_done" }\nbasis = "owner"').removesuffix(CLOSE),
          'max = "spare_done"', 'step "other", entry "other_done", limits',
          "max rests on “spare_done”, whose step may not be needed: then it stays open"),
    Fault("computed of a step that may not be", LEAK,
          f'{LEAK}\nstep = "close"\nlimits = {{ max = "leak_allowed" }}\nbasis = "owner"',
          "[computed.inputs]", 'computed "leak"',
          "rests on “cooler_temperature”, whose step may not be needed: then it stays open"),
    Fault("finer than entered", NUMBER, NUMBER.replace("80.5", "80.55"), "limits = { min = -20",
          'step "target", entry "cooler_temperature", limits',
          "max 80.55 is finer than decimals = 1 lets anybody enter"),
    Fault("no room", NUMBER, NUMBER.replace("min = -20, max = 80.5", "min = 80.51, max = 80.59"),
          "limits = { min = 80.51", 'step "target", entry "cooler_temperature", limits',
          "limits lie closer together than the last figure that is entered: no reading can decide"),
    Fault("hardly within", NUMBER, 'limits = { about = 20, within = 0.04 }\nbasis = "owner"',
          "within = 0.04", 'step "target", entry "cooler_temperature", limits',
          "limits lie closer together than the last figure that is entered: no reading can decide"),
    Fault("number for nothing", CLOSE,
          step("spare", "", 'kind = "number"\nunit = "mm"\ndecimals = 0'), 'id = "spare_done"',
          'step "spare", entry "spare_done"',
          "has no limits and nothing uses it: say in basis why it is kept"),
    Fault("all outside", CLOSE, step("spare", "", 'kind = "choice"\nbasis = "owner"\noptions = '
          '[{ text = "a", waive = "lead" }, { text = "b", waive = "lead" }]'), 'text = "a"',
          'step "spare", entry "spare_done"',
          "every answer is outside: nobody can do this step in order"),
    Fault("tank valve after vacuum", CLOSE,
          step("spare", 'sets = { vacuum_pump = "runs" }').removesuffix(CLOSE)
          + step("other", 'sets = { return_tank_valve = "open" }'), 'return_tank_valve = "open"',
          'step "other"',
          "opens a tank valve after vacuum was pulled: requires = { vacuum_pump = “gone” }"),
    Fault("vacuum on an open valve", CLOSE, step("spare", 'sets = { vacuum_valve = "open" }'),
          'vacuum_valve = "open"', 'step "spare"',
          "pulls vacuum without both tank valves shut: add both to requires as “closed”"),
    Fault("air", CLOSE, step("spare", "", 'kind = "alarm"\ntrip = "air"\nchecks = ["off"]\n'
          'basis = "owner"'), 'trip = "air"', 'step "spare", entry "spare_done"',
          "lets air in without both tank valves shut: add both to requires as “closed”"),
    Fault("proof left out", 'closed_within = "closing_time"\n',
          'closed_within = "closing_time"\noptional = true\n', "optional = true\nrequired",
          'step "alarms", entry "low_flow_trip"',
          "the proof of a shutdown may be left out here: take optional out"),
    Fault("proved again for nothing", CLOSE,
          step("spare", "", 'kind = "alarm"\ntrip = "high_pressure"\nchecks = ["off"]\n'
               'basis = "owner"'), 'kind = "alarm"\ntrip = "high',
          'step "spare", entry "spare_done"',
          "failed, it could be proved again with nothing put right: say in undone_by what is "
          "reported"),
    Fault("title", 'title = "Sign"', f'title = "Sign {"here " * 14}"', 'title = "Sign',
          'step "close"', "title is longer than 60 characters: make it an order"),
    Fault("text", 'title = "Sign"', f'title = "Sign"\ntext = "{"Sign. " * 40}"', 'text = "Sign.',
          'step "close"', "text is longer than 200 characters: two short sentences are read"),
    Fault("caution", 'title = "Sign"', f'title = "Sign"\n{long_caution()}',
          'text = "Hot oil and', 'step "close", caution',
          "a sentence is longer than 76 characters: cut it in two"),
    Fault("answers", CLOSE, step("spare", "", f'kind = "choice"\noptions = [{ANSWERS}]'),
          'options = [{ text = "0"', 'step "spare", entry "spare_done"',
          "more than 5 answers: a glove cannot touch each, ask in two"),
]  # fmt: skip


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.name)
def test_doubt_is_told_on_its_line(fault):
    text = planted(VALID, fault)
    assert isinstance(read_checklist(text), Checklist)
    assert Problem(line_of(text, fault.at), fault.where, fault.what) in doubts_in(text)


def test_a_caution_on_every_step_is_read_on_none():
    text = VALID
    for found in ("Find the unit", "Pump the cooler down", "Flush the cooler", "Sign"):
        caution = 'caution = { word = "NOTICE", text = "Mind." }'
        text = text.replace(f'title = "{found}"', f'title = "{found}"\n{caution}')
    told = [doubt.what for doubt in doubts_in(text)]
    assert "5 of 7 steps carry a caution: one on every step is read on none" in told


def test_nobody_finds_one_happening_among_too_many():
    more = "".join(
        f'\n[[happening]]\nid = "more_{number}"\nlabel = "More"\n' for number in range(30)
    )
    text = VALID.replace("\n[[computed]]", more + "\n[[computed]]", 1)
    what = "more than 30 happenings: nobody finds the right one, join some"
    where = 'happening "more_29"'
    assert Problem(line_of(text, 'id = "more_29"'), where, what) in doubts_in(text)


def test_what_is_not_sound_gives_no_doubts():
    assert doubts_in(VALID.replace('title = "Sign"', "")) == ()


@pytest.mark.parametrize("name", NAMES)
def test_nothing_shipped_is_doubtful(name):
    assert doubts_in(checklist_text(name)) == ()
