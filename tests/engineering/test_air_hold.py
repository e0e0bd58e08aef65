"""A hold of several readings: correction, dial and barometer, and the shape of the rise."""

from math import exp

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.air.hold import (
    HoldPoint,
    Shape,
    hold_point_of_dial,
    hold_read,
    rise_uncertainty,
)
from fieldapp.engineering.vacuum import leak_rate, leak_rate_by_dial
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.units import to_si

ROOM = 294.65


def held(pressures, temperatures=None, repeatability=30.0, thermometer=0.6, step=600.0):
    warm = temperatures or [ROOM] * len(pressures)
    points = [
        HoldPoint(step * n, p, t) for n, (p, t) in enumerate(zip(pressures, warm, strict=True))
    ]
    return hold_read(
        points, volume=0.12, repeatability=repeatability, temperature_repeatability=thermometer
    )


def test_hold_is_corrected_and_its_uncertainty_is_that_of_repeatability():
    # 62.0, 63.1, 64.1, 65.2 hPa at 21.5, 22.0, 22.5, 23.0 °C in 120 L (arithmetic by hand:
    # rise 2.87 ± 0.46 hPa, 0.191 hPa L/s)
    found = held([6200, 6310, 6410, 6520], [294.65, 295.15, 295.65, 296.15])
    assert found is not None
    assert found.corrected[-1] == pytest.approx(6487, abs=0.5)
    assert found.rise == pytest.approx(287, abs=0.5)
    assert found.rise_uncertainty == pytest.approx(46, abs=0.5)
    assert found.leak_rate * 10 == pytest.approx(0.191, abs=0.0005)
    # a rate that halves would bend the rise by 1.9 hPa; four points see no less than 2.9
    assert found.shape is Shape.RISING


def test_finer_gauges_tell_that_the_same_rise_is_straight():
    found = held([6200, 6295, 6390, 6485], repeatability=10, thermometer=0.1)
    assert found is not None
    assert found.shape is Shape.STRAIGHT


def test_five_kelvin_alone_are_no_rise():
    # ideal gas: 166.65 hPa, 20 to 25 °C gives +2.84 hPa by itself (arithmetic)
    warm = [293.15 + 5 * n / 3 for n in range(4)]
    found = held([16_665 * t / 293.15 for t in warm], warm)
    assert found is not None
    assert found.rise == pytest.approx(0, abs=1e-9)
    assert found.shape is Shape.STILL


def test_weather_is_no_leak_when_the_barometer_is_read_each_time():
    # a dial of 0.5 inHg marks less when the air outside falls 3 hPa, though nothing leaked
    stations = [84_320, 84_220, 84_120, 84_020]
    points = [
        hold_point_of_dial(time=600.0 * n, vacuum=s - 6200, station_pressure=s, temperature=ROOM)
        for n, s in enumerate(stations)
    ]
    found = hold_read(points, volume=0.12, repeatability=30, temperature_repeatability=0.6)
    assert found is not None
    assert found.rise == pytest.approx(0, abs=1e-9)


@given(
    st.floats(60_000, 108_000), st.floats(-500, 500), st.floats(0, 20_000), st.floats(-300, 300),
    st.floats(280, 310),
)  # fmt: skip
def test_leak_rate_by_dial_is_that_of_the_absolute_pressures(air, weather, left, rise, warm):
    # gauge pressure is absolute less air (ISO 80000-4, 4-14.2): the weather must drop out
    end = max(left + rise, 0)
    common = {"volume": 0.12, "start_temperature": ROOM, "end_temperature": warm, "duration": 1800}
    found = leak_rate_by_dial(
        start_vacuum=air - left, end_vacuum=air + weather - end,
        start_station_pressure=air, end_station_pressure=air + weather, **common,
    )  # fmt: skip
    absolute = leak_rate(start_pressure=left, end_pressure=end, **common)
    assert found == pytest.approx(absolute, abs=1e-9)


def test_dial_does_not_see_what_the_absolute_gauge_sees():
    # 23.07 to 22.97 inHg in 30 min; dial repeats to 0.2 inHg (assumed): nothing can be said
    vacuums = [to_si(v, "inHg") for v in (23.07, 23.04, 23.01, 22.97)]
    points = [
        hold_point_of_dial(time=600.0 * n, vacuum=v, station_pressure=84_320, temperature=ROOM)
        for n, v in enumerate(vacuums)
    ]
    found = hold_read(
        points, volume=0.12, repeatability=to_si(0.2, "inHg"), temperature_repeatability=0.6
    )
    assert found is not None
    assert found.shape is Shape.STILL


def test_three_points_have_no_shape():
    # at least four points (common practice, no source)
    assert held([6200, 6300, 6400]) is None


def test_hold_shorter_than_twenty_minutes_is_refused():
    with pytest.raises(OutsideValidity, match="duration 900"):
        held([6200, 6300, 6400, 6500], step=300)


def test_time_that_stands_is_not_read():
    points = [HoldPoint(t, 6200, ROOM) for t in (0, 600, 600, 1800)]
    assert hold_read(points, volume=0.1, repeatability=1, temperature_repeatability=0) is None


@pytest.mark.parametrize("limit", [500, 1500, 4000])
def test_outgassing_flattens(limit):
    # first-order approach to a limit, time constant 10 min (definition)
    found = held([6200 + limit * (1 - exp(-n)) for n in range(4)])
    assert found is not None
    assert found.shape is Shape.FLATTENING


def test_rise_that_grows_steepens_and_one_that_falls_is_told():
    growing, falling = held([6200, 6250, 6400, 6800]), held([6500, 6400, 6300, 6200])
    assert growing is not None
    assert falling is not None
    assert growing.shape is Shape.STEEPENING
    assert falling.shape is Shape.FALLING
    assert falling.leak_rate < 0


@pytest.mark.parametrize("count", [4, 7])
def test_bend_agrees_with_the_square_term_of_numpy(count):
    # least squares of a parabola, numpy.polynomial: flattens when its bend exceeds k u
    generator = np.random.default_rng(3)
    minutes = np.arange(count) / (count - 1)
    for _ in range(50):
        values = 6200 + 300 * minutes + 60 * minutes * (1 - minutes) * generator.normal()
        square = np.polynomial.Polynomial.fit(minutes, values, 2, domain=[0, 1]).convert().coef[2]
        bow = minutes**2 - np.polyval(np.polyfit(minutes, minutes**2, 1), minutes)
        bent = abs(square) * np.sqrt(np.sum(bow**2)) > 30
        found = held(list(values), thermometer=0.0, step=1800 / (count - 1))
        assert found is not None
        assert (found.shape in {Shape.FLATTENING, Shape.STEEPENING}) == bent


@given(st.floats(1, 200), st.floats(0, 5))
def test_uncertainty_of_a_rise_grows_with_both_gauges(gauge, thermometer):
    def of(more_gauge=0.0, more_thermometer=0.0):
        return rise_uncertainty(
            pressure=6200, temperature=ROOM, repeatability=gauge + more_gauge,
            temperature_repeatability=thermometer + more_thermometer,
        )  # fmt: skip

    assert of() < of(more_gauge=1)
    assert of() < of(more_thermometer=0.5)
    assert of() >= 2**0.5 * gauge * (1 - 1e-12)
