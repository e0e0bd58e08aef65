"""Draws what the hookup is made of: tank, hoses, vessel, pipes, pumps, valves and instruments."""

from __future__ import annotations

from fieldapp.screens import theme
from fieldapp.screens.kit.diagram import diagram_symbols as symbol
from fieldapp.screens.kit.diagram.diagram_plan import Plan, cartridges, proof_place
from fieldapp.screens.kit.diagram.diagram_view import INSTRUMENTS, Diagram
from fieldapp.screens.kit.mark import draw_mark
from fieldapp.screens.kit.pen import Pen

_RUNS = ("return", "suction")
_PROOF_MARKS = {
    "failed": "failed",
    "unproven": "unproven",
    "proven": "proven",
    "not fitted": "unneeded",
}


def draw_hookup(pen: Pen, diagram: Diagram, plan: Plan) -> None:
    """Draw everything but the words."""
    _skid(pen, plan)
    _bond(pen, diagram, plan)
    _runs(pen, diagram, plan)
    _branches(pen, diagram, plan)
    _tank(pen, plan)
    _vessel(pen, diagram, plan)
    _valves(pen, diagram, plan)
    _pumps(pen, diagram, plan)
    _instruments(pen, diagram, plan)


def _skid(pen: Pen, plan: Plan) -> None:
    frame, right = plan.across["frame"], plan.width - 2
    top = 1.5 if plan.small else 4
    foot = plan.boxes["tray"][3]
    corners = [(frame, foot - 20), (frame, top), (right, top), (right, foot - 20)]
    pen.line(corners, "rule", 3, theme.SKID_DASH)
    left = plan.boxes["tray"][0]
    line = 4 if plan.small else 5
    pen.line([(left, foot - 22), (left, foot), (right, foot), (right, foot - 22)], "ink", line)


def _bond(pen: Pen, diagram: Diagram, plan: Plan) -> None:
    state = diagram.state_of("bond")
    left, top, right, bottom = plan.boxes["bond"]
    tank_foot = plan.boxes["vessel"][3] + (2 if plan.small else 24)
    clamp = plan.across["frame"]
    line, stroke = (8, "ink") if state == "made" else (3, "rule")
    corners = [
        (left + 8, tank_foot + 6),
        (left + 8, bottom - 4),
        (right - 8, bottom - 4),
        (right - 8, top + 4),
        (clamp, top + 4),
    ]
    pen.line(corners, stroke, line, () if state == "made" else (4, 4))
    if state != "unknown":
        pen.rect(left, tank_foot, 16, 10, "ink")
        pen.rect(clamp - 12, top - 4, 14, 16, "ink")


def _runs(pen: Pen, diagram: Diagram, plan: Plan) -> None:
    across, bore = plan.across, plan.measures.bore
    for run in _RUNS:
        y = plan.top if run == "return" else plan.low
        content = diagram.content_of(f"{run}_hose")
        skid = across["skid_valve"]
        symbol.pipe(pen, [(across["tank"], y), (across["tank_valve"], y)], "oil", bore)
        left, _, right, _ = plan.boxes[f"{run}_hose"]
        symbol.pipe(pen, [(across["tank_valve"], y), (skid, y)], content, bore)
        if diagram.state_of(f"{run}_hose") == "absent":
            pen.rect(left - 1, y - bore / 2, right - left + 2, bore, "paper")
            symbol.missing_pipe(pen, (left + 4, y), (right - 2, y), bore - 4)
        inside = [(skid, y), (across["vessel"] + 4, y)]
        symbol.pipe(pen, inside, diagram.content_of("vessel"), bore)


def _branches(pen: Pen, diagram: Diagram, plan: Plan) -> None:
    bore = plan.measures.bore
    half = bore / 2 - 3
    x, y = plan.centre("bypass_valve")
    for run, end in (("return", plan.top), ("suction", plan.low)):
        way = 1 if end < y else -1
        content = diagram.content_of(f"{run}_hose")
        symbol.pipe(pen, [(x, end + way * half), (x, y)], content, bore)
    thin = bore - 10 if plan.small else bore - 12
    bleed_x, bleed_y = plan.centre("return_bleed")
    _stub(pen, bleed_x, bleed_y, plan.top - half, diagram.content_of("return_hose"), thin)
    bleed_x, bleed_y = plan.centre("vessel_bleed")
    top = plan.boxes["vessel"][1]
    _stub(pen, bleed_x, bleed_y, top + 2, diagram.content_of("vessel"), thin)
    _vacuum_branch(pen, diagram, plan)


def _stub(pen: Pen, x: float, y: float, foot: float, content: str, bore: float) -> None:
    symbol.pipe(pen, [(x, foot), (x, y)], content, bore)


def _vacuum_branch(pen: Pen, diagram: Diagram, plan: Plan) -> None:
    riser, bore = plan.across["riser"], plan.measures.bore
    narrow = bore if not plan.small else bore - 4
    valve_x, y = plan.centre("vacuum_valve")
    pump_x = plan.across["vacuum_pump"]
    pump = diagram.state_of("vacuum_pump")
    side = _outlet_side(plan)
    inside = diagram.content_of("vessel")
    foot = plan.boxes["vessel"][1] + 2
    symbol.pipe(pen, [(riser, foot), (riser, y), (valve_x, y)], inside, narrow)
    if pump == "absent":
        end = valve_x + side * (plan.measures.vacuum_valve[0] + 10)
        symbol.pipe(pen, [(valve_x, y), (end, y)], "unknown", narrow)
        symbol.blank(pen, end, y, narrow / 2 + 4)
        return
    between = "vacuum" if pump == "runs" else "air"
    symbol.pipe(pen, [(valve_x, y), (pump_x, y)], between, narrow)
    end = pump_x + side * (plan.measures.vacuum_pump + (16 if not plan.small else 10))
    symbol.pipe(pen, [(pump_x, y), (end, y)], "air", narrow)
    symbol.arrow(pen, end + side * 10, y, side, narrow / 2 + 3)


def _outlet_side(plan: Plan) -> int:
    return 1 if plan.across["vacuum_pump"] > plan.across["riser"] else -1


def _tank(pen: Pen, plan: Plan) -> None:
    right = plan.across["tank"]
    top = 44 if plan.small else 50
    foot = plan.boxes["vessel"][3] + (2 if plan.small else 24)
    rise = 36 if plan.small else 42
    places = (14, 34) if plan.small else (20, 44, 68)
    for x in places:
        pen.line([(x, top), (x, top - rise)], "ink", 4)
        for at in (10, 19, 28):
            pen.line([(x - 8, top - at), (x + 8, top - at)], "ink", 3)
    left, wide = (44.0, 20.0) if plan.small else (84.0, 40.0)
    pen.pattern("oil", left, top - rise, wide, 24)
    pen.rect(left, top - rise, wide, 24, None, "ink", 3)
    pen.line([(left + wide / 2, top - rise + 24), (left + wide / 2, top)], "ink", 4)
    pen.pattern("oil", 2, top, right - 2, foot - top)
    pen.rect(2, top, right - 2, foot - top, None, "ink", 4)


def _vessel(pen: Pen, diagram: Diagram, plan: Plan) -> None:
    left, top, right, bottom = plan.boxes["vessel"]
    symbol.fill(pen, diagram.content_of("vessel"), left, top, right - left, bottom - top)
    pen.rect(left, top, right - left, bottom - top, None, "ink", 4)
    for letter, box in zip("AB", cartridges(plan), strict=True):
        _cartridge(pen, letter, box)


def _cartridge(pen: Pen, letter: str, box: tuple[float, float, float, float]) -> None:
    left, top, right, bottom = box
    pen.rect(left, top, right - left, bottom - top, "paper", "ink", 3)
    for share in (0.25, 0.5, 0.75):
        x = left + share * (right - left)
        pen.line([(x, top + 7), (x, bottom - 5)], "ink", 2, (7, 5))
    x, y = (left + right) / 2, (top + bottom) / 2
    pen.rect(x - 12, y - 14, 24, 28, "paper")
    pen.text(x, y + 9, letter, 24, bold=True, anchor="middle")


def _valves(pen: Pen, diagram: Diagram, plan: Plan) -> None:
    half = plan.measures.valve
    for run in _RUNS:
        for place in ("tank", "closing", "skid"):
            name = f"{run}_{place}_valve"
            x, y = plan.centre(name)
            symbol.valve(pen, x, y, half, diagram.state_of(name))
            if place == "closing":
                symbol.driver(pen, x, y, half[1], plan.measures.driver)
    for name, upright, measure in (
        ("bypass_valve", True, (14.0, 11.0) if plan.small else half),
        ("vacuum_valve", False, plan.measures.vacuum_valve),
        ("return_bleed", True, plan.measures.bleed),
        ("vessel_bleed", True, plan.measures.bleed),
    ):
        x, y = plan.centre(name)
        symbol.valve(pen, x, y, measure, diagram.state_of(name), upright=upright)


def _pumps(pen: Pen, diagram: Diagram, plan: Plan) -> None:
    x, y = plan.centre("oil_pump")
    runs = diagram.state_of("oil_pump") == "runs"
    symbol.oil_pump(pen, x, y, plan.measures.pump, runs=runs)
    state = diagram.state_of("vacuum_pump")
    if state != "absent":
        x, y = plan.centre("vacuum_pump")
        radius, side = plan.measures.vacuum_pump, _outlet_side(plan)
        symbol.vacuum_pump(pen, x, y, radius, side, runs=state == "runs")


def _instruments(pen: Pen, diagram: Diagram, plan: Plan) -> None:
    _leaders(pen, plan)
    radius = plan.measures.instrument
    for part, letters in INSTRUMENTS.items():
        symbol.instrument(pen, *plan.centre(part), radius, letters)
    x, y = plan.centre("supply")
    on = diagram.state_of("supply") == "on"
    symbol.supply(pen, x, y, plan.measures.supply, runs=on)
    proof = plan.measures.proof
    for part in (*INSTRUMENTS, "tray", "supply"):
        state = diagram.proof_at(part)
        if state:
            draw_mark(pen, _PROOF_MARKS[state], *proof_place(plan, part), proof)


def _leaders(pen: Pen, plan: Plan) -> None:
    _, y = plan.centre("level_contact")
    pen.line([(plan.across["tank"], y), (plan.across["level"], y)], "ink", 3)
    for part in ("vacuum_gauge", "pressure_switch"):
        x, y = plan.centre(part)
        pen.line([(plan.across["vessel_end"], y), (x, y)], "ink", 3)
    x, y = plan.centre("flow_switch")
    pen.line([(x, plan.low + plan.measures.bore / 2), (x, y)], "ink", 3)
    if not plan.small:
        x, y = plan.centre("level_contact")
        room = plan.boxes["control_room"]
        pen.line([(x, y), (room[0] - 6, y)], "ink", 2, (5, 5))
