"""The four corner angles around the part in question, and the flag that says what to do there."""

from __future__ import annotations

from fieldapp.screens.kit.diagram.diagram_plan import Box, Plan, cartridges, plate_of, proof_place
from fieldapp.screens.kit.diagram.diagram_view import TRIPS_AT, Diagram
from fieldapp.screens.kit.stroke import Point

_LONG = {"bond", "vessel", "suction_hose", "return_hose", "control_room"}
_DRIVEN = ("suction_closing_valve", "return_closing_valve")
_TOUCHING = 5


def flag_of(diagram: Diagram, plan: Plan, written: list[Box], wide: float) -> Box | None:
    """The box of the flag: near the part in question, where it hides least.

    Where every place would hide a word or a mark there is no flag; the angles stand alone.
    """
    if not (diagram.here and diagram.flag):
        return None
    frame = corners_of(diagram.here, plan, written)
    kept = [*written, frame, plate_of(plan), *_proofs(plan)]
    near = [_grown(box, 3) for box in written]
    symbols = [_grown(box, 2) for part, box in plan.boxes.items() if part not in _LONG]
    symbols += [_driver(plan.boxes[part], plan) for part in _DRIVEN]
    letters = _letters(plan)
    pipes = [plan.boxes["vessel"], _run_box(plan, plan.top), _run_box(plan, plan.low)]

    def cost(box: Box) -> float:
        hides = _hidden(box, letters) * 500 + _hidden(box, near) * 100
        hides += _hidden(box, symbols) * 40 + _hidden(box, pipes) * 5
        leader = leader_of(box, frame)
        if leader:
            hides += _hidden(_grown(_around(leader), 3), written) * 1000
        return hides + _gap(box, frame) ** 2

    places = _places(frame, wide, 28.0 if plan.small else 30.0, plan)
    free = [box for box in places if not _hidden(box, kept)]
    return min(free, key=cost, default=None)


def leader_of(flag: Box, frame: Box) -> tuple[Point, Point] | None:
    """The line that ties a flag to the angles it does not touch."""
    ends = [_nearest(flag[at], flag[at + 2], frame[at], frame[at + 2]) for at in (0, 1)]
    (x1, x2), (y1, y2) = ends
    return ((x1, y1), (x2, y2)) if abs(x1 - x2) + abs(y1 - y2) > _TOUCHING else None


def corners_of(part: str, plan: Plan, written: list[Box]) -> Box:
    """The box of the four corner angles around a part, inside the drawing and off the words."""
    wanted = (9, 7, 5) if plan.small else (14, 11, 8, 6)
    boxes = [_framed(plan.boxes[part], out, plan) for out in wanted]
    return min(boxes, key=lambda box: sum(_hidden(arm, written) for arm in arms(box, plan)))


def arms(frame: Box, plan: Plan) -> list[Box]:
    """The boxes of the arms of the four corner angles."""
    left, top, right, bottom = frame
    arm, half = arm_of(frame, plan), 3.0
    return [
        _grown(
            (
                min(x, x + way * across),
                min(y, y + turn * down),
                max(x, x + way * across),
                max(y, y + turn * down),
            ),
            half,
        )
        for x, way in ((left, 1), (right, -1))
        for y, turn in ((top, 1), (bottom, -1))
        for across, down in ((arm, 0), (0, arm))
    ]


def arm_of(frame: Box, plan: Plan) -> float:
    """The length of the arms of the corner angles."""
    left, top, right, bottom = frame
    return min(13 if plan.small else 22, (right - left) / 2 - 4, (bottom - top) / 2 - 4)


def _framed(box: Box, out: float, plan: Plan) -> Box:
    left, top, right, bottom = _grown(box, out)
    return (max(3.0, left), max(3.0, top), min(plan.width - 3, right), min(plan.height - 3, bottom))


def _places(frame: Box, wide: float, high: float, plan: Plan) -> list[Box]:
    left, top, right, bottom = frame
    middle, level = (left + right) / 2 - wide / 2, (top + bottom) / 2 - high / 2
    across = [left - wide - 2, left, middle, right - wide, right + 2]
    across += [middle + step for step in range(-150, 151, 10)]
    down = [top - high - 2, bottom + 2, level, top, bottom - high]
    down += [level + step for step in range(-130, 131, 8)]
    return [_inside(x, y, wide, high, plan) for y in down for x in across]


def _inside(x: float, y: float, wide: float, high: float, plan: Plan) -> Box:
    left = min(max(2.0, x), plan.width - wide - 2)
    top = min(max(2.0, y), plan.height - high - 2)
    return (left, top, left + wide, top + high)


def _letters(plan: Plan) -> list[Box]:
    boxes = cartridges(plan)
    middles = [((box[0] + box[2]) / 2, (box[1] + box[3]) / 2) for box in boxes]
    return [(x - 12, y - 14, x + 12, y + 14) for x, y in middles]


def _driver(box: Box, plan: Plan) -> Box:
    stem, wide, high = plan.measures.driver
    middle = (box[0] + box[2]) / 2
    return (middle - wide / 2, box[1] - stem - high, middle + wide / 2, box[1])


def _around(line: tuple[Point, Point]) -> Box:
    (x1, y1), (x2, y2) = line
    return (min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))


def _nearest(low: float, high: float, other_low: float, other_high: float) -> Point:
    if high < other_low:
        return high, other_low
    if low > other_high:
        return low, other_high
    shared = (max(low, other_low) + min(high, other_high)) / 2
    return shared, shared


def _proofs(plan: Plan) -> list[Box]:
    radius = plan.measures.proof
    places = [proof_place(plan, part) for part in TRIPS_AT]
    return [(x - radius, y - radius, x + radius, y + radius) for x, y in places]


def _grown(box: Box, by: float) -> Box:
    return (box[0] - by, box[1] - by, box[2] + by, box[3] + by)


def _gap(one: Box, other: Box) -> float:
    aside = max(one[0] - other[2], other[0] - one[2], 0.0)
    above = max(one[1] - other[3], other[1] - one[3], 0.0)
    middle = abs(one[0] + one[2] - other[0] - other[2]) / 20
    return aside + above + middle


def _run_box(plan: Plan, y: float) -> Box:
    half = plan.measures.bore / 2
    return (plan.across["tank"], y - half, plan.across["vessel"], y + half)


def _hidden(box: Box, others: list[Box]) -> float:
    return sum(_shared(box, other) for other in others)


def _shared(one: Box, other: Box) -> float:
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return max(0.0, wide) * max(0.0, high)
