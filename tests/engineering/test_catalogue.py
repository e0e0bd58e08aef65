"""Every formula of the catalogue is documented, and refuses where it does not hold."""

import re

import pytest

from fieldapp.engineering.catalogue import FORMULAS
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.units import UNITS

NAMES = sorted(FORMULAS)
QUANTITIES = {unit.quantity for unit in UNITS.values()}


def example_of(name):
    """Return the inputs of the example in the docstring, in SI."""
    text = FORMULAS[name].calculate.__doc__ or ""
    call = re.search(rf"{name}\((.*?)\)(?: \*|,|\)|\n| /|$)", text[text.index(">>>") :], re.DOTALL)
    assert call is not None
    plain = call[1].replace("...", "").replace("\n", " ")
    return {key: float(eval(value)) for key, value in re.findall(r"(\w+)=([^,]+)", plain)}


@pytest.mark.parametrize("part", ["Parameters", "Returns", "Valid for", "Source", "Examples"])
@pytest.mark.parametrize("name", NAMES)
def test_formula_is_documented(name, part):
    assert f"{part}\n" in (FORMULAS[name].calculate.__doc__ or "")


@pytest.mark.parametrize("name", NAMES)
def test_quantities_are_ones_that_people_can_write(name):
    formula = FORMULAS[name]
    assert {formula.quantity, *(i.quantity for i in formula.inputs)} <= QUANTITIES
    assert all((formula.summary, formula.valid_for, formula.source))


@pytest.mark.parametrize("name", NAMES)
def test_every_input_has_an_end_to_its_validity_and_is_refused_beyond_it(name):
    inputs = example_of(name)
    calculate = FORMULAS[name].calculate
    assert set(inputs) == {wanted.name for wanted in FORMULAS[name].inputs}
    calculate(**inputs)
    for key in inputs:
        for wrong in (-1e12, 1e12, float("nan"), float("inf")):
            with pytest.raises(OutsideValidity):
                calculate(**{**inputs, key: wrong})


@pytest.mark.parametrize("name", NAMES)
def test_refusal_holds_just_outside_the_stated_end(name):
    inputs = example_of(name)
    calculate = FORMULAS[name].calculate
    for key in inputs:
        with pytest.raises(OutsideValidity) as refusal:
            calculate(**{**inputs, key: 1e12})
        if refusal.value.name != key:
            continue  # another input stops first: it is tried under its own name
        high = refusal.value.high
        with pytest.raises(OutsideValidity):
            calculate(**{**inputs, key: high + abs(high) * 1e-9 + 1e-12})


@pytest.mark.parametrize("name", NAMES)
def test_refusal_holds_just_below_the_stated_start(name):
    inputs = example_of(name)
    calculate = FORMULAS[name].calculate
    for key in inputs:
        with pytest.raises(OutsideValidity) as refusal:
            calculate(**{**inputs, key: -1e12})
        if refusal.value.name != key:
            continue  # another input stops first: it is tried under its own name
        low = refusal.value.low
        with pytest.raises(OutsideValidity):
            calculate(**{**inputs, key: low - abs(low) * 1e-9 - 1e-12})
