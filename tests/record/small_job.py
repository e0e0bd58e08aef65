"""A small invented job, done through the app's own actions, at any of its stages."""

from datetime import datetime, timedelta
from pathlib import Path

from fieldapp.actions.beginning import begin, job_of
from fieldapp.actions.entering import correct, end, enter, read, report, start
from fieldapp.actions.rules import Act, Refusal
from fieldapp.actions.sign_off import accept, explain, promise, see, send_back, sign, to_see
from fieldapp.demo.player import sheet_text
from fieldapp.job.events import Event

BEGAN = datetime.fromisoformat("2026-06-16T08:00:00+02:00")
TECHNICIAN, LEAD = "Maren Holtby", "Ruth Calderon"
HEAD = (77, "ab" * 32)
STROKES = ((("0.1", "0.2"), ("0.4", "0.8"), ("0.9", "0.3")), (("0.5", "0.5"),))
TRIPPED = {"tripped": "yes", "closed_after": "2.9", "seen_0": "yes", "seen_1": "yes"}
FALLING = ("843", "515", "315", "195", "121", "77", "50")


class Crew:
    """Does one thing after the other, two minutes apart; a refusal fails the test."""

    def __init__(self):
        text = (Path(__file__).parent / "small.toml").read_text(encoding="utf-8")
        sheet = sheet_text().partition("[owner]")[0]
        found = begin(text, sheet, Act(TECHNICIAN, BEGAN))
        events = tuple(event for event in found if isinstance(event, Event))
        assert events == found
        self.job, self.now = job_of(events), BEGAN

    def does(self, action, *given, who=TECHNICIAN, after=timedelta(minutes=2), **named):
        self.now += after
        outcome = action(self.job, *given, Act(who, self.now), **named)
        assert not isinstance(outcome, Refusal), outcome
        self.job = self.job.with_events(outcome)

    def gives(self, entry, value, *, instrument="", **named):
        self.does(enter, entry, {"value": value, **named}, instrument=instrument)

    def times(self, entry, column, values, after, *, note=""):
        self.does(start, entry)
        for place, fields in enumerate(values):
            given = fields if isinstance(fields, dict) else {column: fields}
            self.does(read, entry, given, after=timedelta(0) if not place else after)
        self.does(end, entry, after=timedelta(seconds=10), note=note)


def begun():
    return Crew()


def arrived(said="All clear."):
    crew = begun()
    crew.gives("briefed", "yes")
    crew.gives("serial_read", "40-1984-2217")
    crew.gives("said", said)
    crew.gives("bond", "0.120", instrument="bond_meter")
    crew.does(correct, "bond", {"value": "0.012"}, "digits swapped")
    crew.gives("wind", "11.5")
    crew.does(explain, "wind", "gusts, nothing is lifted")
    crew.does(accept, "wind", "nobody on the ladder", who=LEAD)
    crew.does(promise, "wind", LEAD, "2026-06-17", who=LEAD, after=timedelta(0))
    return crew


def proven(said="All clear."):
    crew = arrived(said)
    crew.does(enter, "a_wire", {"tripped": "no"})
    crew.does(report, "wiring_touched", note="moved to the pair that opens")
    crew.does(enter, "a_wire", TRIPPED)
    crew.does(enter, "a_tray", {**TRIPPED, "value": "14"})
    return crew


def evacuated(said="All clear."):
    crew = proven(said)
    crew.gives("station_read", "843.2", instrument="barometer")
    crew.gives("pump_alone", "8.0", instrument="absolute_gauge")
    minute = timedelta(minutes=1)
    crew.times("pull_down", "pull_pressure", ("843", "602", "456", "368", "314", "281", "261"),
               minute, note="levels out, hissing at a coupling")  # fmt: skip
    crew.does(report, "joint_touched", note="new gasket at the return coupling")
    crew.times("pull_down", "pull_pressure", FALLING, minute)
    crew.gives("reached", "50.0", instrument="absolute_gauge")
    held = [{"hold_pressure": p, "hold_wall": t}
            for p, t in (("62.0", "21.5"), ("63.6", "22.2"), ("65.2", "23.0"))]  # fmt: skip
    crew.times("hold_readings", "", held, timedelta(minutes=15))
    return crew


def signed_by_technician(said="All clear."):
    crew = evacuated(said)
    crew.does(sign, "technician", "cd" * 32, strokes=STROKES)
    return crew


def signed_off(said="All clear."):
    crew = signed_by_technician(said)
    for event in to_see(crew.job):
        crew.does(see, event.sequence, who=LEAD)
    crew.does(sign, "crew lead", "ef" * 32, who=LEAD, strokes=STROKES)
    return crew


def signed_by_a_typed_name():
    crew = evacuated()
    crew.does(sign, "technician", "cd" * 32, typed=TECHNICIAN)
    return crew


def sent_back():
    crew = signed_by_technician()
    crew.does(send_back, "Weigh the cartridges again.", who=LEAD)
    return crew
