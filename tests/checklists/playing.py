"""Plays a shipped checklist from its first step to its last, with what an invented crew enters."""

import tomllib
from datetime import datetime, timedelta
from hashlib import sha256
from pathlib import Path

from fieldapp.actions.beginning import begin, job_of
from fieldapp.actions.entering import end, enter, read, start
from fieldapp.actions.rules import Act, Refusal
from fieldapp.actions.sign_off import sign
from fieldapp.checklist.model import Kind
from fieldapp.demo.player import sheet_text
from fieldapp.job.events import Event
from fieldapp.judgement.evaluation import StepState, evaluate
from fieldapp.places import checklists

VALUES = tomllib.loads((Path(__file__).parent / "values.toml").read_text(encoding="utf-8"))
BEGIN = datetime.fromisoformat("2026-06-25T07:00+02:00")
TECHNICIAN, LEAD, OTHER, OWNER = "Maren Holtby", "Ruth Calderon", "Emil Strand", "Hana Brook"
PAUSES = {"t_draw2": 4 * 24 * 60, "t_draw3": 21 * 24 * 60, "d_leak24": 22 * 60}
"""Minutes that pass before a step, beyond what its own holds take."""

# what the jobs after a hookup find on their sheet, beside what the demo's sheet states
STATED = {
    "[job]": 'drain_back_document = "LG-0342"',
    "[skid]": 'zero_of_inlet = "7.6 mg/kg"\nzero_of_outlet = "7.0 mg/kg"\nblank_mass = "84.6 kg"',
}
OVERDUE, CALIBRATED = "due = 2026-06-07", "due = 2027-06-07"
TANK_VACUUM_GAUGE = """
[[instrument]]
id = "tank_vacuum_gauge"
name = "Vacuum gauge of the plant, 0.01 to 1000 hPa"
serial = "VG-0021"
unit = "hPa"
accuracy = "0.05 hPa"
accuracy_of_reading = "5 %"
repeatability = "0.02 hPa"
calibrated = 2026-03-12
due = 2027-03-12
"""


def checklist_text(name):
    return (checklists() / name / "checklist.toml").read_text(encoding="utf-8")


def sheet(owner=""):
    """The demo's sheet as it stands after the hookup, with another [owner] table."""
    text = sheet_text().partition("\n[owner]")[0]
    assert OVERDUE in text
    text = text.replace(OVERDUE, CALIBRATED)
    for section, facts in STATED.items():
        assert f"{section}\n" in text
        text = text.replace(f"{section}\n", f"{section}\n{facts}\n")
    return f"{text}{TANK_VACUUM_GAUGE}\n[owner]\n{owner}\n"


class Playing:
    """A job of one checklist in the making."""

    def __init__(
        self, name, owner="", *, changed=None, swapped=(), at=BEGIN, following=None, others=()
    ):
        self.values = VALUES[name] | (changed or {})
        text = sheet(owner)
        for old, new in swapped:
            assert old in text, old
            text = text.replace(old, new, 1)
        act = Act(TECHNICIAN, at)
        begun = begin(checklist_text(name), text, act, following, others)
        events = tuple(event for event in begun if isinstance(event, Event))
        assert events, [str(problem) for problem in begun]
        self.job = job_of(events)
        self.now = at

    def try_(self, action, *arguments, who=TECHNICIAN, **options):
        outcome = action(self.job, *arguments, Act(who, self.now), **options)
        if not isinstance(outcome, Refusal):
            self.job = self.job.with_events(outcome)
        self.wait(1)
        return outcome

    def do(self, action, *arguments, **options):
        outcome = self.try_(action, *arguments, **options)
        assert not isinstance(outcome, Refusal), f"{arguments}: {outcome}"
        return outcome

    def wait(self, minutes):
        self.now += timedelta(minutes=minutes)

    def standing(self, step):
        return evaluate(self.job, self.now).steps[step]

    def verdict(self, step, subject):
        return self.standing(step).verdicts[subject]

    def through(self, last="", *, after=""):
        """Do every step that is needed up to `last`; with `after`, from the one behind it."""
        passed = not after
        for step in self.job.checklist.steps():
            if passed and self.standing(step.id).state is not StepState.NOT_NEEDED:
                self.do_step(step)
            passed = passed or step.id == after
            if step.id == last:
                return self
        assert not last, f"there is no step {last}"
        return self

    def do_step(self, step):
        self.wait(PAUSES.get(step.id, 0))
        for entry in step.entries:
            for need in self.standing(step.id).gate:
                if need.endswith("_weather"):  # counts for one hour: read again before a joint
                    self.do_step(self.job.checklist.step(need))
            self.give(entry)

    def give(self, entry):
        if entry.kind is Kind.SIGN:
            self.do(
                sign, entry.role, "ab" * 32, who=LEAD if entry.role == "crew lead" else TECHNICIAN
            )
        elif entry.optional and entry.id not in self.values:
            return
        elif entry.kind in (Kind.TRACE, Kind.HOLD):
            self.take(entry)
        elif self.job.sheet.yes_no(f"{entry.trip}_fitted") is not False:
            self.do(enter, entry.id, self.fields(entry))

    def take(self, entry):
        """Take a trace or a hold: a reading at each of its times."""
        self.do(start, entry.id)
        began = self.now
        readings = self.values[entry.id] if entry.columns else []
        times = entry.times or [entry.every / 60 * place for place in range(len(readings))]
        for minutes, figures in zip(times, readings, strict=bool(readings)):
            self.now = began + timedelta(minutes=minutes)
            fields = dict(zip((column.id for column in entry.columns), figures, strict=True))
            self.do(read, entry.id, fields)
        self.now = max(self.now, began + timedelta(minutes=times[-1]))
        self.do(end, entry.id)

    def fields(self, entry):
        given = self.values.get(entry.id)
        match entry.kind:
            case Kind.NUMBER:
                return {"value": self.values[entry.id]}
            case Kind.ALARM:
                seen = {f"seen_{place}": "yes" for place in range(len(entry.checks))}
                value = {"value": given} if entry.measure else {}
                closed = {"closed_after": "3.2"} if entry.closed_within else {}
                return {"tripped": "yes", **closed, **value, **seen}
            case Kind.CONFIRM:
                return {"value": "yes"}
            case Kind.PHOTO:
                return {"photo": f"{entry.id}.jpg", "sha256": sha256(entry.id.encode()).hexdigest()}
        if entry.equals:
            return {"value": given or self.job.sheet.text_of(entry.equals)}
        options = [option.text for option in entry.options]
        usual = options or [OTHER if entry.other_person else "as noted on site"]
        return {"value": given or usual[0]}
