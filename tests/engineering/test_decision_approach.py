"""Approach distances for planning, against the American table and its equation."""

from math import ceil, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.decision.approach import (
    SUPERSEDED_ROWS,
    american_distance,
    doubt_about,
    european_distances,
)
from fieldapp.engineering.validity import OutsideValidity


def table_r_3(volts):
    """29 CFR 1910.269, table R-3: D = 0.3048 (C + a) V T + 0.31 (value from memory)."""
    overvoltage = 3.5 if volts <= 420e3 else 3.0 if volts <= 550e3 else 2.5
    kilovolt = volts / 1000 / sqrt(3)
    peak = overvoltage * kilovolt * sqrt(2)
    steps = ((635, 0.0), (915, (peak - 635) / 140_000), (1050, (peak - 645) / 135_000))
    saturation = next((a for highest, a in steps if peak <= highest), (peak - 675) / 125_000)
    return 0.3048 * (0.011 + saturation) * kilovolt * overvoltage + 0.31


@pytest.mark.parametrize(
    ("kilovolt", "metres"),
    [(121, 1.13), (145, 1.30), (169, 1.46), (242, 2.01), (362, 3.41), (420, 4.25), (550, 5.07),
     (800, 6.88)],
)  # fmt: skip
def test_distance_is_that_of_the_table_and_of_its_equation(kilovolt, metres):
    # 29 CFR 1910.269, table R-7 of 2014 (values from memory), T 3.5, 3.0, 2.5
    found = american_distance(voltage=kilovolt * 1000, elevation=0).distance
    assert found == metres
    assert ceil(table_r_3(kilovolt * 1000) * 100) / 100 == metres


@pytest.mark.parametrize(
    ("kilovolt", "metres"),
    [(0.301, 0.33), (0.75, 0.33), (0.751, 0.63), (5, 0.63), (5.1, 0.65), (15, 0.65), (15.1, 0.77),
     (36, 0.77), (46, 0.84), (46.1, 1.00), (72.5, 1.00), (72.6, 1.13)],
)  # fmt: skip
def test_distance_at_lower_voltages(kilovolt, metres):
    # 29 CFR 1910.269, table R-6 of 2014 (values from memory)
    assert american_distance(voltage=kilovolt * 1000, elevation=900).distance == metres


@pytest.mark.parametrize(
    ("elevation", "factor"),
    [(900, 1.0), (901, 1.02), (1200, 1.02), (1500, 1.05), (1501, 1.08), (1800, 1.08), (2100, 1.11),
     (2400, 1.14), (2700, 1.17), (3000, 1.20), (3600, 1.25)],
)  # fmt: skip
def test_altitude_factor(elevation, factor):
    # 29 CFR 1910.269, table R-5 (values from memory; the duty above 900 m is in the notes)
    assert american_distance(voltage=145_000, elevation=elevation).altitude_factor == factor


def test_distance_in_the_mountains_is_rounded_up():
    # 1.30 x 1.05 = 1.365 (arithmetic)
    assert american_distance(voltage=123_000, elevation=1500).distance == 1.37


@pytest.mark.parametrize(
    ("kilovolt", "old"),
    [(121, 0.95), (145, 1.09), (169, 1.22), (242, 1.59), (362, 2.59), (550, 3.42), (800, 4.53)],
)
def test_superseded_figure_is_never_given_and_is_known_when_seen(kilovolt, old):
    # the table before 2014, still on a public page of the authority
    volts = kilovolt * 1000
    assert (volts, old) in SUPERSEDED_ROWS
    assert american_distance(voltage=volts, elevation=0).distance > old * 1.15
    assert "superseded" in doubt_about(distance=old, voltage=volts, elevation=0)


def test_distance_that_is_short_or_long_enough():
    assert "shorter than" in doubt_about(distance=1.2, voltage=145_000, elevation=0)
    assert not doubt_about(distance=1.30, voltage=145_000, elevation=0)
    assert "shorter" in doubt_about(distance=0.9, voltage=66_000, elevation=0)


@pytest.mark.parametrize(
    ("volts", "zones"),
    [(110_000, [1.00, 2.00]), (20_000, [0.22, 1.22]), (22_000, []), (400_000, [])],
)
def test_european_zones_are_given_only_where_the_row_is_known(volts, zones):
    # EN 50110-1 (as reproduced)
    assert [zone.distance for zone in european_distances(nominal_voltage=volts)] == zones


@given(st.floats(301, 800_000), st.floats(-430, 3600))
def test_every_distance_says_that_the_owner_s_table_governs(voltage, elevation):
    found = american_distance(voltage=voltage, elevation=elevation)
    assert "owner’s table governs" in found.warning
    assert "older, shorter table" in found.warning
    assert found.distance >= american_distance(voltage=voltage, elevation=0).distance


@pytest.mark.parametrize(("volts", "metres"), [(300, 0), (800_001, 0), (145_000, 3601)])
def test_distance_outside_the_tables_is_refused(volts, metres):
    with pytest.raises(OutsideValidity):
        american_distance(voltage=volts, elevation=metres)
