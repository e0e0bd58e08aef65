"""Where each part of the line diagram stands, for a size and a place of the self-closing valves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from fieldapp.screens.kit.diagram.diagram_view import PARTS

TOUCH = 94
SMALL_BELOW = 640
Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""

# The least size each set of measures is made for.
_WIDE_SIZE, _SMALL_SIZE = (692, 372), (498, 240)
# Across, left of where the drawing stretches: tank, valves, bleed.
_WIDE_LEFT = {"tank": 126, "tank_valve": 162, "bleed": 198, "closing": 234, "level": 167}
_SMALL_LEFT = {"tank": 64, "tank_valve": 99, "bleed": 128, "closing": 166, "level": 94}
# Across, right of it. "inlet" is where the hoses meet the skid.
_WIDE_RIGHT = {
    "frame": 356,
    "closing_skid": 334,
    "frame_skid": 290,
    "bypass": 380,
    "skid_valve": 427,
    "inline": 484,
    "vessel": 518,
    "vessel_end": 604,
    "riser": 564,
    "vessel_bleed": 537,
    "vacuum_valve": 596,
    "vacuum_pump": 642,
    "gauge": 648,
    "switch": 513,
    "supply": 571,
}
_SMALL_RIGHT = {
    "frame": 260,
    "closing_skid": 237,
    "frame_skid": 222,
    "bypass": 278,
    "skid_valve": 321,
    "inline": 364,
    "vessel": 388,
    "vessel_end": 446,
    "riser": 418,
    "vessel_bleed": 436,
    "vacuum_valve": 378,
    "vacuum_pump": 302,
    "gauge": 474,
    "switch": 385,
    "supply": 474,
}


@dataclass(frozen=True, slots=True)
class Measures:
    """Sizes of symbols: half lengths of valves, radii, bores of pipes."""

    valve: tuple[float, float]
    bleed: tuple[float, float]
    vacuum_valve: tuple[float, float]
    pump: float
    vacuum_pump: float
    instrument: float
    proof: float
    bore: float
    driver: tuple[float, float, float]
    supply: float


WIDE = Measures((24, 17), (13, 10), (16, 12), 25, 21, 24, 10, 22, (9, 24, 18), 13)
SMALL = Measures((16, 12), (11, 9), (13, 10), 16.5, 15, 17.5, 9, 18, (7, 16, 15), 13)


@dataclass(frozen=True, slots=True)
class Plan:
    """The drawing's measures: heights of the runs, places across, and the box of each part."""

    width: float
    height: float
    small: bool
    measures: Measures
    top: float
    low: float
    across: Mapping[str, float]
    boxes: Mapping[str, Box]

    @property
    def middle(self) -> float:
        """Half way between the two runs."""
        return (self.top + self.low) / 2

    def centre(self, part: str) -> tuple[float, float]:
        """The middle of a part's symbol."""
        left, top, right, bottom = self.boxes[part]
        return (left + right) / 2, (top + bottom) / 2

    def part_at(self, x: float, y: float) -> str | None:
        """The part whose touch area holds a point; where areas meet, the nearest part."""
        holding = [part for part in PARTS if _holds(touch_area(self.boxes[part]), x, y)]
        return min(holding, key=lambda part: _distance(self.boxes[part], x, y), default=None)


def plan_of(width: float, height: float, isolation_at: str) -> Plan:
    """The plan for a widget's size in dp; more room makes the hoses longer."""
    small = width < SMALL_BELOW
    least = _SMALL_SIZE if small else _WIDE_SIZE
    measures = SMALL if small else WIDE
    across = _across(small, max(0.0, width - least[0]), isolation_at)
    top, below = (84.0, 62.0) if small else (104.0, 92.0)
    low = max(height, least[1] * 0.9) - below
    boxes = _boxes(across, measures, top, low, small=small)
    return Plan(
        width, height, small, measures, top, low, MappingProxyType(across), MappingProxyType(boxes)
    )


def cartridges(plan: Plan) -> tuple[Box, ...]:
    """The boxes of cartridges A and B; the word of what the vessel holds stands between."""
    left, top, right, bottom = plan.boxes["vessel"]
    edge, gap = (9, 10) if plan.small else (15, 38)
    high = (bottom - top - 2 * edge - gap) / 2
    return tuple(
        (left + edge, start, right - edge, start + high)
        for start in (top + edge, top + edge + high + gap)
    )


def plate_of(plan: Plan) -> Box:
    """The paper plate on the tank."""
    right = plan.across["tank"]
    half = 56 if plan.small else 70
    middle = plan.middle + (-5 if plan.small else -2)
    edge = 3 if plan.small else 7
    return (2 + edge, middle - half, right - edge, middle + half)


def proof_place(plan: Plan, part: str) -> tuple[float, float]:
    """Where the mark of proof of a part stands."""
    x, y = plan.centre(part)
    radius = plan.measures.instrument * 0.8
    if part == "tray":
        return plan.boxes["tray"][0] + (13 if not plan.small else 10), y + 1
    if part == "supply":
        if not plan.small:
            return x - plan.measures.supply - 10, y
        return x - plan.measures.supply * 0.9, y - plan.measures.supply * 0.95
    if plan.small and part == "flow_switch":
        return x + 22, y + 3
    return x + radius, y - radius


def touch_area(box: Box) -> Box:
    """The box of a part, made at least 94 by 94 about its middle."""
    left, top, right, bottom = box
    wider = max(0.0, TOUCH - (right - left)) / 2
    higher = max(0.0, TOUCH - (bottom - top)) / 2
    return (left - wider, top - higher, right + wider, bottom + higher)


def _across(small: bool, extra: float, isolation_at: str) -> dict[str, float]:  # noqa: FBT001
    left, right = (_SMALL_LEFT, _SMALL_RIGHT) if small else (_WIDE_LEFT, _WIDE_RIGHT)
    across: dict[str, float] = {
        **left,
        **{name: place + extra for name, place in right.items()},
    }
    if isolation_at == "skid":
        across["closing"], across["frame"] = across["closing_skid"], across["frame_skid"]
        across["hose"] = across["tank_valve"]
    else:
        across["hose"] = across["closing"]
    across["mouth"] = across["closing"] if isolation_at == "skid" else across["bypass"]
    return across


def _boxes(
    across: Mapping[str, float], measures: Measures, top: float, low: float, *, small: bool
) -> dict[str, Box]:
    middle = (top + low) / 2
    boxes: dict[str, Box] = {}
    for run, y in (("suction", low), ("return", top)):
        for place in ("tank", "closing", "skid"):
            key = "closing" if place == "closing" else f"{place}_valve"
            boxes[f"{run}_{place}_valve"] = _about(across[key], y, *measures.valve)
        start = across["hose"] + measures.valve[0]
        half = measures.bore / 2
        valve = across["closing"] - measures.valve[0]
        end = min(across["frame"], valve) if valve > start else across["frame"]
        boxes[f"{run}_hose"] = (start, y - half, end, y + half)
    high, wide = measures.valve if not small else (14, 11)
    bypass_y = low - (66 if not small else 48)
    boxes["bypass_valve"] = _about(across["bypass"], bypass_y, wide, high)
    boxes |= _bleeds(across, measures, top, small=small)
    boxes |= _vacuum(across, measures, top, small=small)
    boxes["oil_pump"] = _about(across["inline"], low, measures.pump, measures.pump)
    rise = 22 if small else 28
    boxes["vessel"] = (
        across["vessel"],
        top - rise,
        across["vessel_end"],
        low + (16 if small else 26),
    )
    boxes |= _instruments(across, measures, top, low, small=small)
    boxes |= _edges(across, measures, top, low, small=small)
    boxes["level_contact"] = _about(
        across["level"], middle + (12 if small else 0), *_round(measures)
    )
    return {part: boxes[part] for part in PARTS}


def _bleeds(
    across: Mapping[str, float], measures: Measures, top: float, *, small: bool
) -> dict[str, Box]:
    length, high = measures.bleed
    at_return, at_vessel = (50.0, 42.0) if small else (top - 40, top - 52)
    return {
        "return_bleed": _about(across["bleed"], at_return, high, length),
        "vessel_bleed": _about(across["vessel_bleed"], at_vessel, high, length),
    }


def _vacuum(
    across: Mapping[str, float], measures: Measures, top: float, *, small: bool
) -> dict[str, Box]:
    y = 22.0 if small else top - 58
    radius = measures.vacuum_pump
    return {
        "vacuum_valve": _about(across["vacuum_valve"], y, *measures.vacuum_valve),
        "vacuum_pump": _about(across["vacuum_pump"], y, radius, radius),
    }


def _instruments(
    across: Mapping[str, float], measures: Measures, top: float, low: float, *, small: bool
) -> dict[str, Box]:
    size = _round(measures)
    gauge, switch = (top + 2, top + 44) if small else (low - 44, top + 48)
    flow = low + (36 if small else 52)
    return {
        "vacuum_gauge": _about(across["gauge"], gauge, *size),
        "pressure_switch": _about(across["gauge"], switch, *size),
        "flow_switch": _about(across["switch"], flow, *size),
        "air_detector": _about(across["inline"], top, *size),
    }


def _edges(
    across: Mapping[str, float], measures: Measures, top: float, low: float, *, small: bool
) -> dict[str, Box]:
    frame = across["frame"]
    supply = low - 12 if small else low + 64
    room = (frame - 136, 2.0, frame - 2, 24.0) if small else _room(frame, (top + low) / 2)
    end = across["gauge"] + (20 if small else 40)
    tray = low + (58 if small else 78)
    return {
        "tray": (frame + 4, tray - 30, min(across["switch"] - 22, end), tray),
        "supply": _about(across["supply"], supply, measures.supply, measures.supply),
        "bond": (across["tank"] - 16, tray - 26, frame - 4, tray + 4),
        "control_room": room,
    }


def _room(frame: float, middle: float) -> Box:
    return (frame - 78, middle - 38, frame - 2, middle + 34)


def _round(measures: Measures) -> tuple[float, float]:
    return measures.instrument, measures.instrument


def _about(x: float, y: float, half_width: float, half_height: float) -> Box:
    return (x - half_width, y - half_height, x + half_width, y + half_height)


def _holds(box: Box, x: float, y: float) -> bool:
    return box[0] <= x <= box[2] and box[1] <= y <= box[3]


def _distance(box: Box, x: float, y: float) -> tuple[float, float]:
    aside = max(box[0] - x, 0.0, x - box[2])
    above = max(box[1] - y, 0.0, y - box[3])
    from_middle = abs(x - (box[0] + box[2]) / 2) + abs(y - (box[1] + box[3]) / 2)
    return (aside * aside + above * above, from_middle)
