"""Steps that an answer asks for: what the file must say, each fault told on its line."""

import pytest

from fieldapp.checklist.model import Answer, Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from tests.checklist.planting import VALID, Fault, line_of, planted, problems_in

ASKED = 'when = { entry = "fluid_seen", is = ["natural ester", "synthetic ester"] }'
WHERE = 'step "flushed", when'

FAULTS = [
    Fault(
        "no such entry", ASKED, ASKED.replace("fluid_seen", "fluid_sen"), "when = { entry", WHERE,
        "entry “fluid_sen” is no entry of this checklist: did you mean “fluid_seen”?",
    ),
    Fault(
        "no such answer", ASKED, 'when = { entry = "fluid_seen", is = "minerl" }',
        "when = { entry", WHERE,
        "is “minerl” is no answer of “fluid_seen”: did you mean “mineral”?",
    ),
    Fault(
        "an answer unlike any", ASKED, 'when = { entry = "fluid_seen", is = "water" }',
        "when = { entry", WHERE,
        "is “water” is no answer of “fluid_seen”: take one of mineral, natural ester, "
        "synthetic ester, silicone",
    ),
    Fault(
        "one answer of two", ASKED,
        'when = { entry = "fluid_seen", is = ["mineral", "oil"] }', "when = { entry", WHERE,
        "is “oil” is no answer of “fluid_seen”: take one of mineral, natural ester, "
        "synthetic ester, silicone",
    ),
    Fault(
        "a confirmation is confirmed or not", 'unless = { entry = "plate_seen", is = "yes" }',
        'unless = { entry = "plate_seen", is = "no" }', "unless = { entry",
        'step "flushed", unless', "is “no” is no answer of “plate_seen”: take one of yes",
    ),
    Fault(
        "a number has no answers", ASKED,
        'when = { entry = "cooler_temperature", is = "20" }', "when = { entry", WHERE,
        "entry “cooler_temperature” is of kind number: here belongs a choice or a confirm",
    ),
    Fault(
        "answered in this step", ASKED, 'when = { entry = "flush_done", is = "yes" }',
        "when = { entry", WHERE,
        "entry “flush_done” is not answered before this step: ask in an earlier one",
    ),
    Fault(
        "answered later", 'unless = "second_cooler"',
        'when = { entry = "flush_done", is = "yes" }', 'when = { entry = "flush_done"',
        'step "target", when',
        "entry “flush_done” is not answered before this step: ask in an earlier one",
    ),
    Fault(
        "an entry where a fact belongs", ASKED, 'when = "both_closed"', 'when = "both_closed"',
        'step "flushed"',
        "when “both_closed” is an entry: write { entry = “both_closed”, is = “…” }",
    ),
    Fault(
        "no entry named", ASKED, 'when = { is = "mineral" }', "when = { is", WHERE,
        "entry is missing: add entry = an id in quotes",
    ),
    Fault(
        "no answer named", ASKED, 'when = { entry = "fluid_seen" }', "when = { entry", WHERE,
        "is is missing: add is = a text in quotes",
    ),
    Fault(
        "no answer in the list", ASKED, 'when = { entry = "fluid_seen", is = [] }',
        "when = { entry", WHERE, "is holds no answer: name one or more",
    ),
    Fault(
        "another key", ASKED, 'when = { entry = "fluid_seen", is = "mineral", not = true }',
        "when = { entry", WHERE, "key “not” is not known here",
    ),
    Fault(
        "neither text nor table", ASKED, "when = 3", "when = 3", 'step "flushed"',
        "when is a number: here belongs an id in quotes",
    ),
    Fault(
        "compared with an entry", 'equals = "unit_serial"', 'equals = "second_reader"',
        'equals = "second_reader"', 'step "arrive", entry "serial_read"',
        "equals “second_reader” is an entry: only with the job sheet can it be compared",
    ),
]  # fmt: skip


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.name)
def test_fault_is_told_on_its_line(fault):
    text = planted(VALID, fault)
    problem = Problem(line_of(text, fault.at), fault.where, fault.what)
    assert problem in problems_in(text)


def test_a_long_condition_may_stand_in_a_table_of_its_own():
    text = VALID.replace(ASKED + "\n", "").replace(
        '\n[[phase.step.entry]]\nid = "flush_done"',
        '\n[phase.step.when]\nentry = "fluid_seen"\nis = [\n  "mineral",\n  "watr",\n]\n'
        '\n[[phase.step.entry]]\nid = "flush_done"',
    )
    assert [problem.line for problem in problems_in(text)] == [line_of(text, '"watr"')]


def test_what_was_written_is_kept():
    checklist = read_checklist(VALID)
    assert isinstance(checklist, Checklist)
    step = checklist.step("flushed")
    assert step.when_answer == Answer("fluid_seen", ("natural ester", "synthetic ester"))
    assert step.unless_answer == Answer("plate_seen", ("yes",))
    assert (step.when, step.unless) == ("", "")
