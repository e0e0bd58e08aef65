"""The rest test: how much water comes back out of thick board once the dryer stands."""

from typing import Annotated

from fieldapp.engineering.validity import require

Share = Annotated[float, "share"]

COLDEST = 313.15
AS_BEFORE = 5.0
DAY = 86_400.0
WINDOWS = ((3 * DAY, 4 * DAY), (6.5 * DAY, 8 * DAY), (21 * DAY, 28 * DAY))

OFF_TIME = "taken {:.1f} days after the dryer stopped: sample at 72 h, at 7 days, at 21 to 28 days"
COLD = "the oil was below 40 °C: sample again with oil at 40 °C or more"
OTHER_TEMPERATURE = "the oil was {:.1f} K from the temperature before drying: sample within 5 K"


def rebound(*, before: Share, at_72_hours: Share, now: Share) -> Share:
    """Return the share of the drying that came back after the dryer stopped.

    Parameters
    ----------
    before : water in paper before drying [-]
    at_72_hours : water in paper from a sample 72 h after the dryer stopped [-]
    now : water in paper from a later sample at the same cock [-]

    Returns
    -------
    share of what drying took [-]; below zero it went on drying

    Valid for
    ---------
    all 0.005 to 0.05, before at least 0.001 above at_72_hours; later samples at 7 or 21 to 28
    days, oil at 40 °C or more and within 5 K of before drying

    Source
    ------
    Ratio (now - at 72 h)/(before - at 72 h): common practice, no source.

    Examples
    --------
    >>> round(rebound(before=0.0296, at_72_hours=0.0204, now=0.0215) * 100)
    12
    """
    require("at_72_hours", at_72_hours, 0.005, 0.05)
    require("before", before, at_72_hours + 0.001, 0.05)
    require("now", now, 0.005, 0.05)
    return (now - at_72_hours) / (before - at_72_hours)


def obstacles_to_rest(
    *, since_drying: float, temperature: float, temperature_before: float
) -> tuple[str, ...]:
    """Return why a sample does not count for the rest test; empty if it does [s, K, K].

    >>> obstacles_to_rest(since_drying=7.2 * DAY, temperature=322, temperature_before=325)
    ()
    """
    off = temperature - temperature_before
    on_time = any(early <= since_drying <= late for early, late in WINDOWS)
    found = (
        ("" if on_time else OFF_TIME.format(since_drying / DAY)),
        ("" if temperature >= COLDEST else COLD),
        ("" if abs(off) <= AS_BEFORE else OTHER_TEMPERATURE.format(off)),
    )
    return tuple(reason for reason in found if reason)
