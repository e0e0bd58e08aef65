"""Each checklist against the rows of the procedure: nothing is dropped, nothing is weaker."""

import re
from decimal import Decimal
from pathlib import Path

import pytest

from fieldapp.checklist.facts import VALVES
from fieldapp.checklist.model import Checklist, Kind, Waive
from fieldapp.checklist.reader import read_checklist
from fieldapp.units import UNITS, to_si
from tests.checklists.figures import found_in
from tests.checklists.playing import checklist_text

ROWS = [
    line.split("|")
    for line in (Path(__file__).parent / "rows.psv").read_text(encoding="utf-8").splitlines()
    if not line.startswith("#")
]
FIGURES = [
    line.split("|")
    for line in (Path(__file__).parent / "figures.psv").read_text(encoding="utf-8").splitlines()
    if not line.startswith("#")
]
SIGNALS = ["NOTICE", "CAUTION", "WARNING", "DANGER"]
NAMES = list(dict.fromkeys(row[0] for row in ROWS))
COUNTS = {"hookup": 86, "visit": 17, "alarm_response": 18, "cartridge_change": 26, "rest_test": 15,
          "disconnection": 23, "oil_sampling": 20, "vacuum_treatment": 26}  # fmt: skip
BY_FINDING = {"bond_over_aim": Waive.OWNER, "drops": Waive.OWNER,
              "main tank, bottom, ordered in writing": Waive.OWNER}  # fmt: skip
"""What the row itself leaves to somebody else than its class: the aim, drops, a written order."""
STRICTNESS = [Waive.REASON, Waive.LEAD, Waive.OWNER, Waive.NEVER]
LONGEST_TITLE, LONGEST_SENTENCE, MOST_OPTIONS = 60, 76, 5


def checklist(name):
    found = read_checklist(checklist_text(name))
    assert isinstance(found, Checklist), "\n".join(map(str, found))
    return found


CHECKLISTS = {name: checklist(name) for name in NAMES}
STEPS = {(name, step.id): step for name in NAMES for step in CHECKLISTS[name].steps()}
each_list = pytest.mark.parametrize("name", NAMES)
each_row = pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row[0]}-{row[1]}")
each_step = pytest.mark.parametrize("key", STEPS, ids="-".join)


def held_up_by(name, step_id):
    """Every step that must be in order before the step, however far back."""
    found, waiting = set(), [step_id]
    while waiting:
        for need in STEPS[name, waiting.pop()].needs:
            if need not in found:
                found.add(need)
                waiting.append(need)
    return found


@each_list
def test_rows_are_all_there_in_their_order(name):
    wanted = [row[1] for row in ROWS if row[0] == name]
    assert len(wanted) == COUNTS[name]
    there = [step.id for step in CHECKLISTS[name].steps() if step.id in wanted]
    assert there == wanted


@each_row
def test_gate_holds_at_least_what_the_row_asks(row):
    name, step_id, needs = row[:3]
    assert set(needs.split()) <= held_up_by(name, step_id)


@each_row
def test_nobody_may_accept_more_than_the_row_allows(row):
    name, step_id, _, waive = row[:4]
    if not waive:
        return
    allowed = [(entry.id, entry.waive) for entry in STEPS[name, step_id].entries]
    allowed += [(option.text, option.waive) for entry in STEPS[name, step_id].entries
                for option in entry.options if option.waive is not None]  # fmt: skip
    allowed += [(computed.id, computed.waive) for computed in CHECKLISTS[name].computed
                if computed.step == step_id and computed.judged]  # fmt: skip
    for what, accepted_by in allowed:
        least = STRICTNESS.index(BY_FINDING.get(what, Waive(waive)))
        assert STRICTNESS.index(accepted_by) >= least, what


@each_row
def test_step_goes_stale_when_the_row_says(row):
    name, step_id, stale = row[0], row[1], row[4].split()
    step = STEPS[name, step_id]
    for reason, unit in zip(stale, [*stale, ""][1:], strict=True):
        if reason == "expires":
            assert any(entry.expires for entry in step.entries)
        elif reason.isdigit():
            assert step.lasts is not None
            assert step.lasts <= to_si(float(reason), unit)
        elif reason not in UNITS:
            assert reason in step.undone_by


@each_row
def test_caution_is_said_at_the_step_or_the_one_before_and_no_weaker(row):
    name, step_id, word = row[0], row[1], row[5]
    if word:
        own = STEPS[name, step_id]
        before = [STEPS[name, need] for need in own.needs]
        words = [step.caution.word for step in (own, *before) if step.caution]
        assert any(SIGNALS.index(found) >= SIGNALS.index(word) for found in words)


@pytest.mark.parametrize("row", FIGURES, ids="-".join)
def test_figure_is_at_least_as_strict_as_in_the_procedure(row):
    name, step_id, subject, which, figure = row
    there = found_in(CHECKLISTS[name], STEPS[name, step_id])[subject, which]
    if which in ("min", "minutes held", "readings", "seconds ahead"):
        assert there >= Decimal(figure)
    else:
        assert there <= Decimal(figure)


@each_step
def test_texts_are_short_enough_to_be_read_in_the_field(key):
    step = STEPS[key]
    assert len(step.title) <= LONGEST_TITLE
    words = step.caution.text if step.caution else ""
    for sentence in re.split(r"(?<=[.:?!]) ", words):
        assert len(sentence) <= LONGEST_SENTENCE, sentence


@each_step
def test_a_choice_has_so_few_answers_that_a_glove_can_touch_each(key):
    assert all(len(entry.options) <= MOST_OPTIONS for entry in STEPS[key].entries)


@each_step
def test_no_proof_of_a_shutdown_can_be_left_out(key):
    for entry in STEPS[key].entries:
        assert not (entry.kind is Kind.ALARM and entry.optional), entry.id


@each_step
def test_a_tank_valve_opens_only_where_no_vacuum_pump_is(key):
    name, step_id = key
    step = STEPS[key]
    opens = {part for part, state in step.sets if state == "open"}
    found_so = step_id.endswith(("_found", "v_run"))  # says how the skid was left, opens nothing
    if found_so or not opens & {"suction_tank_valve", "return_tank_valve"}:
        return
    assert ("vacuum_pump", "gone") in step.requires
    assert name != "vacuum_treatment"


@each_step
def test_air_is_let_in_and_vacuum_is_pulled_only_with_both_tank_valves_shut(key):
    step = STEPS[key]
    air = any(entry.trip == "air" for entry in step.entries)
    vacuum = ("vacuum_valve", "open") in step.sets
    if air or vacuum:
        shut = {("suction_tank_valve", "closed"), ("return_tank_valve", "closed")}
        assert shut <= set(step.requires)


@each_list
def test_ends_with_technician_and_crew_lead(name):
    roles = [
        entry.role for step in CHECKLISTS[name].steps()[-2:] for entry in step.entries
        if entry.kind is Kind.SIGN
    ]  # fmt: skip
    assert roles == ["technician", "crew lead"]


@each_list
def test_every_happening_undoes_something(name):
    undone = {happening for step in CHECKLISTS[name].steps() for happening in step.undone_by}
    assert {happening.id for happening in CHECKLISTS[name].happenings} == undone


@each_list
def test_every_figure_has_a_unit_a_source_and_a_use(name):
    text = checklist_text(name)
    for constant in CHECKLISTS[name].constants:
        assert constant.unit
        assert constant.source
        assert text.count(f'"{constant.id}"') > 1, constant.id


def test_power_drain_is_there_only_where_the_owner_orders_it():
    for name in NAMES:
        for step in CHECKLISTS[name].steps():
            if "_back_" in step.id:
                assert step.when == "drain_back", step.id
    for name in ("cartridge_change", "disconnection"):
        question = next(q for q in CHECKLISTS[name].questions if q.id == "drain_back")
        assert question.otherwise is False


def test_the_line_diagram_knows_every_valve_that_a_step_moves():
    moved = {part for step in STEPS.values() for part, state in step.sets if state == "open"}
    assert moved <= set(VALVES)
