"""Air left, let in and dissolved, against the gas laws and two tables of solubility."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.air.gas import (
    air_a_day,
    air_saturation,
    dissolved_at,
    gas_to_bleed,
    oil_to_dissolve,
    residual_air,
)
from fieldapp.engineering.air.solubility import (
    GASES,
    air_by_ostwald,
    air_by_percent_table,
    disagreement_in_words,
)
from fieldapp.engineering.validity import OutsideValidity

ATMOSPHERE = 101_325
INCH_OF_MERCURY = 3386.389  # NIST SP 811 (2008), appendix B.8


@pytest.mark.parametrize(
    ("rate", "litres"),
    [
        # V dP/dt in hPa L/s, litres at one atmosphere a day (arithmetic, value from memory)
        (60 * 5 / 900, 28.4),
        (60 * 3.386 / 900, 19.2),
        (60 * 33.864 / 1800, 96),
        (0.191, 16.3),
    ],
)
def test_air_that_a_leak_lets_in_each_day(rate, litres):
    a_day = air_a_day(leak_rate=rate / 10) * 86_400 * 1000
    assert a_day == pytest.approx(litres, rel=5e-3)


@pytest.mark.parametrize(("gauge", "litres"), [(25, 9.87), (26, 7.86)])
def test_air_left_in_sixty_litres(gauge, litres):
    # V P/101325 (Boyle), inHg below 101 325 Pa
    pressure = ATMOSPHERE - gauge * INCH_OF_MERCURY
    assert residual_air(volume=0.06, pressure=pressure) * 1000 == pytest.approx(litres, abs=0.05)


@pytest.mark.parametrize(
    ("pressure", "air", "gas"), [(6_200, 7.34, 6.43), (16_665, 19.74, 17.3)]
)  # 120 L under oil at 1156 hPa absolute, Boyle (arithmetic)
def test_air_left_and_the_room_it_takes_under_oil(pressure, air, gas):
    left = residual_air(volume=0.12, pressure=pressure)
    assert left * 1000 == pytest.approx(air, abs=0.01)
    assert gas_to_bleed(air=left, pressure=115_620) * 1000 == pytest.approx(gas, abs=0.02)


@pytest.mark.parametrize(
    ("held", "litres"), [(0, 98), (0.02, 122), (0.05, 195), (0.08, 477), (0.095, 1740)]
)
def test_oil_that_dissolves_what_25_inches_leave_in_sixty_litres(held, litres):
    # air/(saturation - held), saturation 10.07 % at sea level (arithmetic, value from memory)
    found = oil_to_dissolve(air=0.00987, saturation=0.1007, held=held) * 1000
    assert found == pytest.approx(litres, rel=0.01)


def test_saturation_goes_with_the_air_pressure():
    # 10 % at sea level, 8.4 % at 1500 m (Henry): 843.2 hPa measured
    here = air_saturation(sea_level_saturation=air_by_percent_table(), station_pressure=84_320)
    assert here * 100 == pytest.approx(8.38, abs=0.005)


def test_oil_that_is_full_takes_nothing():
    with pytest.raises(OutsideValidity, match="held"):
        oil_to_dissolve(air=0.007, saturation=0.0838, held=0.0838)


@pytest.mark.parametrize(
    ("gas", "percent"),
    [("H2", 7), ("N2", 8.6), ("CO", 9), ("O2", 16), ("CH4", 30), ("CO2", 120), ("C2H6", 280),
     ("C2H4", 280), ("C2H2", 400)],
)  # fmt: skip
def test_percent_by_volume_is_that_of_the_table(gas, percent):
    # DiGiorgio 2005, 25 °C, 760 Torr of the gas, as reproduced
    assert GASES[gas].percent == percent


@pytest.mark.parametrize(
    ("gas", "coefficient"),
    [("H2", 0.056), ("N2", 0.091), ("CO", 0.132), ("O2", 0.172), ("CH4", 0.429), ("CO2", 1.09),
     ("C2H6", 2.40), ("C2H4", 1.76), ("C2H2", 1.22)],
)  # fmt: skip
def test_ostwald_coefficient_is_that_of_iec(gas, coefficient):
    # IEC 60567 / IEC 60599, averages over oils, 25 °C (value from memory)
    assert GASES[gas].ostwald == coefficient
    held = dissolved_at(ostwald=coefficient, partial_pressure=ATMOSPHERE)
    assert held == pytest.approx(coefficient)


def test_air_at_saturation_is_the_trade_s_ten_percent_by_both_tables():
    # 0.7808 x 8.6 + 0.2095 x 16 = 10.07 % (arithmetic from the table)
    assert air_by_percent_table() * 100 == pytest.approx(10.07, abs=0.005)
    assert air_by_ostwald() / air_by_percent_table() == pytest.approx(1.06, abs=0.005)


def test_tables_that_disagree_say_so():
    # acetylene three times, ethylene 1.6 times; nitrogen and oxygen agree
    assert GASES["C2H2"].disagreement == pytest.approx(3.28, abs=0.01)
    assert GASES["C2H4"].disagreement == pytest.approx(1.59, abs=0.01)
    assert disagreement_in_words("O2").endswith("they agree.")
    assert "1.6 times as much. Take IEC." in disagreement_in_words("C2H4")
    assert "0.7 of it. Take IEC." in disagreement_in_words("CH4")


@given(st.floats(0.001, 100), st.floats(0, 100_000), st.floats(20_000, 1_200_000))
def test_gas_under_oil_keeps_its_amount(volume, pressure, above):
    gas = gas_to_bleed(air=residual_air(volume=volume, pressure=pressure), pressure=above)
    assert gas * above == pytest.approx(volume * pressure)


@given(st.floats(0.02, 0.2), st.floats(0, 0.98))
def test_fuller_oil_takes_more_of_it(saturation, share):
    less = oil_to_dissolve(air=0.01, saturation=saturation, held=saturation * share)
    more = oil_to_dissolve(air=0.01, saturation=saturation, held=saturation * (share + 0.01))
    assert less < more
