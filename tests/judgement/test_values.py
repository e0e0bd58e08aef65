"""Values worked out, their uncertainty, and what happens where a formula refuses."""

from math import inf, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.validity import OutsideValidity
from fieldapp.judgement.evaluation import evaluate
from fieldapp.judgement.propagation import propagated
from tests.actions.hookup import held
from tests.actions.play import Play


def product(*, first, second):
    return first * second


@given(st.floats(1, 100), st.floats(1, 100), st.floats(0.001, 1), st.floats(0.001, 1))
def test_propagation_of_a_product_is_that_of_the_guide(first, second, spread_1, spread_2):
    # JCGM 100:2008, 5.1.2: u² = (y u(x))² + (x u(y))² for z = x y
    found = propagated(
        product, {"first": first, "second": second}, {"first": spread_1, "second": spread_2},
        first * second,
    )  # fmt: skip
    assert found == pytest.approx(sqrt((second * spread_1) ** 2 + (first * spread_2) ** 2))


def test_input_at_the_end_of_validity_is_moved_the_other_way_and_beyond_both_nothing_is_known():
    def bounded(*, value):
        if not 0 <= value <= 10:
            raise OutsideValidity("value", value, 0, 10)
        return 2 * value

    assert propagated(bounded, {"value": 10.0}, {"value": 1.0}, 20.0) == pytest.approx(2.0)
    assert propagated(bounded, {"value": 5.0}, {"value": 50.0}, 10.0) == inf


def test_leak_rate_is_worked_out_with_its_uncertainty_from_the_repeatability_of_one_gauge():
    play = held()
    value = evaluate(play.job, play.now).values.workings["leak"].value
    assert value is not None
    # 120 L x (65.2 x 294.65/296.15 - 62.0) hPa / 1800 s, by hand: 0.1913 hPa L/s
    assert value.si * 10 == pytest.approx(0.1913, abs=2e-4)
    # gauge 0.1 hPa at both ends, wall 0.5 K at both ends (JCGM 100, 5.1.2): by hand 0.0140
    gauge = 0.120 * 10 * sqrt((10 * 294.65 / 296.15) ** 2 + 10**2) / 1800
    wall = 0.120 * 10 * sqrt(2) * 6520 * 0.5 / 295 / 1800
    assert value.uncertainty * 10 == pytest.approx(sqrt(gauge**2 + wall**2), rel=0.02)


def test_value_waits_until_its_inputs_are_there():
    play = Play()
    assert "leak" not in evaluate(play.job, play.now).values.workings


def test_owners_figure_replaces_that_of_the_checklist():
    play = Play()
    numbers = evaluate(play.job, play.now).values.numbers
    assert str(numbers["leak_limit"].written) == "0.333"
    assert str(numbers["residual_limit"].written) == "166.65"
