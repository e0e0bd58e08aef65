"""Real touches on the whole window: what is shown, what is kept, and that gloves can do it."""

from dataclasses import replace

import pytest

from fieldapp.screens import theme
from fieldapp.screens.desk.state.desk_state import NIGHT
from tests.actions.hookup import HOLD
from tests.screens.findings import false_grounds, findings
from tests.screens.sitting import LEAD, NUMBER, TECHNICIAN, Sitting


class Window:
    """The shell over a desk, with a driver; looks at every screen that it passes."""

    def __init__(self, driver, home, look):
        from fieldapp.screens.shell import Shell

        self.driver = driver
        self.sitting = Sitting(home)
        self.sitting.state.look = look
        theme.switch_look(theme.NIGHT if look == NIGHT else theme.SUN)
        self.shell = driver.show(Shell(self.sitting.desk))

    def tap(self, *tids):
        for tid in tids:
            self.driver.tap(tid)
            self.sitting.minute += 0.25
        return self

    def keys(self, text):
        return self.tap(*(f"key {key}" for key in text))

    def type(self, text):
        self.driver.tap("words")
        self.driver.type(text)
        return self

    def look(self):
        """See that nothing on the screen is too small, too near, clipped or pale."""
        self.driver.frames(3)
        assert findings(self.shell) == []
        assert list(false_grounds(self.shell, self.driver.picture())) == []
        return self

    @property
    def job(self):
        return self.sitting.job

    @property
    def screen(self):
        return self.sitting.place.screen

    def says(self, words):
        return any(words in text for text in self.joined())

    def joined(self):
        """All words of each widget, its lines put together again."""
        return [
            " ".join(written.text for written in getattr(widget, "texts", ())).replace("\xa0", " ")
            for widget in self.driver.walk()
        ]


@pytest.fixture(params=["sun", "night"])
def window(request, driver, tmp_path):
    made = Window(driver, tmp_path, request.param)
    yield made
    made.sitting.desk.close()


def begun(window):
    return window.tap("new", "sheet kestrel.toml", f"person {TECHNICIAN}")


def arrived(window):
    begun(window)
    window.sitting.give("permit_ends", ("typed", "1800"), ("keep",))
    window.sitting.give("plate_serial", ("typed", "MX-4471"), ("keep",))
    window.sitting.give("locked", ("yes",)).give("second_name", ("typed", LEAD), ("keep",))
    window.shell.show()
    return window


def at_the_gauge(window):
    arrived(window)
    window.sitting.give("station_p", ("typed", "843.2"), ("keep",))
    window.sitting.touch("steps")
    window.shell.show()
    window.driver.frames(3)
    return window


def test_job_begins_from_a_sheet_file(window):
    window.look().tap("new").look().tap("sheet kestrel.toml").look()
    window.tap(f"person {TECHNICIAN}").look()
    assert window.screen == "steps"
    assert window.sitting.state.jobs.numbers() == (NUMBER,)
    assert window.says("Enter the time the permit ends")


def test_number_shows_its_limit_before_and_its_verdict_while_typing(window):
    at_the_gauge(window).look().tap("next step").look()
    assert window.screen == "entry"
    assert window.says("At most 166.65 hPa. With this instrument")
    window.keys("50").look()
    assert window.says("Inside by 115.4 hPa.")
    assert window.job.state.latest("reached") is None
    window.tap("keep").look()
    assert window.job.state.latest("reached").fields["value"] == "50"


def test_beginning_of_a_number_has_no_verdict(window):
    at_the_gauge(window).tap("next step").keys("0.")
    assert not window.says("Inside")
    assert window.driver.get("keep").kind == "waiting"


def test_too_near_has_the_safe_way_in_blue(window):
    at_the_gauge(window).tap("next step").keys("165").look()
    assert window.says("Too near the limit for this instrument")
    assert window.driver.get("again").kind == "main"
    window.tap("again")
    assert window.driver.get(kind="Keypad").text == ""


def test_outside_is_kept_with_a_reason(window):
    at_the_gauge(window).tap("next step").keys("170").look()
    assert window.says("Outside by 3.4 hPa.")
    window.tap("say why").look()
    assert window.screen == "reason"
    window.tap("reason 0", "keep").look()
    assert window.job.state.explanations["reached"][0].reason.startswith("measured twice")
    assert window.says("The crew lead accepts it")


def test_slip_is_corrected_with_a_reason(window):
    arrived(window)
    window.tap("go station") if window.driver.all("go station") else None
    window.sitting.give("station_p", ("typed", "834.2"), ("keep",))
    window.shell.show()
    window.driver.frames(3)
    window.tap("entry station_p").keys("843.2").look().tap("correct").look()
    window.tap("reason 0", "keep").look()
    assert window.job.state.latest("station_p").fields["value"] == "843.2"
    assert window.job.state.latest("station_p").reason == "digits turned round"


def test_serial_that_does_not_agree_is_told_at_once(window):
    begun(window)
    window.sitting.give("permit_ends", ("typed", "1800"), ("keep",)).touch("steps")
    window.shell.show()
    window.driver.frames(3)
    window.tap("next step").look()
    window.type("MX-4417").look()
    assert window.says("Does not agree: the job sheet says “MX-4471”.")


def held(window):
    sitting = at_the_gauge(window).sitting
    sitting.give("reached", ("typed", "50.0"), ("keep",))
    sitting.desk.touched("go", "hold")
    sitting.desk.touched("start")
    begin = sitting.minute
    for place, (pressure, wall) in enumerate(HOLD):
        sitting.minute = begin + 10 * place
        sitting.desk.touched("reading", {"hold_p": pressure, "hold_t": wall})
    sitting.desk.touched("end")
    sitting.desk.touched("steps")
    window.shell.show()
    window.driver.frames(3)
    return window


def prove(window, seconds):
    window.tap("answer tripped yes").look().keys("3.8").look().tap("next part")
    window.keys(seconds).look().tap("next part").look()
    return window.tap("answer seen_0 yes", "answer seen_1 yes").look()


def test_shutdown_fails_and_is_proven_at_the_second_try(window):
    held(window).tap("next step").look()
    prove(window, "7.5")
    assert window.says("Failed. Closed after 7.5 s")
    window.tap("again")
    prove(window, "7.5").tap("keep").look()
    assert window.screen == "step"
    window.tap("entry a_flow").look()
    prove(window, "3.2").tap("keep").look()
    assert window.sitting.state.evaluation().steps["flow"].in_order
    assert len(window.job.state.given["a_flow"]) == 2


def test_refusal_is_shown_and_what_was_typed_stays(window):
    begun(window)
    window.sitting.touch("go", "station")
    window.sitting.touch("entry", "station_p")
    window.shell.show()
    window.driver.frames(3)
    window.keys("843.2").tap("keep").look()
    assert window.says("First “Lock the valve; two people look”: it is not in order.")
    assert window.driver.get(kind="Keypad").text == "843.2"


def test_emergency_card_stamps_each_touch(window):
    at_the_gauge(window).tap("safe").look().tap("done stop_word", "done control_room").look()
    assert window.says(f"{TECHNICIAN}")
    window.tap("note control_room").look().tap("back", "back")
    assert window.screen == "steps"


def test_each_kind_of_answer_is_sound_on_screen(window):
    held(window)
    sitting = window.sitting
    for step, touches in {
        "permit": (),
        "valve": (("entry", "locked"),),
        "bubble": (("entry", "bubble_free"), ("choose", "many")),
        "station": (("entry", "station_p"),),
    }.items():
        sitting.touch("go", step)
        for touch in touches:
            if touch[0] != "entry" or sitting.place.screen == "step":
                sitting.touch(*touch)
        window.shell.show()
        window.look()


def test_people_and_job_sheet_are_sound_on_screen(window):
    begun(window).tap("people").look().tap("sheet").look().tap("section transformer").look()
    window.tap("down").look()


def test_sheet_is_typed_on_the_tablet(window):
    window.tap("new", "type sheet").look().tap("section job").look().tap("field number").look()
    window.type("TY-1").look().tap("keep")
    window.type("Ann").tap("keep")
    window.keys("20310504").look().tap("keep")
    text = (window.sitting.state.sheets / "typed-TY-1.toml").read_text("utf-8")
    assert "planned_start = 2031-05-04" in text
    assert 'number = "TY-1"' in text


def test_fault_of_the_program_leads_to_the_list_and_says_so(window, caplog):
    arrived(window)
    window.sitting.state.place = replace(window.sitting.place, screen="steps", step="permit")
    window.shell.show()
    window.shell._touched(window.shell, "no such touch")  # noqa: SLF001
    window.look()
    assert window.screen == "jobs"
    assert window.says("That did not work: the program is at fault.")
    assert "no such touch" in caplog.text
    window.tap(f"open job {NUMBER}")
    assert window.job.state.latest("second_name") is not None


def test_time_on_the_screen_goes_on_while_nobody_touches(window):
    begun(window)
    window.sitting.minute += 7
    before = set(window.joined())
    window.driver.wait(1.1)
    assert set(window.joined()) != before


def test_display_stays_on_while_a_hold_runs(window):
    from kivy.core.window import Window as Glass

    held(window)
    assert Glass.allow_screensaver
    for touch in (("go", "hold"), ("entry", "hold_readings"), ("start",)):
        window.sitting.desk.touched(*touch)
    window.sitting.desk.touched("steps")
    window.shell.show()
    assert not Glass.allow_screensaver
    Glass.allow_screensaver = True
