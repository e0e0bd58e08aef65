"""Water that the oil carries off: the rate, how well it is known, and what the probes hide."""

from math import sqrt
from typing import Annotated

from fieldapp.engineering.validity import require

CubicMetrePerSecond = Annotated[float, "flow"]
KilogramPerCubicMetre = Annotated[float, "density"]
KilogramPerSecond = Annotated[float, "mass flow"]
WaterContent = Annotated[float, "water content"]
Share = Annotated[float, "share"]

WETTEST_OIL = 0.003
LEAST_DIFFERENCE = 0.1e-6
GREATEST_FLOW = 0.005


def removal_rate(
    *,
    flow: CubicMetrePerSecond,
    density: KilogramPerCubicMetre,
    inlet_water: WaterContent,
    outlet_water: WaterContent,
) -> KilogramPerSecond:
    """Return the water that the cartridges take out of the oil.

    Parameters
    ----------
    flow : oil flow through the cartridges [m³/s]
    density : density of the oil at the flow meter's temperature [kg/m³]
    inlet_water : water content before the cartridges [kg/kg]
    outlet_water : water content after them, at the same time [kg/kg]

    Returns
    -------
    mass flow [kg/s]; below zero the cartridges give water back: stop

    Valid for
    ---------
    flow 0 to 0.005 m³/s, density 750 to 1000 kg/m³, water contents 0 to 0.003 kg/kg

    Source
    ------
    Mass balance of water over the cartridges.

    Examples
    --------
    >>> rate = removal_rate(flow=10/60_000, density=870, inlet_water=20e-6, outlet_water=5e-6)
    >>> round(rate * 3600 * 1000, 2)
    7.83
    """
    require("flow", flow, 0, GREATEST_FLOW)
    require("density", density, 750, 1000)
    require("inlet_water", inlet_water, 0, WETTEST_OIL)
    require("outlet_water", outlet_water, 0, WETTEST_OIL)
    return flow * density * (inlet_water - outlet_water)


def removal_rate_uncertainty(
    *,
    difference: WaterContent,
    probe_uncertainty: WaterContent,
    scale_uncertainty: Share,
    flow_uncertainty: Share,
    density_uncertainty: Share,
) -> Share:
    """Return the relative uncertainty of a removal rate; all uncertainties with one k.

    Parameters
    ----------
    difference : inlet less outlet water content, after the probe zero [kg/kg]
    probe_uncertainty : uncertainty of one probe, not shared with the other [kg/kg]
    scale_uncertainty : relative uncertainty that both probes share, such as a new-oil curve [-]
    flow_uncertainty : relative uncertainty of the flow [-]
    density_uncertainty : relative uncertainty of the density [-]

    Returns
    -------
    share of the rate [-], with the k of what was given

    Valid for
    ---------
    difference 0.1e-6 to 0.003 kg/kg, probe_uncertainty 0 to 0.001 kg/kg, relative uncertainties
    0 to 1

    Source
    ------
    JCGM 100:2008, 5.1.2, law of propagation for a product. A probe zero does not remove the
    scale: only a laboratory pair shows it (common practice, no source).

    Examples
    --------
    >>> share = removal_rate_uncertainty(difference=10e-6, probe_uncertainty=1e-6,
    ...     scale_uncertainty=0, flow_uncertainty=0.02, density_uncertainty=0.003)
    >>> round(share * 100, 1)
    14.3
    """
    require("difference", difference, LEAST_DIFFERENCE, WETTEST_OIL)
    require("probe_uncertainty", probe_uncertainty, 0, 0.001)
    require("scale_uncertainty", scale_uncertainty, 0, 1)
    require("flow_uncertainty", flow_uncertainty, 0, 1)
    require("density_uncertainty", density_uncertainty, 0, 1)
    of_difference = sqrt(2) * probe_uncertainty / difference
    terms = (of_difference, scale_uncertainty, flow_uncertainty, density_uncertainty)
    return sqrt(sum(term**2 for term in terms))


def difference_after_zero(
    *,
    inlet_water: WaterContent,
    outlet_water: WaterContent,
    inlet_in_bypass: WaterContent,
    outlet_in_bypass: WaterContent,
) -> WaterContent:
    """Return inlet less outlet water content, freed of what the probes differ on the same oil.

    Parameters
    ----------
    inlet_water : inlet probe in work [kg/kg]
    outlet_water : outlet probe in work [kg/kg]
    inlet_in_bypass : inlet probe with both in the same oil, cartridges bypassed [kg/kg]
    outlet_in_bypass : outlet probe at the same time [kg/kg]

    Returns
    -------
    water content [kg/kg]; below zero when the cartridges give water back

    Valid for
    ---------
    all 0 to 0.003 kg/kg; the zero is an offset: it does not show a wrong scale

    Source
    ------
    Zero correction of a pair of probes (common practice, no source).

    Examples
    --------
    >>> found = difference_after_zero(inlet_water=19.4e-6, outlet_water=3.0e-6,
    ...                               inlet_in_bypass=7.6e-6, outlet_in_bypass=7.0e-6)
    >>> round(found * 1e6, 1)
    15.8
    """
    require("inlet_water", inlet_water, 0, WETTEST_OIL)
    require("outlet_water", outlet_water, 0, WETTEST_OIL)
    require("inlet_in_bypass", inlet_in_bypass, 0, WETTEST_OIL)
    require("outlet_in_bypass", outlet_in_bypass, 0, WETTEST_OIL)
    return (inlet_water - outlet_water) - (inlet_in_bypass - outlet_in_bypass)


def dryer_efficiency(*, inlet_water: WaterContent, outlet_water: WaterContent) -> Share:
    """Return the share of the oil's water that one pass through the cartridges takes.

    Parameters
    ----------
    inlet_water : water content before the cartridges [kg/kg]
    outlet_water : water content after them [kg/kg]

    Returns
    -------
    share [-]; below zero the cartridges give water back: stop

    Valid for
    ---------
    inlet_water 1e-6 to 0.003 kg/kg, outlet_water 0 to 0.003 kg/kg; both at one temperature,
    never from relative saturations at two

    Source
    ------
    Definition.

    Examples
    --------
    >>> round(dryer_efficiency(inlet_water=19.8e-6, outlet_water=3.0e-6), 2)
    0.85
    """
    require("inlet_water", inlet_water, 1e-6, WETTEST_OIL)
    require("outlet_water", outlet_water, 0, WETTEST_OIL)
    return (inlet_water - outlet_water) / inlet_water
