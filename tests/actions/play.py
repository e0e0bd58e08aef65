"""Plays a job in tests: the small checklist, an invented sheet, a clock that is told the time."""

from datetime import datetime, timedelta
from pathlib import Path

from fieldapp.actions.beginning import begin, job_of
from fieldapp.actions.rules import Act, Refusal
from fieldapp.job.events import Event

HERE = Path(__file__).parent
BEGIN = datetime.fromisoformat("2031-05-04T08:00+02:00")
TECHNICIAN, LEAD = "Ada Quill", "Ben Thorne"
CHECKLIST = (HERE / "small.toml").read_text(encoding="utf-8")
SHEET = (HERE.parent / "job" / "valid_sheet.toml").read_text(encoding="utf-8")
for old, new in (
    ('hold_pressure = "15 Torr"', 'leak_limit = "0.333 hPa L/s"'),
    ("second_cooler = true", "second_cooler = false"),
):
    assert old in SHEET
    SHEET = SHEET.replace(old, new)


class Play:
    """A job in the making; `minute` is the time since it began."""

    def __init__(self, checklist=CHECKLIST, sheet=SHEET):
        begun = begin(checklist, sheet, Act(TECHNICIAN, BEGIN))
        events = tuple(event for event in begun if isinstance(event, Event))
        assert events, [str(problem) for problem in begun]
        self.job = job_of(events)
        self.minute = 0.0

    @property
    def now(self):
        return BEGIN + timedelta(minutes=self.minute)

    def act(self, who=TECHNICIAN):
        return Act(who, self.now)

    def do(self, action, *arguments, who=TECHNICIAN, **options):
        """Do an action that must be possible."""
        outcome = self.try_(action, *arguments, who=who, **options)
        assert not isinstance(outcome, Refusal), str(outcome)
        return outcome

    def try_(self, action, *arguments, who=TECHNICIAN, **options):
        """Do an action; return its events, or its refusal."""
        outcome = action(self.job, *arguments, self.act(who), **options)
        if not isinstance(outcome, Refusal):
            self.job = self.job.with_events(outcome)
        self.minute += 1
        return outcome
