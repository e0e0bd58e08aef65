"""A desk over a temporary folder, with a clock that is told the time, and the small checklist."""

from datetime import timedelta

from fieldapp.screens.desk.desk import Desk
from tests.actions.play import BEGIN, CHECKLIST, LEAD, SHEET, TECHNICIAN

__all__ = ["BEGIN", "CHECKLIST", "LEAD", "NUMBER", "SHEET", "TECHNICIAN", "Sitting"]

NUMBER = "KM-2031.04"


class Sitting:
    """A desk; `minute` is the time since the job sheet was brought."""

    def __init__(self, home, sheets=None, checklist=CHECKLIST, checklists=None, begin=BEGIN):
        self.minute, self.home = 0.0, home
        folder = home / "sheets"
        folder.mkdir(parents=True, exist_ok=True)
        for name, text in (sheets or {"kestrel.toml": SHEET}).items():
            (folder / name).write_text(text, encoding="utf-8")
        texts = checklists or {"small": checklist}
        self.desk = Desk(home, lambda: begin + timedelta(minutes=self.minute), texts)

    @property
    def state(self):
        return self.desk.state

    @property
    def place(self):
        return self.desk.state.place

    @property
    def job(self):
        return self.desk.state.job

    def touch(self, what, *details):
        """Touch, and see that the view can be made."""
        self.desk.touched(what, *details)
        self.minute += 0.25
        return self.desk.view()

    def to_jobs(self):
        """Look at the list of jobs; whoever has something in force says that they stay."""
        self.touch("jobs")
        if self.place.screen == "leaving":
            self.touch("stay")

    def view(self):
        return self.desk.view()

    def begin(self, who=TECHNICIAN):
        self.touch("new")
        self.touch("sheet", "kestrel.toml")
        self.touch("person", who)
        return self

    def give(self, entry, *touches):
        """Give an entry by touches, from wherever one stands."""
        self.touch("go", self.job.checklist.step_of(entry).id)
        if self.place.screen == "step":
            self.touch("entry", entry)
        for touch in touches:
            self.touch(*touch)
        return self

    def arrived(self):
        self.begin()
        self.give("permit_ends", ("typed", "1800"), ("keep",))
        self.give("plate_serial", ("typed", "MX-4471"), ("keep",))
        self.give("locked", ("yes",))
        self.give("second_name", ("typed", "Ben Thorne"), ("keep",))
        return self

    def at_the_gauge(self):
        self.arrived()
        self.give("station_p", ("typed", "843.2"), ("keep",))
        return self
