"""Friction and what hoses take, against the library fluids and Hagen-Poiseuille."""

from math import pi

import fluids
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.flow.friction import (
    Regime,
    friction,
    friction_to_plan_with,
    laminar_friction,
    reynolds_number,
    turbulent_friction,
)
from fieldapp.engineering.flow.pressure_drop import (
    hose_pressure_drop,
    pressure_gradient,
    pump_inlet_pressure,
    suction_head_available,
)
from fieldapp.engineering.validity import OutsideValidity

LITRE_A_MINUTE = 1 / 60_000


def gradient(litres, millimetres, viscosity, density, roughness=0.0):
    return pressure_gradient(
        flow=litres * LITRE_A_MINUTE, bore=millimetres / 1000, roughness=roughness,
        viscosity=viscosity * 1e-6, density=density,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("litres", "bore", "viscosity", "reynolds"),
    [(20, 25.4, 9.9, 1688), (20, 19.05, 9.9, 2250), (20, 12.7, 5.0, 6684), (20, 25.4, 22.44, 745),
     (20, 25.4, 70.51, 237), (20, 25.4, 5.385, 3103)],
)  # fmt: skip
def test_reynolds_number(litres, bore, viscosity, reynolds):
    # Re = v D/ν (arithmetic, value from memory); the library fluids gives the same
    found = reynolds_number(
        flow=litres * LITRE_A_MINUTE, bore=bore / 1000, viscosity=viscosity * 1e-6
    )
    assert found == pytest.approx(reynolds, rel=5e-3)
    speed = litres * LITRE_A_MINUTE / (pi * (bore / 1000) ** 2 / 4)
    assert found == pytest.approx(fluids.Reynolds(speed, bore / 1000, nu=viscosity * 1e-6))


@pytest.mark.parametrize(
    ("litres", "bore", "viscosity", "density", "pascal"),
    [
        (20, 25.4, 9.90, 869.0, 280.7),
        (20, 25.4, 70.51, 895.0, 2059.2),
        (20, 19.05, 22.44, 882.0, 2041.0),
        (10, 25.4, 149.67, 901.5, 2201.3),
        (20, 25.4, 22.44, 882.0, 646),
    ],
)
def test_laminar_pressure_drop_is_that_of_hagen_poiseuille(
    litres, bore, viscosity, density, pascal
):
    # Pa/m (arithmetic, value from memory); 128 μ Q/(π D⁴) by another way
    found = gradient(litres, bore, viscosity, density)
    assert found == pytest.approx(pascal, rel=5e-3)
    dynamic = viscosity * 1e-6 * density
    poiseuille = 128 * dynamic * litres * LITRE_A_MINUTE / (pi * (bore / 1000) ** 4)
    assert found == pytest.approx(poiseuille, rel=1e-9)


@pytest.mark.parametrize(("celsius", "pascal"), [(48, 128), (10, 656)])
def test_pressure_drop_at_twelve_litres_a_minute(celsius, pascal):
    # 25.4 mm, oil 0.880 kg/L at 20 °C, ν of Walther (arithmetic by hand)
    viscosity = {48: 7.595, 10: 37.81}[celsius]
    found = gradient(12, 25.4, viscosity, 880 - 0.65 * (celsius - 20))
    assert found == pytest.approx(pascal, rel=6e-3)


@pytest.mark.parametrize(
    ("reynolds", "roughness", "factor"),
    [(1e5, 1e-4, 0.01851), (5e3, 0, 0.03739), (1e4, 1e-3, 0.03238)],
)
def test_turbulent_friction_is_that_of_colebrook(reynolds, roughness, factor):
    # Colebrook solved by the library fluids 1.3.1
    found = turbulent_friction(reynolds=reynolds, relative_roughness=roughness)
    assert found == pytest.approx(factor, rel=2e-3)


@given(st.floats(4000, 1e8), st.floats(0, 0.05))
def test_turbulent_friction_agrees_with_the_library_fluids(reynolds, roughness):
    ours = turbulent_friction(reynolds=reynolds, relative_roughness=roughness)
    assert ours == pytest.approx(fluids.friction.Colebrook(reynolds, roughness), rel=1e-9)


@given(st.floats(1, 2000))
def test_laminar_friction_agrees_with_the_library_fluids(reynolds):
    assert laminar_friction(reynolds=reynolds) == pytest.approx(
        fluids.friction_factor(Re=reynolds, eD=0)
    )


def test_between_laminar_and_turbulent_nobody_knows_and_the_larger_counts():
    # Re 3103 (20 L/min, 25.4 mm, 60 °C): 64/Re gives 0.0206 and must not be used; about 0.043
    found = friction(3103, 0)
    assert found.regime is Regime.BETWEEN
    assert found.low == pytest.approx(0.0206, abs=5e-5)
    assert found.high == pytest.approx(0.043, abs=5e-4)
    assert friction_to_plan_with(reynolds=3103, relative_roughness=0) == found.high
    with pytest.raises(OutsideValidity, match="reynolds 3103"):
        laminar_friction(reynolds=3103)
    with pytest.raises(OutsideValidity, match="reynolds 3103"):
        turbulent_friction(reynolds=3103, relative_roughness=0)


@pytest.mark.parametrize(
    ("reynolds", "regime"),
    [(2300, Regime.LAMINAR), (2301, Regime.BETWEEN), (3999, Regime.BETWEEN),
     (4000, Regime.TURBULENT)],
)  # fmt: skip
def test_flow_changes_its_way_at_2300_and_4000(reynolds, regime):
    assert friction(reynolds, 1e-4).regime is regime


@given(st.floats(1, 1e8), st.floats(0, 0.05))
def test_what_is_planned_with_is_never_less_than_it_may_be(reynolds, roughness):
    found = friction(reynolds, roughness)
    assert found.low <= found.high
    assert friction_to_plan_with(reynolds=reynolds, relative_roughness=roughness) == found.high


@given(st.floats(1, 60), st.floats(2, 1000), st.floats(1.01, 2))
def test_more_flow_takes_more_pressure(litres, viscosity, more):
    assert gradient(litres * more, 25.4, viscosity, 870) > gradient(litres, 25.4, viscosity, 870)


@given(st.floats(2, 60), st.floats(2, 1000), st.floats(1e-6, 1e-4))
def test_rough_hose_takes_no_less(litres, viscosity, roughness):
    smooth = gradient(litres, 25.4, viscosity, 870)
    assert gradient(litres, 25.4, viscosity, 870, roughness) >= smooth


def test_pressure_drop_agrees_with_the_library_fluids():
    # 60 L/min in 19.05 mm at 5 mm²/s: Re 13 368, rubber 0.01 mm; straight pipe by fluids
    flow, bore, roughness = 60 * LITRE_A_MINUTE, 0.01905, 1e-5
    speed = flow / (pi * bore**2 / 4)
    factor = fluids.friction_factor(Re=speed * bore / 5e-6, eD=roughness / bore, Method="Colebrook")
    theirs = fluids.dP_from_K(fluids.K_from_f(factor, L=8, D=bore), rho=860, V=speed)
    ours = hose_pressure_drop(gradient=gradient(60, 19.05, 5, 860, roughness), length=8)
    assert ours == pytest.approx(theirs, rel=1e-3)


@pytest.mark.parametrize(("per_metre", "inlet"), [(128, 30.3), (656, 26.1)])
def test_pump_inlet_with_warm_and_with_cold_oil(per_metre, inlet):
    # 31.3 kPa of oil above the pump, 8 m of hose (arithmetic by hand)
    drop = hose_pressure_drop(gradient=per_metre, length=8)
    assert pump_inlet_pressure(head=31_300, pressure_drop=drop) / 1000 == pytest.approx(
        inlet, abs=0.06
    )


@pytest.mark.parametrize(
    ("air", "above", "loss", "metres"), [(101_325, 4, 10_000, 14.70), (79_495, 1.5, 20_000, 8.47)]
)
def test_suction_head_available(air, above, loss, metres):
    # (Patm + ρ g h - loss)/(ρ g) with 870 kg/m³ (arithmetic, value from memory)
    found = suction_head_available(
        station_pressure=air, oil_above_pump=above, pressure_drop=loss, density=870
    )
    assert found == pytest.approx(metres, abs=0.02)
