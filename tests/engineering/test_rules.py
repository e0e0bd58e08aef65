"""Every table and judgement is documented, answers in words, and refuses where it does not hold."""

from dataclasses import replace
from math import inf, nan

import pytest

from fieldapp.engineering.catalogue import FORMULAS, RULES, SUBJECTS
from fieldapp.engineering.docstring import ROWS
from fieldapp.engineering.rules.said import CannotSayError
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.units import UNITS
from tests.engineering.rules_given import SOUND

NAMES = sorted(RULES)
QUANTITIES = {unit.quantity for unit in UNITS.values()}
WRONG = (-1e15, 1e15, nan, inf, -inf)
REFUSALS = (OutsideValidity, CannotSayError)


def numbers_of(name):
    """Return (input, column) of every number of a rule; column "" where it is one number."""
    found = []
    for wanted in RULES[name].inputs:
        columns = wanted.columns if wanted.quantity == ROWS else (wanted,)
        found += [
            (wanted.name, column.name if wanted.columns else "")
            for column in columns
            if column.quantity in QUANTITIES
        ]
    return found


ALL_NUMBERS = [(name, *number) for name in NAMES for number in numbers_of(name)]


def changed(name, wanted, column, value, place=0):
    given = dict(SOUND[name])
    if not column:
        return {**given, wanted: value}
    rows = list(given[wanted])
    rows[place] = replace(rows[place], **{column: value})
    return {**given, wanted: rows}


def test_no_name_stands_for_two_things():
    assert not set(FORMULAS) & set(RULES)
    assert {formula.subject for formula in FORMULAS.values()} == set(SUBJECTS)
    assert {rule.subject for rule in RULES.values()} <= set(SUBJECTS)


@pytest.mark.parametrize("part", ["Parameters", "Returns", "Valid for", "Source", "Examples"])
@pytest.mark.parametrize("name", NAMES)
def test_rule_is_documented(name, part):
    assert f"{part}\n" in (RULES[name].judge.__doc__ or "")


@pytest.mark.parametrize("name", NAMES)
def test_inputs_are_ones_that_people_can_write(name):
    rule = RULES[name]
    assert all((rule.summary, rule.valid_for, rule.source))
    assert all(wanted.meaning for wanted in rule.inputs)
    kinds = QUANTITIES | {"rows", "answer", "date", "yes or no", "text"}
    columns = [column for wanted in rule.inputs for column in wanted.columns]
    assert {each.quantity for each in (*rule.inputs, *columns)} <= kinds


@pytest.mark.parametrize("name", NAMES)
def test_rule_says_a_sentence_and_its_rows_fit_their_heads(name):
    assert set(SOUND[name]) == {wanted.name for wanted in RULES[name].inputs}
    said = RULES[name].judge(**SOUND[name])
    assert said.sentence[:1].isupper() or said.sentence[:1].isdigit() or "log10" in said.sentence
    assert said.sentence.endswith(".")
    assert all(len(row) == len(said.heads) for row in said.rows)
    assert all(figure.unit in UNITS for figure in said.figures)


@pytest.mark.parametrize(("name", "wanted", "column"), ALL_NUMBERS)
def test_every_number_has_an_end_to_its_validity_and_is_refused_beyond_it(name, wanted, column):
    for value in WRONG:
        for place in (0, -1) if column else (0,):
            with pytest.raises(REFUSALS):
                RULES[name].judge(**changed(name, wanted, column, value, place))


@pytest.mark.parametrize(("name", "wanted", "column"), ALL_NUMBERS)
def test_refusal_holds_just_outside_the_stated_end(name, wanted, column):
    for far, sign in ((1e15, 1), (-1e15, -1)):
        with pytest.raises(REFUSALS) as refusal:
            RULES[name].judge(**changed(name, wanted, column, far))
        if not isinstance(refusal.value, OutsideValidity) or refusal.value.value != far:
            continue  # refused in words, or by another input, which is tried under its own name
        end = refusal.value.high if sign > 0 else refusal.value.low
        just_outside = end + sign * (abs(end) * 1e-9 + 1e-12)
        with pytest.raises(REFUSALS):
            RULES[name].judge(**changed(name, wanted, column, just_outside))


@pytest.mark.parametrize("name", [n for n in NAMES if any(i.columns for i in RULES[n].inputs)])
def test_no_rows_are_refused(name):
    for wanted in RULES[name].inputs:
        if wanted.columns:
            with pytest.raises((*REFUSALS,)):
                RULES[name].judge(**{**SOUND[name], wanted.name: []})
