"""The zones of a limit ruler and the place of a value on it."""

from __future__ import annotations

from dataclasses import dataclass

# Shares of the ruler's width, chosen so that the words fit above their zones.
_INSIDE, _NEAR, _OUTSIDE = 0.43, 0.215, 0.355
_BOTH_INSIDE, _BOTH_NEAR, _BOTH_OUTSIDE = 0.17, 0.225, 0.19


@dataclass(frozen=True, slots=True)
class Zone:
    """A stretch of the ruler: what it means, from which value to which, and its share of width."""

    kind: str  # "inside", "near" or "outside"
    low: float
    high: float
    share: float


def zones(lower: float | None, upper: float | None, guard: float) -> tuple[Zone, ...]:
    """The zones of a ruler with one limit or two, from the left; guard is the width of too near."""
    if lower is not None and upper is not None:
        return _between(lower, upper, guard)
    if upper is not None:
        return _below(upper, guard)
    if lower is not None:
        mirrored = _below(-lower, guard)
        return tuple(
            Zone(zone.kind, -zone.high, -zone.low, zone.share) for zone in reversed(mirrored)
        )
    return ()


def place(value: float, ruler: tuple[Zone, ...]) -> float:
    """The share of the ruler's width at which a value stands; its ends hold what lies beyond."""
    done = 0.0
    for zone in ruler:
        if value < zone.high:
            inside = (value - zone.low) / (zone.high - zone.low) if zone.high > zone.low else 0.0
            return done + zone.share * max(0.0, inside)
        done += zone.share
    return done


def _below(limit: float, guard: float) -> tuple[Zone, ...]:
    if not guard:
        span = abs(limit) / 4 or 1.0
        return (
            Zone("inside", limit - span * 1.8, limit, 0.64),
            Zone("outside", limit, limit + span, 0.36),
        )
    unit = guard / _NEAR
    return (
        Zone("inside", limit - guard - unit * _INSIDE, limit - guard, _INSIDE),
        Zone("near", limit - guard, limit, _NEAR),
        Zone("outside", limit, limit + unit * _OUTSIDE, _OUTSIDE),
    )


def _between(lower: float, upper: float, guard: float) -> tuple[Zone, ...]:
    guard = min(guard, (upper - lower) / 2)
    beyond = guard or (upper - lower) / 4 or 1.0
    if not guard:
        return (
            Zone("outside", lower - beyond, lower, 0.25),
            Zone("inside", lower, upper, 0.5),
            Zone("outside", upper, upper + beyond, 0.25),
        )
    return (
        Zone("outside", lower - beyond, lower, _BOTH_OUTSIDE),
        Zone("near", lower, lower + guard, _BOTH_NEAR),
        Zone("inside", lower + guard, upper - guard, _BOTH_INSIDE),
        Zone("near", upper - guard, upper, _BOTH_NEAR),
        Zone("outside", upper, upper + beyond, _BOTH_OUTSIDE),
    )
