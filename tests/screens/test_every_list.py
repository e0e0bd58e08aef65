"""Every shipped list in the window: begun, one entry of each kind given there, signed off."""

import re
from datetime import timedelta

import pytest

from fieldapp.actions.rules import Act, Refusal
from fieldapp.checklist.model import Kind
from fieldapp.journal.jobs import Jobs
from fieldapp.screens import theme
from fieldapp.screens.app import checklists_here
from fieldapp.screens.desk.desk import Desk
from tests.checklists.playing import BEGIN, VALUES, Playing, sheet
from tests.logbook.weeks import HOOKUP, known
from tests.screens.course import FOLLOWING, LEAD, TECHNICIAN, copied, hooked_up, sitting_after
from tests.screens.findings import false_grounds, findings
from tests.screens.sitting import Sitting

HOUR = re.compile(r"[0-9]{2}:[0-9]{2}")
STROKES = (((0.1, 0.5), (0.2, 0.75)),)


class Seated(Playing):
    """Plays the job in hand; the first entry of each kind by touches, looking at its screen."""

    def __init__(self, window):
        self.window = window
        self.state = window.desk.state
        self.values = VALUES[self.job.checklist.id]
        self.now = self.state.now
        self.state.clock = lambda: self.now
        self.state.jobs._clock = self.state.clock  # noqa: SLF001 - one clock for both
        self.given = set()

    @property
    def job(self):  # type: ignore[override]
        return self.state.kept.job

    def try_(self, action, *arguments, who=TECHNICIAN, **options):
        outcome = action(self.job, *arguments, Act(who, self.now), **options)
        if not isinstance(outcome, Refusal):
            self.state.kept.keep(outcome)
        self.wait(1)
        return outcome

    def give(self, entry):
        value = str(self.values.get(entry.id, ""))
        seen = entry.kind in self.given and entry.kind is not Kind.SIGN
        if seen or entry.optional or (entry.kind is Kind.TIME and not HOUR.fullmatch(value)):
            super().give(entry)
            return
        if entry.kind is Kind.ALARM and self.job.sheet.yes_no(f"{entry.trip}_fitted") is False:
            return
        self.given.add(entry.kind)
        before = len(self.job.state.log)
        self.window.go(entry)
        self.touch_in(entry, value)
        assert self.state.refused == ""
        assert len(self.job.state.log) > before
        self.wait(1)

    def touch_in(self, entry, value):
        """Give an entry with the touches that its screen offers."""
        touch = self.window.touch
        match entry.kind:
            case Kind.CONFIRM:
                touch("yes")
            case Kind.CHOICE:
                touch("choose", self.fields(entry)["value"])
                touch("keep")
            case Kind.ALARM:
                self.prove(entry, value)
            case Kind.TRACE | Kind.HOLD:
                self.read(entry)
            case Kind.SIGN:
                self.sign(entry)
            case Kind.PHOTO:
                super().give(entry)  # a file is chosen: that has tests of its own
            case _:
                touch("typed", self.fields(entry)["value"].replace(":", ""))
                touch("keep")

    def prove(self, entry, value):
        touch = self.window.touch
        touch("answer", "tripped", "yes")
        for text in (
            *((value,) if entry.measure else ()),
            *(("3.2",) if entry.closed_within else ()),
        ):
            touch("typed", text)
            touch("next part")
        for place in range(len(entry.checks)):
            touch("answer", f"seen_{place}", "yes")
        if self.job.state.latest(entry.id) is None:
            touch("keep")

    def read(self, entry):
        began = len(self.job.state.log)
        self.window.touch("start")
        self.window.look()
        readings = self.values[entry.id] if entry.columns else []
        times = entry.times or [entry.every / 60 * place for place in range(len(readings))]
        start = self.now
        for minutes, figures in zip(times, readings, strict=bool(readings)):
            self.now = start + timedelta(minutes=minutes)
            columns = (column.id for column in entry.columns)
            self.window.touch("reading", dict(zip(columns, figures, strict=True)))
        self.now = max(self.now, start + timedelta(minutes=times[-1]))
        self.window.touch("end", "")
        assert len(self.job.state.log) == began + 2 + len(readings)

    def sign(self, entry):
        if entry.role == "crew lead":
            self.window.touch("people")
            self.window.touch("person", LEAD)
        self.window.touch("strokes", STROKES)
        self.window.touch("sign", entry.role)
        assert self.job.state.signature(entry.role) is not None


class Window:
    """The shell over a desk: each screen that is gone to is looked at in both shapes."""

    def __init__(self, driver, sitting):
        from fieldapp.screens.shell import Shell

        self.driver, self.desk = driver, sitting.desk
        self.shell = driver.show(Shell(sitting.desk))

    def tap(self, *tids):
        for tid in tids:
            self.driver.frames(2)
            self.driver.tap(tid)
        return self.look()

    def touch(self, what, *details):
        self.desk.touched(what, *details)

    def go(self, entry):
        step = self.desk.state.job.checklist.step_of(entry.id)
        self.touch("go", step.id)
        if self.desk.state.place.screen == "step":
            self.look()
            self.touch("entry", entry.id)
        self.look()

    def look(self):
        self.shell.show()
        self.driver.frames(3)
        place = self.desk.state.place
        assert findings(self.shell) == [], place
        assert list(false_grounds(self.shell, self.driver.picture())) == [], place
        return self


@pytest.fixture(scope="module")
def signed_home(tmp_path_factory):
    return hooked_up(tmp_path_factory.mktemp("signed"))


@pytest.fixture
def shut():
    """Take desks that are shut when the test is over, however it ends."""
    desks: list[Desk] = []
    yield desks.append
    for desk in desks:
        desk.close()


def dressed(sitting, night):
    sitting.desk.state.look = "night" if night else "sun"
    theme.switch_look(theme.NIGHT if night else theme.SUN)
    return sitting


@pytest.mark.parametrize("checklist", FOLLOWING)
def test_list_that_follows_is_begun_given_and_signed(
    driver, signed_home, tmp_path, shut, checklist
):
    home = copied(signed_home, tmp_path)
    (home / "sheets").mkdir(exist_ok=True)
    later = sheet()
    (home / "sheets" / "later.toml").write_text(later, encoding="utf-8")
    sitting = dressed(sitting_after(home, 9), FOLLOWING.index(checklist) % 2)
    shut(sitting.desk)
    window = Window(driver, sitting).look()
    window.tap(f"course {HOOKUP}").tap("follow").tap("another sheet")
    window.tap(f"begin list {checklist}").tap(f"person {TECHNICIAN}")
    seated = Seated(window).through()
    assert seated.given >= kinds_given(seated.job) - {Kind.TIME}
    number = seated.job.number
    state = seated.job.state
    sitting.desk.close()
    jobs = Jobs(home, lambda: seated.now)
    again = jobs.open(number).job
    assert again.state == state
    assert known(again.state.signature("crew lead")).by == LEAD
    jobs.close()


def entries_of(job):
    return [entry for step in job.checklist.steps() for entry in step.entries if not entry.optional]


def kinds_given(job):
    done = {*job.state.given, *job.state.attempts}
    return {entry.kind for entry in entries_of(job) if entry.id in done}


def test_vacuum_treatment_is_begun_given_and_signed(driver, tmp_path, shut):
    sitting = Sitting(tmp_path, {"demo.toml": sheet()}, checklists=checklists_here(), begin=BEGIN)
    shut(sitting.desk)
    window = Window(driver, sitting).look()
    window.tap("new").tap("lists").tap("list vacuum_treatment").tap("sheet demo.toml")
    window.tap(f"person {TECHNICIAN}")
    job = Seated(window).through().job
    assert job.state.signature("crew lead") is not None


@pytest.mark.parametrize("night", [False, True], ids=["sun", "night"])
def test_one_step_of_each_kind_of_the_hookup_can_be_read(
    driver, signed_home, tmp_path, shut, night
):
    sitting = dressed(sitting_after(copied(signed_home, tmp_path), 1), night)
    shut(sitting.desk)
    window = Window(driver, sitting).look()
    window.tap(f"course {HOOKUP}")
    sitting.touch("open job", HOOKUP)
    sitting.touch("person", TECHNICIAN)
    first = {entry.kind: entry for entry in reversed(entries_of(sitting.job))}
    assert set(first) == set(Kind)
    for entry in first.values():
        window.go(entry)
