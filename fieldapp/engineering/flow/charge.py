"""Static charge that oil picks up in a fine filter: how fast it goes, how long the oil rests."""

from typing import Annotated

from fieldapp.engineering.validity import require

SiemensPerMetre = Annotated[float, "conductivity"]
PlainNumber = Annotated[float, "plain number"]
CubicMetre = Annotated[float, "volume"]
CubicMetrePerSecond = Annotated[float, "flow"]
Second = Annotated[float, "time"]

VACUUM_PERMITTIVITY = 8.8541878128e-12  # CODATA 2018


def charge_relaxation(
    *, conductivity: SiemensPerMetre, relative_permittivity: PlainNumber
) -> Second:
    """Return the time in which charge in the oil falls to 37 %; cold, dry oil keeps it longest.

    Parameters
    ----------
    conductivity : conductivity of the oil at its temperature [S/m]
    relative_permittivity : of the oil; mineral oil 2.2 [-]

    Returns
    -------
    time [s]

    Valid for
    ---------
    conductivity 1e-15 to 1e-8 S/m, relative_permittivity 1.5 to 5; below about 1 pS/m charge
    goes faster than this says

    Source
    ------
    τ = ε0 εr/σ, e.g. NFPA 77, annex A (value from memory).

    Examples
    --------
    >>> round(charge_relaxation(conductivity=1e-12, relative_permittivity=2.2), 2)
    19.48
    """
    require("conductivity", conductivity, 1e-15, 1e-8)
    require("relative_permittivity", relative_permittivity, 1.5, 5)
    return VACUUM_PERMITTIVITY * relative_permittivity / conductivity


def resting_volume(*, flow: CubicMetrePerSecond, resting_time: Second) -> CubicMetre:
    """Return the room that oil needs behind a fine filter, to rest for a time.

    Parameters
    ----------
    flow : oil flow [m³/s]
    resting_time : how long it is to rest; 30 s by practice [s]

    Returns
    -------
    volume [m³]

    Valid for
    ---------
    flow 0 to 0.02 m³/s, resting_time 0 to 3600 s

    Source
    ------
    Flow times time; 30 s behind a fine filter NFPA 77 and API RP 2003 practice (value from
    memory).

    Examples
    --------
    >>> round(resting_volume(flow=20 / 60000, resting_time=30) * 1000, 6)
    10.0
    """
    require("flow", flow, 0, 0.02)
    require("resting_time", resting_time, 0, 3600)
    return flow * resting_time


def resting_time(*, volume: CubicMetre, flow: CubicMetrePerSecond) -> Second:
    """Return how long oil rests in a volume, such as the hose behind a fine filter.

    Parameters
    ----------
    volume : volume that the oil runs through [m³]
    flow : oil flow [m³/s]

    Returns
    -------
    time [s]

    Valid for
    ---------
    volume 0 to 100 m³, flow 1e-6 to 0.02 m³/s; no short cut through the volume

    Source
    ------
    Volume over flow.

    Examples
    --------
    >>> round(resting_time(volume=0.00608, flow=12 / 60000), 1)
    30.4
    """
    require("volume", volume, 0, 100)
    require("flow", flow, 1e-6, 0.02)
    return volume / flow
