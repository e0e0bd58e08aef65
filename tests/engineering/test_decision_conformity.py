"""Guard bands and probabilities, against ILAC-G8, JCGM 106 and scipy."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from fieldapp.checklist.model import Limits, Measure, Waive
from fieldapp.engineering.decision.conformity import (
    Side,
    State,
    acceptance_limit,
    accepted,
    four_state,
    guard_for_risk,
    probability_of_conformity,
)
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.judgement.verdict import Place, Range, judged

LIMIT, GUARD = 20.0, 3.0


@pytest.mark.parametrize(
    ("value", "probability"), [(17, 0.9772), (18, 0.9088), (19, 0.7475), (20, 0.5)]
)
def test_probability_below_an_upper_limit(value, probability):
    # JCGM 106:2012, normal, limit 20, u 1.5 (values from memory)
    found = probability_of_conformity(value=value, standard_uncertainty=1.5, high=20)
    assert found == pytest.approx(probability, abs=5e-4)


@given(st.floats(-50, 50), st.floats(0.01, 20), st.floats(-40, 0), st.floats(0, 40))
def test_probability_agrees_with_the_normal_distribution_of_scipy(value, spread, low, high):
    found = probability_of_conformity(value=value, standard_uncertainty=spread, low=low, high=high)
    exact = norm.cdf(high, value, spread) - norm.cdf(low, value, spread)
    assert found == pytest.approx(exact, abs=1e-12)


@pytest.mark.parametrize(("value", "probability"), [(19.9, 1), (20, 1), (20.1, 0)])
def test_value_known_exactly_is_inside_or_not(value, probability):
    found = probability_of_conformity(value=value, standard_uncertainty=0, high=20)
    assert found == probability


def test_wrong_pass_at_the_guarded_limit_is_rarer_than_one_in_forty():
    # ILAC-G8:09/2019: w = U gives less than 2.5 %; 0.0228 exactly (k = 2, normal)
    edge = acceptance_limit(limit=LIMIT, guard=GUARD, side=Side.AT_MOST)
    wrong = 1 - probability_of_conformity(value=edge, standard_uncertainty=1.5, high=20)
    assert wrong == pytest.approx(0.0228, abs=3e-4)


def test_guard_band_of_five_percent():
    # JCGM 106:2012 (value from memory): w = 1.645 u = 2.47, acceptance limit 17.53
    guard = guard_for_risk(standard_uncertainty=1.5, risk=0.05)
    assert guard == pytest.approx(2.47, abs=0.005)
    found = acceptance_limit(limit=20, guard=guard, side=Side.AT_MOST)
    assert found == pytest.approx(17.53, abs=0.005)


@given(st.floats(0.001, 100), st.floats(1e-6, 0.5))
def test_risk_at_the_guarded_limit_is_the_risk_asked_for(spread, risk):
    guard = guard_for_risk(standard_uncertainty=spread, risk=risk)
    inside = probability_of_conformity(value=-guard, standard_uncertainty=spread, high=0)
    assert 1 - inside == pytest.approx(risk, rel=1e-6)


@pytest.mark.parametrize(
    ("value", "state"),
    [(16, State.PASS), (17, State.PASS), (17.01, State.CONDITIONAL_PASS),
     (20, State.CONDITIONAL_PASS), (20.01, State.CONDITIONAL_FAIL), (23, State.CONDITIONAL_FAIL),
     (23.01, State.FAIL)],
)  # fmt: skip
def test_four_states(value, state):
    # ILAC-G8:09/2019, 4.2.3: limits at TL - w, TL, TL + w
    found = four_state(value=value, limit=LIMIT, guard=GUARD, side=Side.AT_MOST)
    assert found is state
    mirrored = four_state(value=-value, limit=-20, guard=3, side=Side.AT_LEAST)
    assert mirrored is state


def test_lower_limit_is_raised_by_the_guard():
    # 25 inHg at least, U 0.5: 25.5 (ILAC-G8:09/2019, 4.2.2)
    assert acceptance_limit(limit=25, guard=0.5, side=Side.AT_LEAST) == 25.5


@pytest.mark.parametrize(("value", "passes"), [(17, True), (17.001, False), (20, False)])
def test_binary_rule_with_a_guard(value, passes):
    # ILAC-G8:09/2019, 4.2.2: pass up to TL - w, otherwise fail
    assert accepted(value=value, limit=LIMIT, guard=GUARD, side=Side.AT_MOST) is passes


def test_simple_acceptance_is_a_guard_of_nothing():
    # ILAC-G8:09/2019, 4.2.1
    assert accepted(value=20, limit=20, guard=0, side=Side.AT_MOST)
    assert not accepted(value=20.01, limit=20, guard=0, side=Side.AT_MOST)


def test_value_on_the_guarded_limit_is_not_tipped_by_floating_point():
    assert 1.0 - 0.9 != 0.1
    assert accepted(value=0.1, limit=1.0, guard=0.9, side=Side.AT_MOST)


TENTHS = st.integers(-500, 500).map(lambda n: Decimal(n) / 10)
GUARDS = st.integers(0, 50).map(lambda n: Decimal(n) / 10)
PLACES = {
    State.PASS: Place.INSIDE,
    State.CONDITIONAL_PASS: Place.TOO_NEAR,
    State.CONDITIONAL_FAIL: Place.OUTSIDE,
    State.FAIL: Place.OUTSIDE,
}


@given(TENTHS, TENTHS, GUARDS, st.sampled_from(Side))
def test_verdicts_of_the_checklist_are_the_first_two_of_the_four_states(value, limit, guard, side):
    bounds = {"high": limit} if side is Side.AT_MOST else {"low": limit}
    measure = Measure("mg/kg", 1, Limits())
    verdict = judged(value, measure, Range(**bounds, guard=guard), Waive.REASON)
    state = four_state(value=float(value), limit=float(limit), guard=float(guard), side=side)
    assert verdict.place is PLACES[state]


@pytest.mark.parametrize("wrong", [float("nan"), float("inf"), -1.0])
def test_guard_and_uncertainty_that_are_none_are_refused(wrong):
    with pytest.raises(OutsideValidity):
        acceptance_limit(limit=1, guard=wrong, side=Side.AT_MOST)
    with pytest.raises(OutsideValidity):
        probability_of_conformity(value=1, standard_uncertainty=wrong, high=2)
    with pytest.raises(OutsideValidity):
        guard_for_risk(standard_uncertainty=wrong, risk=0.05)


def test_limits_the_wrong_way_round_are_refused():
    with pytest.raises(OutsideValidity):
        probability_of_conformity(value=1, standard_uncertainty=1, low=3, high=2)
    with pytest.raises(OutsideValidity):
        probability_of_conformity(value=1, standard_uncertainty=1, high=float("nan"))
    with pytest.raises(OutsideValidity, match="risk"):
        guard_for_risk(standard_uncertainty=1, risk=0.6)
