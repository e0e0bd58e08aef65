"""Tests of what the line diagram shows."""

from dataclasses import FrozenInstanceError, replace

import pytest

from fieldapp.screens.kit.diagram.diagram_view import PARTS, TRIPS, TRIPS_AT, Diagram, PartState
from tests.screens.hookups import BYPASS, EVACUATE, RUNNING


def test_what_is_left_out_is_not_known():
    empty = Diagram("T2")
    assert empty.state_of("bypass_valve") == "unknown"
    assert empty.content_of("vessel") == "unknown"
    assert empty.trip("air") == "unproven"


def test_state_given_is_the_state_shown():
    assert EVACUATE.state_of("return_tank_valve") == "closed"
    assert EVACUATE.content_of("return_hose") == "vacuum"


def test_a_part_carries_the_tag_of_the_site_before_its_own():
    tagged = Diagram("T2", parts=(PartState("suction_tank_valve", "closed", "D7"),))
    assert tagged.tag_of("suction_tank_valve") == "D7"
    assert tagged.tag_of("return_tank_valve") == "V2"


@pytest.mark.parametrize(
    ("proofs", "worst"),
    [
        ({}, "unproven"),
        ({"high_pressure": "proven"}, "unproven"),
        ({"high_pressure": "proven", "low_suction": "proven"}, "proven"),
        ({"high_pressure": "failed", "low_suction": "proven"}, "failed"),
        ({"high_pressure": "proven", "low_suction": "not fitted"}, "proven"),
        ({"high_pressure": "not fitted", "low_suction": "not fitted"}, "not fitted"),
    ],
)
def test_the_worst_trip_at_a_part_is_shown(proofs, worst):
    assert Diagram("T2", trips=tuple(proofs.items())).proof_at("pressure_switch") == worst


def test_parts_without_a_trip_carry_no_proof():
    assert EVACUATE.proof_at("vacuum_gauge") is None


@pytest.mark.parametrize(
    ("diagram", "in_all"),
    [
        (Diagram("T2"), ("unproven", "10 trips", "unproven")),
        (EVACUATE, ("unproven", "9 trips", "5 proven")),
        (BYPASS, ("failed", "9 trips", "1 failed")),
        (RUNNING, ("proven", "10 trips", "proven")),
        (
            Diagram("T2", trips=tuple((trip, "failed") for trip in TRIPS)),
            ("failed", "10 trips", "failed"),
        ),
    ],
)
def test_all_trips_are_summed_up(diagram, in_all):
    assert diagram.proof_in_all() == in_all


def test_every_part_with_trips_is_a_part_and_every_trip_is_a_trip():
    assert set(TRIPS_AT) <= set(PARTS)
    assert {trip for trips in TRIPS_AT.values() for trip in trips} <= set(TRIPS)


@pytest.mark.parametrize(
    "wrong",
    [
        {"volumes": (("tank", "oil"),)},
        {"volumes": (("vessel", "water"),)},
        {"trips": (("air", "good"),)},
        {"here": "pump"},
        {"isolation_at": "middle"},
    ],
    ids=str,
)
def test_a_name_the_drawing_does_not_know_is_refused(wrong):
    with pytest.raises(ValueError, match=r".+"):
        replace(EVACUATE, **wrong)


def test_a_state_a_part_cannot_have_is_refused():
    with pytest.raises(ValueError, match="bypass_valve"):
        PartState("bypass_valve", "runs")


def test_a_diagram_is_frozen():
    with pytest.raises(FrozenInstanceError):
        setattr(EVACUATE, "unit", "T3")  # noqa: B010
