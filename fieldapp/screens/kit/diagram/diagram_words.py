"""The words of the line diagram and where they stand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from fieldapp.screens import theme
from fieldapp.screens.kit import words
from fieldapp.screens.kit.diagram.diagram_plan import Box, Plan, plate_of
from fieldapp.screens.kit.diagram.diagram_view import Diagram

STATE_WORDS = {"unknown": "?", "absent": "gone"}
_DESCENDING = "gjpqy"
_SIZE = theme.LABEL
Measure = Callable[..., float]


@dataclass(frozen=True, slots=True)
class Word:
    """One word on the drawing: its place, weight, and how far paper lies around it."""

    text: str
    x: float
    baseline: float
    bold: bool = False
    ink: str = "ink"
    anchor: str = "left"
    patch: float = 0
    size: float = _SIZE

    def box(self, measure: Measure = words.width_of) -> Box:
        """The box the letters take."""
        wide = measure(self.text, self.size, bold=self.bold)
        left = self.x - {"left": 0.0, "middle": wide / 2, "right": wide}[self.anchor]
        low = 0.2 if set(self.text) & set(_DESCENDING) else 0.02
        return (
            left,
            self.baseline - 0.76 * self.size,
            left + wide,
            self.baseline + low * self.size,
        )


def words_of(diagram: Diagram, plan: Plan) -> tuple[Word, ...]:
    """Every word of the drawing but the flag."""
    found = [
        *_valve_words(diagram, plan),
        *_hose_words(diagram, plan),
        *_pump_words(diagram, plan),
        *_vessel_words(diagram, plan),
        *_edge_words(diagram, plan),
        *_tank_words(diagram, plan),
    ]
    return tuple(word for word in found if word.text)


def _valve_words(diagram: Diagram, plan: Plan) -> list[Word]:
    found = []
    below = plan.measures.valve[1] + (18 if plan.small else 25)
    for run, y in (("return", plan.top), ("suction", plan.low)):
        for place in ("tank", "closing", "skid"):
            name = f"{run}_{place}_valve"
            x, _ = plan.centre(name)
            word = _state(diagram, name, x, y + below, "middle")
            found.append(replace(word, patch=1) if place == "closing" else word)
            if not plan.small:
                beside = place == "closing"
                tag_x, anchor = _beside(x, diagram) if beside else (x, "middle")
                tag_x -= 9 if place == "skid" else 0
                tag = diagram.tag_of(name)
                if words.width_of(tag, _SIZE, bold=True) <= (30 if beside else 60):
                    found.append(Word(tag, tag_x, y - 28, bold=True, anchor=anchor))
    return found + _small_valve_words(diagram, plan)


def _beside(x: float, diagram: Diagram) -> tuple[float, str]:
    return (x + 14, "left") if diagram.isolation_at == "tank" else (x - 15, "right")


def _small_valve_words(diagram: Diagram, plan: Plan) -> list[Word]:
    _, _, right, _ = plan.boxes["bypass_valve"]
    _, bypass = plan.centre("bypass_valve")
    _, top, bleed_right, _ = plan.boxes["return_bleed"]
    vacuum_x, vacuum_y = plan.centre("vacuum_valve")
    vessel_left = plan.boxes["vessel_bleed"][0]
    if plan.small:
        places = [
            (right + 9, bypass + 5.5, "left"),
            (bleed_right + 3, top + 1, "left"),
            (vacuum_x, vacuum_y + 34, "middle"),
            (plan.width - 3, 22.0, "right"),
        ]
    else:
        places = [
            (right + 10, bypass + 8, "left"),
            (bleed_right + 5, top + 1, "left"),
            (vacuum_x, 24.0, "middle"),
            (vessel_left - 6, plan.top - 34, "right"),
        ]
    names = ("bypass_valve", "return_bleed", "vacuum_valve", "vessel_bleed")
    return [_state(diagram, name, *place) for name, place in zip(names, places, strict=True)]


def _hose_words(diagram: Diagram, plan: Plan) -> list[Word]:
    found = []
    for run, y in (("return", plan.top), ("suction", plan.low)):
        right = plan.across["frame"] - 3
        absent = diagram.state_of(f"{run}_hose") == "absent"
        content = diagram.content_of(f"{run}_hose")
        word = "no hose" if absent else STATE_WORDS.get(content, content)
        baseline = y - 18 if plan.small else y + 42
        found.append(Word(word, right, baseline, bold=True, anchor="right"))
        if not plan.small:
            found.append(Word(run, right, y - 22, ink="ink2", anchor="right"))
    return found


def _pump_words(diagram: Diagram, plan: Plan) -> list[Word]:
    x, y = plan.centre("oil_pump")
    right = plan.across["vessel"] - 4
    above = y - plan.measures.pump - (4.5 if plan.small else 9)
    oil = _state(diagram, "oil_pump", right, above, "right")
    state = diagram.state_of("vacuum_pump")
    x, y = plan.centre("vacuum_pump")
    if state == "absent":
        return [oil, *_gone(plan)]
    below = y + 34 if plan.small else y + 48
    vacuum = _state(diagram, "vacuum_pump", x + (0 if plan.small else 6), below, "middle")
    return [oil, vacuum] if plan.small else [oil, vacuum, _air(plan)]


def _gone(plan: Plan) -> list[Word]:
    x, y = plan.centre("vacuum_valve")
    if plan.small:
        return [
            Word("gone", x - plan.measures.vacuum_valve[0] - 24, y + 8, bold=True, anchor="right")
        ]
    right = plan.width - 10
    return [
        Word("pump", right, y + 30, anchor="right"),
        Word("gone", right, y + 53, bold=True, anchor="right"),
    ]


def _air(plan: Plan) -> Word:
    return Word("air", plan.width - 8, 24, bold=True, anchor="right")


def _vessel_words(diagram: Diagram, plan: Plan) -> list[Word]:
    content = diagram.content_of("vessel")
    word = STATE_WORDS.get(content, content)
    left, top, right, bottom = plan.boxes["vessel"]
    if plan.small:
        return [Word(word, plan.width - 4, bottom + 27, bold=True, anchor="right")]
    middle = (left + right) / 2
    held = Word(word, middle, (top + bottom) / 2 + 8, bold=True, anchor="middle", patch=6)
    return [held, Word("vessel", right + 4, bottom + 21, ink="ink2", anchor="right")]


def _edge_words(diagram: Diagram, plan: Plan) -> list[Word]:
    tray_left, _, _, tray = plan.boxes["tray"]
    _, _, bond_right, bond = plan.boxes["bond"]
    made = {"made": "bond", "absent": "no bond", "unknown": "bond ?"}[diagram.state_of("bond")]
    up = 12 if plan.small else 16
    found = [
        Word(
            _tray(diagram), tray_left + (20 if plan.small else 26), tray - (6 if plan.small else 8)
        ),
        Word(made, bond_right - (10 if plan.small else 18), bond - up, bold=True, anchor="right"),
        *_supply_words(diagram, plan),
    ]
    if plan.small:
        return [*found, Word("control room", plan.boxes["control_room"][0] + 2, 20)]
    return [*found, *_skid_words(diagram, plan), *_room_words(diagram, plan)]


def _tray(diagram: Diagram) -> str:
    state = diagram.state_of("tray")
    return f"tray {STATE_WORDS.get(state, state)}"


def _supply_words(diagram: Diagram, plan: Plan) -> list[Word]:
    state = diagram.state_of("supply")
    word = STATE_WORDS.get(state, state)
    x, y = plan.centre("supply")
    if plan.small:
        return [Word(word, x, y + 32, bold=True, anchor="middle")]
    return [Word(f"supply {word}", x + 17, y + 7, bold=state == "on")]


def _skid_words(diagram: Diagram, plan: Plan) -> list[Word]:
    frame = plan.across["frame"] if diagram.isolation_at == "tank" else plan.across["bypass"] - 24
    _, count, word = diagram.proof_in_all()
    return [
        Word("skid", plan.across["skid_valve"] + 28, plan.top + 63, ink="ink2", anchor="middle"),
        Word(count, frame + 32, 25),
        Word(word, frame + 32, 47),
    ]


def _room_words(diagram: Diagram, plan: Plan) -> list[Word]:
    left = plan.boxes["control_room"][0]
    state = diagram.state_of("control_room")
    lines = ("control", "room", state)
    return [
        Word(
            line,
            left,
            plan.middle - 12 + 21.5 * at,
            ink="ink" if line == state else "ink2",
            bold=line == "told",
        )
        for at, line in enumerate(lines)
    ]


def _tank_words(diagram: Diagram, plan: Plan) -> list[Word]:
    x = plan.across["tank"] / 2 + 1
    middle = plate_of(plan)[1] + (48 if plan.small else 52)
    lines = ["oil", diagram.level] if plan.small else ["oil", diagram.level, "energised"]
    name = Word(_short(diagram.unit, plan), x, middle, bold=True, anchor="middle", size=24)
    rest = [
        Word(line, x, middle + (25 if plan.small else 27) * (at + 1), bold=at == 0, anchor="middle")
        for at, line in enumerate(line for line in lines if line)
    ]
    return [name, *rest]


def _short(unit: str, plan: Plan) -> str:
    left, _, right, _ = plate_of(plan)
    while unit and words.width_of(unit, 24, bold=True) > right - left - 6:
        unit = unit.removesuffix("…")[:-1] + "…"
    return unit


def _state(diagram: Diagram, part: str, x: float, baseline: float, anchor: str) -> Word:
    state = diagram.state_of(part)
    word = STATE_WORDS.get(state, state)
    return Word(word, x, baseline, bold=state in {"closed", "runs", "absent"}, anchor=anchor)
