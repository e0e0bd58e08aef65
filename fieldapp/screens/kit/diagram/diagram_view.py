"""What the line diagram of a hookup shows: parts, volumes and trips with their states."""

from __future__ import annotations

from dataclasses import dataclass

VALVES = (
    "suction_tank_valve",
    "return_tank_valve",
    "suction_closing_valve",
    "return_closing_valve",
    "suction_skid_valve",
    "return_skid_valve",
    "bypass_valve",
    "vessel_bleed",
    "return_bleed",
    "vacuum_valve",
)
PUMPS = ("vacuum_pump", "oil_pump")
HOSES = ("suction_hose", "return_hose")
INSTRUMENTS = {
    "vacuum_gauge": "PI",
    "air_detector": "AS",
    "flow_switch": "FS",
    "pressure_switch": "PS",
    "level_contact": "LS",
}
STATES = {
    **dict.fromkeys(VALVES, ("unknown", "open", "closed")),
    **dict.fromkeys(PUMPS, ("stopped", "runs", "absent")),
    **dict.fromkeys(HOSES, ("fitted", "absent")),
    **dict.fromkeys(INSTRUMENTS, ("fitted",)),
    "vessel": ("fitted",),
    "tray": ("unknown", "dry", "wet"),
    "bond": ("unknown", "made", "absent"),
    "supply": ("unknown", "on", "off"),
    "control_room": ("not told", "told"),
}
PARTS = tuple(STATES)
CONTENTS = ("unknown", "air", "vacuum", "oil")
VOLUMES = ("suction_hose", "return_hose", "vessel")
TRIP_STATES = ("failed", "unproven", "proven", "not fitted")
TRIPS = (
    "emergency_stop",
    "supply",
    "broken_wire",
    "low_level",
    "tray",
    "low_flow",
    "air",
    "high_pressure",
    "low_suction",
    "unit_trip",
)
# Which trips are proved at which part; the others count only in the sum.
TRIPS_AT = {
    "level_contact": ("low_level", "broken_wire"),
    "air_detector": ("air",),
    "flow_switch": ("low_flow",),
    "pressure_switch": ("high_pressure", "low_suction"),
    "tray": ("tray",),
    "supply": ("supply",),
}
TAGS = {
    "suction_tank_valve": "V1",
    "return_tank_valve": "V2",
    "suction_closing_valve": "V3",
    "return_closing_valve": "V4",
    "suction_skid_valve": "V5",
    "return_skid_valve": "V6",
}


@dataclass(frozen=True, slots=True)
class PartState:
    """One part of the hookup, its state, and the tag it has on site."""

    part: str
    state: str
    tag: str = ""

    def __post_init__(self) -> None:
        """Refuse a part or state the drawing does not know."""
        if self.state not in STATES[self.part]:
            raise ValueError(self.part, self.state)


@dataclass(frozen=True, slots=True)
class Diagram:
    """One hookup at one moment; what is left out is not known yet.

    `isolation_at` says where the self-closing valves sit: "tank" or "skid".
    """

    unit: str
    level: str = ""
    parts: tuple[PartState, ...] = ()
    volumes: tuple[tuple[str, str], ...] = ()
    trips: tuple[tuple[str, str], ...] = ()
    here: str | None = None
    flag: str = ""
    isolation_at: str = "tank"

    def __post_init__(self) -> None:
        """Refuse a name the drawing does not know."""
        for name, state in self.volumes:
            _check(name in VOLUMES and state in CONTENTS, name, state)
        for name, state in self.trips:
            _check(name in TRIPS and state in TRIP_STATES, name, state)
        _check(self.here is None or self.here in PARTS, "here", self.here)
        _check(self.isolation_at in {"tank", "skid"}, "isolation_at", self.isolation_at)

    def state_of(self, part: str) -> str:
        """The state of a part; the first of its possible states if nothing is known."""
        return next((one.state for one in self.parts if one.part == part), STATES[part][0])

    def tag_of(self, part: str) -> str:
        """The tag of a part on site, or the drawing's own."""
        given = next((one.tag for one in self.parts if one.part == part), "")
        return given or TAGS.get(part, "")

    def content_of(self, volume: str) -> str:
        """What a volume holds."""
        return dict(self.volumes).get(volume, "unknown")

    def trip(self, name: str) -> str:
        """The state of one trip."""
        return dict(self.trips).get(name, "unproven")

    def proof_at(self, part: str) -> str | None:
        """The worst state of the trips that are proved at a part."""
        names = TRIPS_AT.get(part)
        return min(map(self.trip, names), key=TRIP_STATES.index) if names else None

    def proof_in_all(self) -> tuple[str, str, str]:
        """The worst state of all trips fitted, how many there are, and a word for it."""
        found = [self.trip(name) for name in TRIPS]
        fitted = [state for state in found if state != "not fitted"]
        worst = min(fitted, key=TRIP_STATES.index, default="not fitted")
        count = fitted.count("failed" if worst == "failed" else "proven")
        word = worst if count in {0, len(fitted)} else f"{count} {_counted(worst)}"
        return worst, f"{len(fitted)} trips", word


def _counted(worst: str) -> str:
    return "failed" if worst == "failed" else "proven"


def _check(right: bool, *what: object) -> None:  # noqa: FBT001
    if not right:
        raise ValueError(*what)
