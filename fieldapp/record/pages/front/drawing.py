"""The line diagram of a hookup, drawn as it stood: valves, hoses, vessel, and shutdown numbers."""

from math import pi, sin

from fieldapp.record.chapters.shapes.shapes import Shutdown
from fieldapp.record.chapters.shapes.shapes_of_sources import Diagram
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, shortened
from fieldapp.record.pages.kit.marks import numbered
from fieldapp.record.pages.kit.operators import Points
from fieldapp.record.pages.kit.paper import (
    HAIR,
    INK,
    OIL_LINE,
    OIL_PIPE,
    OIL_TANK,
    RULE,
    SECONDARY,
    WHITE,
    Paper,
)
from fieldapp.record.pages.kit.symbols import pump, valve

HEIGHT = 168.0
TOP_RUN, LOW_RUN = 50.0, 138.0
SHORT = 6.6
# Where the number of each shutdown stands, from the left margin and the top of the drawing.
NUMBERS = {
    "low_level": (139, 12),
    "broken_wire": (188, 7.5),
    "unit_trip": (212, 7.5),
    "emergency_stop": (300, 7.5),
    "supply": (352, 7.5),
    "low_flow": (319, 66),
    "air": (347, 66),
    "high_pressure": (366, LOW_RUN),
    "low_suction": (311, LOW_RUN),
    "tray": (262, 160),
    "sleeve": (191, 154),
}


def draw_hookup(
    paper: Paper, top: float, diagram: Diagram, shutdowns: tuple[Shutdown, ...]
) -> None:
    """Draw the hookup with its upper edge at `top`."""
    states = dict(diagram.parts)
    _tank(paper, top, diagram)
    _runs(paper, top, states)
    _skid(paper, top, diagram, states)
    _valves(paper, top, diagram, states)
    _control(paper, top, states)
    _earth(paper, top, diagram, states)
    for shutdown in shutdowns:
        if shutdown.asked and shutdown.trip in NUMBERS:
            x, y = NUMBERS[shutdown.trip]
            numbered(paper, str(shutdown.number), x, top + y, state_of(shutdown))


def in_words(diagram: Diagram) -> str:
    """Return what the drawing shows, for those who cannot see it."""
    parts = ", ".join(f"{part.replace('_', ' ')} {state}" for part, state in diagram.parts)
    return f"Line diagram of the hookup: {parts or 'nothing is set yet'}."


def state_of(shutdown: Shutdown) -> str:
    """Return whether a shutdown is proven, failed or still open."""
    if shutdown.proven:
        return "proven"
    return "failed" if shutdown.failed else "open"


def _pipe(paper: Paper, points: Points, filling: str, bore: float = 3.2) -> None:
    colour = OIL_PIPE if filling == "oil" else WHITE
    paper.shape(points, None, INK, bore + 1.1, closed=False)
    paper.shape(points, None, colour, bore, closed=False)
    if filling == "vacuum":
        paper.shape(points, None, INK, 0.5, (1.2, 1.6), closed=False)


def _tank(paper: Paper, top: float, diagram: Diagram) -> None:
    _pipe(paper, [(84, top + 36), (84, top + 22)], "oil")
    paper.box(58, top + 6, 66, 18, WHITE, INK, 0.9, 8)
    paper.box(60, top + 14.5, 62, 8, OIL_TANK, None, 0, 3.6)
    paper.disc(84, top + 30, 3.6, WHITE, INK, 0.8)
    for x in (24, 38, 52):
        paper.line(x, top + 36, x, top + 16, 2.6, INK)
        paper.line(x, top + 16, x, top + 9, 0.8, INK)
    paper.box(10, top + 36, 104, 116, WHITE, INK, 1.1)
    paper.box(11.5, top + 37.5, 101, 113, OIL_TANK)
    for row in range(9):
        for column in range(5):
            x = 17 + column * 20 + (row % 2) * 6
            paper.line(x, top + 48 + row * 12, x + 6, top + 48 + row * 12, 0.35, OIL_LINE)
    paper.box(30, top + 76, 63, 41, OIL_TANK)
    name = shortened(diagram.unit, 60, 12, SEMIBOLD)
    paper.text(62, top + 88, name, 12, SEMIBOLD, INK, "middle")
    paper.text(62, top + 99, "energised", 7.2, SEMIBOLD, INK, "middle")
    if diagram.level:
        paper.text(62, top + 108.5, f"oil, level {diagram.level}", 6.8, REGULAR, SECONDARY,
                   "middle")  # fmt: skip


def _runs(paper: Paper, top: float, states: dict[str, str]) -> None:
    """Draw the return run above and the suction run below, each with its hose."""
    high, low = top + TOP_RUN, top + LOW_RUN
    vessel = states.get("vessel", "")
    _pipe(paper, [(114, high), (158, high)], _tank_side(states, "return"))
    _pipe(paper, [(114, low), (158, low)], _tank_side(states, "suction"))
    for y, hose in ((high, "return_hose"), (low, "suction_hose")):
        filling = states.get(hose, "")
        wave = [(158 + 76 * i / 40, y + 2.6 * sin(i / 40 * 4 * pi)) for i in range(41)]
        _pipe(paper, wave, filling)
        _pipe(paper, [(234, y), (252, y)], filling)
    _pipe(paper, [(252, high), (404, high)], vessel)
    _pipe(paper, [(252, low), (404, low), (404, top + 126)], vessel)
    _pipe(paper, [(404, top + 66), (404, high)], vessel)
    _pipe(paper, [(284, high), (284, low)], vessel, 2.2)
    words = {"oil": "oil", "vacuum": "vacuum", "air": "air"}
    for x, y, side in ((210, high - 8, "return"), (198, low + 13, "suction")):
        filling = words.get(states.get(f"{side}_hose", ""), "not set")
        paper.text(x, y, f"{side} hose, {filling}", SHORT, REGULAR, SECONDARY, "middle")
    for y, way in ((high + 9, -1), (low - 8, 1)):
        paper.line(187, y, 205, y, 0.7, INK)
        tip = 196 + way * 14
        paper.shape([(196 + way * 9, y - 2.4), (tip, y), (196 + way * 9, y + 2.4)], INK)


def _tank_side(states: dict[str, str], side: str) -> str:
    """Return what stands between tank and closing valve: what the hose holds."""
    return states.get(f"{side}_hose", "")


def _skid(paper: Paper, top: float, diagram: Diagram, states: dict[str, str]) -> None:
    high, low = top + TOP_RUN, top + LOW_RUN
    paper.box(246, top + 22, 250, 130, None, INK, 0.7, 0, (4, 2))
    paper.text(490, top + 148, "skid", 6.8, SEMIBOLD, SECONDARY, "right")
    filled = OIL_TANK if states.get("vessel") == "oil" else WHITE
    paper.box(374, top + 66, 60, 60, filled, INK, 1.1, 7)
    for x in (381, 407):
        paper.box(x, top + 74, 20, 44, WHITE, INK, 0.7)
        for place in range(4):
            y = top + 83 + place * 9
            paper.line(x + 2, y, x + 18, y, 0.35, RULE)
    words = ["vessel with", "two cartridges", _holds(states)]
    words += [f"loop {diagram.loop}"] if diagram.loop else []
    for place, line in enumerate(words):
        font, colour = (SEMIBOLD, INK) if place < 1 else (REGULAR, SECONDARY)
        paper.text(440, top + 84 + 9 * place, line, 6.8, font, colour, room=56)
    pump(paper, 338, low)
    runs = states.get("oil_pump", "")
    paper.text(338, low - 12.5, f"pump {runs}".strip(), SHORT, SEMIBOLD if runs == "runs"
               else REGULAR, INK, "middle")  # fmt: skip
    for x, wide, name in ((310, 18, "flow"), (339, 16, "air")):
        paper.box(x, high - 6, wide, 12, WHITE, INK, 0.9)
        paper.text(x + wide / 2, high + 2.4, name, SHORT, SEMIBOLD, INK, "middle")
    paper.text(273, top + 168, "tray with float", SHORT, REGULAR, SECONDARY)
    tray = [(238, top + 154), (242, top + 160), (498, top + 160), (502, top + 154)]
    paper.shape(tray, None, INK, 1.1, closed=False)


def _valves(paper: Paper, top: float, diagram: Diagram, states: dict[str, str]) -> None:
    high, low = top + TOP_RUN, top + LOW_RUN
    at_skid = diagram.isolation == "at the skid"
    closing = 240 if at_skid else 150
    for side, y, tag in (("return", high, diagram.return_tag),
                         ("suction", low, diagram.suction_tag)):  # fmt: skip
        tank = states.get(f"{side}_tank_valve", "")
        shown = shortened(tag, 32, SHORT, SEMIBOLD)
        valve(paper, 128, y, tank, (shown, 0, -15))
        self_closing = states.get(f"{side}_closing_valve", "")
        valve(paper, closing, y, self_closing, ("closing", 4, -15), driven=True)
        valve(paper, 265, y, states.get(f"{side}_skid_valve", ""), ("skid", 0, -15))
    valve(paper, 284, top + 94, states.get("bypass_valve", ""), ("bypass", 9, -2), upright=True)
    _pipe(paper, [(404, high), (426, high)], states.get("vessel", ""), 2.2)
    vacuum = states.get("vacuum_valve", "")
    port = {"gone": "pump gone", "runs": "pump runs", "stopped": "pump stopped"}
    valve(paper, 432, high, vacuum, ("vacuum port", 13, -1))
    words = port.get(states.get("vacuum_pump", ""), "")
    if words:
        paper.text(445, high + 14.2, words, SHORT, REGULAR, SECONDARY, room=50)
    paper.line(440.5, high - 4, 440.5, high + 4, 1.2, INK)
    _pipe(paper, [(404, high), (404, high - 14)], states.get("vessel", ""), 2.2)
    valve(paper, 404, high - 12, states.get("vessel_bleed", ""), ("bleed", 7, -4), upright=True)
    valve(
        paper, 168, high - 7, states.get("return_bleed", ""), ("", 0, 0), upright=True, small=True
    )


def _control(paper: Paper, top: float, states: dict[str, str]) -> None:
    paper.box(256, top + 1, 62, 13, WHITE, INK, 0.8)
    paper.text(274, top + 10, "control", SHORT, SEMIBOLD, INK, "middle")
    wire = [(124, top + 12), (150, top + 12), (150, top + 7.5), (256, top + 7.5)]
    paper.shape(wire, None, INK, 0.5, (1.5, 1.5), closed=False)
    paper.line(318, top + 7.5, 346, top + 7.5, 0.9, INK)
    state = states.get("supply", "")
    paper.text(362, top + 10, f"supply {state}".strip(), SHORT, REGULAR, SECONDARY)


def _earth(paper: Paper, top: float, diagram: Diagram, states: dict[str, str]) -> None:
    bond = states.get("bond", "not set")
    on = bond == "on"
    path = [(246, top + 146), (228, top + 146), (228, top + 158), (62, top + 158)]
    paper.shape(path, None, INK if on else HAIR, 0.9, () if on else (2, 2), closed=False)
    paper.line(62, top + 152, 62, top + 162, 0.9, INK)
    for place in range(3):
        y = top + 162 + place * 2
        paper.line(56 + place * 2, y, 68 - place * 2, y, 0.9, INK)
    words = f"bond {diagram.bond}" if on and diagram.bond else f"bond {bond}"
    paper.text(130, top + 166, words, SHORT, SEMIBOLD, INK, "middle")


def _holds(states: dict[str, str]) -> str:
    filling = states.get("vessel", "")
    return f"holds {filling}" if filling else "not yet set"
