"""One invented hookup at four moments of its job, for the tests of the line diagram."""

from dataclasses import replace

from fieldapp.screens.kit.diagram.diagram_view import TRIPS, VALVES, Diagram, PartState

CONNECTED = {
    "suction_tank_valve": "closed",
    "return_tank_valve": "closed",
    "suction_closing_valve": "open",
    "return_closing_valve": "open",
    "suction_skid_valve": "open",
    "return_skid_valve": "open",
    "bypass_valve": "open",
    "vessel_bleed": "closed",
    "return_bleed": "closed",
    "vacuum_valve": "open",
    "vacuum_pump": "runs",
    "oil_pump": "stopped",
    "tray": "dry",
    "bond": "made",
    "supply": "on",
    "control_room": "told",
}
DRY_PROVEN = {
    "emergency_stop": "proven",
    "supply": "proven",
    "broken_wire": "proven",
    "low_level": "proven",
    "tray": "proven",
    "unit_trip": "not fitted",
}


def parts(**states):
    return tuple(PartState(part, state) for part, state in states.items())


def volumes(content):
    return tuple((name, content) for name in ("suction_hose", "return_hose", "vessel"))


ARRIVE = Diagram(
    "T2",
    "60 %",
    parts(
        suction_tank_valve="closed",
        return_tank_valve="closed",
        suction_hose="absent",
        return_hose="absent",
        vacuum_pump="absent",
    ),
    here="return_tank_valve",
    flag="read the tag",
)
EVACUATE = Diagram(
    "T2",
    "60 %",
    parts(**CONNECTED),
    volumes("vacuum"),
    tuple(DRY_PROVEN.items()),
    "vacuum_gauge",
    "read here",
)
BYPASS = replace(
    EVACUATE,
    parts=parts(
        **CONNECTED | {"vacuum_valve": "closed", "vacuum_pump": "absent", "oil_pump": "runs"}
    ),
    volumes=volumes("oil"),
    trips=tuple((DRY_PROVEN | {"low_flow": "failed", "air": "proven"}).items()),
    here="bypass_valve",
    flag="watch",
)
RUNNING = replace(
    BYPASS,
    parts=parts(
        **CONNECTED
        | {
            "vacuum_valve": "closed",
            "vacuum_pump": "absent",
            "oil_pump": "runs",
            "suction_tank_valve": "open",
            "return_tank_valve": "open",
            "bypass_valve": "closed",
        }
    ),
    trips=tuple((trip, "proven") for trip in TRIPS),
    here="air_detector",
)
# The widest words everywhere.
ALL_CLOSED = replace(
    EVACUATE,
    parts=parts(
        **CONNECTED
        | dict.fromkeys(VALVES, "closed")
        | {"vacuum_pump": "stopped", "bond": "absent", "control_room": "not told"}
    ),
    trips=(),
)
MOMENTS = {
    "arrive": ARRIVE,
    "evacuate": EVACUATE,
    "bypass": BYPASS,
    "running": RUNNING,
    "all closed": ALL_CLOSED,
}
SIZES = {"wide": (692, 372), "small": (498, 240), "portrait": (752, 346)}
