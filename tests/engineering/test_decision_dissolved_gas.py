"""Gases in oil beside what is typical: never a release."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.decision.dissolved_gas import (
    IEC_TYPICAL,
    IEEE_TYPICAL,
    Standing,
    gas_note,
)


def test_typical_gases_are_those_printed():
    # IEEE C57.104-2019, table 1 (values from memory): O2/N2 up to 0.2, and above
    assert IEEE_TYPICAL == {
        "H2": (80, 40), "CH4": (90, 20), "C2H6": (90, 15), "C2H4": (50, 50), "C2H2": (1, 2),
        "CO": (900, 500), "CO2": (9000, 5000),
    }  # fmt: skip
    # IEC 60599:2015, annex A (values from memory)
    assert IEC_TYPICAL == {
        "H2": (50, 150), "CH4": (30, 130), "C2H6": (20, 90), "C2H4": (60, 280), "C2H2": (2, 20),
        "CO": (400, 600), "CO2": (3800, 14_000),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("ratio", "ieee"), [(0.2, 90), (0.34, 20), (None, 20)]
)  # methane; unknown ratio: the smaller counts
def test_oxygen_decides_which_figure_counts(ratio, ieee):
    assert gas_note("CH4", 7, oxygen_to_nitrogen=ratio).typical[0].high == ieee


@pytest.mark.parametrize(
    ("content", "standing"),
    [(49, Standing.BELOW), (50, Standing.AMONG), (150, Standing.AMONG), (151, Standing.ABOVE)],
)
def test_gas_stands_beside_a_range(content, standing):
    assert gas_note("H2", content).typical[1].standing is standing


def test_acetylene_of_a_joint_tap_changer_has_its_own_range():
    # IEC 60599:2015, 60-280 with a communicating tap changer, 2-20 without (values from memory)
    assert gas_note("C2H2", 30).typical[1].standing is Standing.ABOVE
    joint = gas_note("C2H2", 30, joint_tap_changer=True)
    assert joint.typical[1].standing is Standing.BELOW
    assert joint.explain
    assert not gas_note("C2H2", 2).explain
    assert not gas_note("H2", 100).explain


@given(st.sampled_from(sorted(IEC_TYPICAL)), st.floats(0, 1e6), st.booleans())
def test_no_gas_ever_releases_anything(gas, content, joint):
    note = gas_note(gas, content, joint_tap_changer=joint)
    assert "It releases nothing" in note.warning
    assert "new baseline" in note.afterwards
    assert not hasattr(note, "released")
