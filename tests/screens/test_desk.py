"""Every touch does what it means, keeps it, and leads to the right screen."""

import pytest

from fieldapp.job.events import Accepted, Closed, Entered, Explained, MadeSafe, Reported
from fieldapp.journal.errors import JournalPoisonedError, NoSpaceError
from fieldapp.journal.jobs import KeptJob
from fieldapp.judgement.evaluation import StepState
from fieldapp.screens.reason_view import CORRECT, EXPLAIN
from tests.actions.hookup import HOLD
from tests.screens.sitting import LEAD, NUMBER, SHEET, TECHNICIAN, Sitting


@pytest.fixture
def sitting(tmp_path):
    made = Sitting(tmp_path)
    yield made
    made.desk.close()


def last(sitting):
    return sitting.job.state.log[-1].what


def test_sheet_leads_to_the_crew_and_the_person_begins_the_job(sitting):
    assert sitting.place.screen == "jobs"
    sitting.touch("new")
    assert sitting.place.screen == "newjob"
    sitting.touch("sheet", "kestrel.toml")
    assert sitting.place.screen == "people"
    assert sitting.state.jobs.numbers() == ()
    sitting.touch("person", TECHNICIAN)
    assert sitting.place.screen == "steps"
    assert sitting.state.jobs.numbers() == (NUMBER,)
    assert sitting.job.state.log[0].by == TECHNICIAN


def test_faulty_sheet_shows_its_problems_with_lines(tmp_path):
    faulty = SHEET.replace('elevation = "1500 m"', 'elevation = "15000 m"')
    sitting = Sitting(tmp_path, {"bad.toml": faulty})
    sitting.touch("new")
    view = sitting.touch("sheet", "bad.toml")
    line = faulty[: faulty.index("elevation")].count("\n") + 1
    assert view.rows[0].first.startswith(f"{line}: [site]: elevation 15000 m: outside")
    assert sitting.state.jobs.numbers() == ()
    sitting.desk.close()


def test_sheet_that_is_no_text_is_a_problem_not_a_crash(tmp_path):
    sitting = Sitting(tmp_path)
    (tmp_path / "sheets" / "photo.toml").write_bytes(b"\xff\xd8\xff")
    sitting.touch("new")
    assert "cannot be read" in sitting.touch("sheet", "photo.toml").rows[0].first
    sitting.desk.close()


def test_job_is_opened_again_after_the_app_was_closed(tmp_path):
    first = Sitting(tmp_path).arrived()
    first.desk.close()
    again = Sitting(tmp_path)
    again.touch("open job", NUMBER)
    assert again.place.screen == "people"
    again.touch("person", LEAD)
    assert again.place.screen == "steps"
    assert again.job.state.latest("plate_serial").fields["value"] == "MX-4471"
    again.desk.close()


def test_damaged_journal_is_a_row_and_keeps_no_other_job_from_opening(tmp_path):
    second = SHEET.replace('"KM-2031.04"', '"KM-2031.05"')
    sitting = Sitting(tmp_path, {"kestrel.toml": SHEET, "second.toml": second}).arrived()
    sitting.to_jobs()
    sitting.touch("new")
    sitting.touch("sheet", "second.toml")
    sitting.touch("person", TECHNICIAN)
    sitting.desk.close()
    (journal,) = (tmp_path / "jobs" / NUMBER).glob("*.journal")
    journal.write_bytes(journal.read_bytes().replace(b"MX-4471", b"MX-4472"))
    again = Sitting(tmp_path)
    rows = again.view().rows
    assert [(row.word, row.touch) for row in rows] == [
        ("at work", "open job"),
        ("not open", "hurt"),
    ]
    assert "give the tablet to the office" in rows[1].second
    assert str(tmp_path) not in rows[1].second
    again.touch("open job", "KM-2031.05")
    assert again.job.sheet.number == "KM-2031.05"
    again.desk.close()


def test_number_is_kept_with_its_instrument_before_the_next_screen(sitting):
    sitting.at_the_gauge()
    sitting.give("reached", ("typed", "50.0"))
    assert sitting.job.state.latest("reached") is None
    sitting.touch("keep")
    given = sitting.job.state.latest("reached")
    assert (given.fields["value"], given.instrument) == ("50.0", "vacuum_gauge")
    assert sitting.state.typed == {}
    assert sitting.place.screen == "step"


def test_too_near_is_kept_with_a_reason(sitting):
    sitting.at_the_gauge()
    view = None
    sitting.give("reached", ("typed", "165.0"))
    view = sitting.desk.view()
    assert view.body.verdict.mark == "near"
    assert [plate.name for plate in view.body.side] == ["missing", "again", "say why"]
    sitting.touch("say why")
    assert (sitting.place.screen, sitting.place.purpose) == ("reason", EXPLAIN)
    sitting.touch("typed", "gauge is coarse")
    sitting.touch("kept", "gauge is coarse")
    assert last(sitting) == Explained("reached", "gauge is coarse")
    assert sitting.place.screen == "step"


def test_outside_and_never_to_be_accepted_is_kept_and_stops_the_step(sitting):
    sitting.begin()
    sitting.give("permit_ends", ("typed", "0830"))
    assert sitting.desk.view().body.verdict.mark == "failed"
    sitting.touch("keep")
    standing = sitting.state.evaluation().steps["permit"]
    assert standing.state is StepState.DEVIATION
    assert "nobody may accept" in standing.why


def test_measure_again_lets_go_of_what_was_typed(sitting):
    sitting.at_the_gauge()
    sitting.give("reached", ("typed", "170.0"), ("again",))
    assert sitting.state.typed == {}
    assert sitting.desk.view().body.shown == ""


def test_slip_is_corrected_with_a_reason_and_the_old_value_stays(sitting):
    sitting.at_the_gauge()
    sitting.give("station_p", ("typed", "834.2"), ("correct",))
    assert sitting.place.purpose == CORRECT
    sitting.touch("kept", "digits turned round")
    what = last(sitting)
    assert isinstance(what, Entered)
    assert (what.fields["value"], what.reason) == ("834.2", "digits turned round")
    assert [given.fields["value"] for given in sitting.job.state.given["station_p"]] == [
        "843.2",
        "834.2",
    ]


def test_slip_without_a_new_value_is_told(sitting):
    sitting.at_the_gauge()
    sitting.give("station_p", ("correct",))
    assert "Give the right one first" in sitting.state.refused


def test_correction_without_words_is_refused_and_the_value_stays_typed(sitting):
    sitting.at_the_gauge()
    sitting.give("station_p", ("typed", "834.2"), ("correct",), ("kept", " "))
    assert sitting.state.refused == "Say why."
    assert sitting.state.text("station_p") == "834.2"


def test_refusal_names_the_gate_and_keeps_what_was_typed(sitting):
    sitting.begin()
    view = sitting.touch("go", "station")
    assert view.rows[0].touch == "go"
    sitting.touch("entry", "station_p")
    sitting.touch("typed", "843.2")
    view = sitting.touch("keep")
    assert view.frame.refused == "First “Lock the valve; two people look”: it is not in order."
    assert view.body.typed == "843.2"
    assert sitting.touch("typed", "843.1").frame.refused == ""


def test_second_person_may_not_be_the_one_who_enters(sitting):
    sitting.begin()
    sitting.give("permit_ends", ("typed", "1800"), ("keep",))
    sitting.give("plate_serial", ("typed", "MX-4471"), ("keep",))
    sitting.give("second_name", ("typed", TECHNICIAN), ("keep",))
    assert "a second person must look" in sitting.state.refused


def test_shutdown_fails_then_is_proven_and_both_stay(sitting):
    hold_held(sitting.at_the_gauge())
    failed = [
        ("answer", "tripped", "yes"), ("typed", "3.8"), ("next part",), ("typed", "7.5"),
        ("next part",), ("answer", "seen_0", "yes"), ("answer", "seen_1", "yes"), ("keep",),
    ]  # fmt: skip
    sitting.give("a_flow", *failed)
    verdict = sitting.state.evaluation().steps["flow"].verdicts["a_flow"]
    assert verdict.sentence.startswith("Failed. Closed after 7.5 s")
    proven = [("typed", "3.2") if touch == ("typed", "7.5") else touch for touch in failed]
    sitting.touch("entry", "a_flow")
    assert sitting.desk.view().asking.earlier[0].mark == "failed"
    for touch in proven:
        sitting.touch(*touch)
    assert sitting.state.evaluation().steps["flow"].in_order
    assert len(sitting.job.state.given["a_flow"]) == 2


def hold_held(sitting):
    sitting.give("reached", ("typed", "50.0"), ("keep",))
    shown = sitting.touch("go", "hold")
    assert sitting.place.screen == "hold"
    assert type(shown).__name__ == "HoldView"
    sitting.desk.touched("start")
    begin = sitting.minute
    for place, (pressure, wall) in enumerate(HOLD):
        sitting.minute = begin + 10 * place
        sitting.desk.touched("reading", {"hold_p": pressure, "hold_t": wall})
    assert sitting.desk.running
    sitting.desk.touched("end", "")
    assert not sitting.desk.running
    return sitting


def test_shutdown_that_does_not_trip_asks_nothing_more(sitting):
    hold_held(sitting.at_the_gauge())
    sitting.give("a_flow", ("answer", "tripped", "no"))
    assert sitting.place.part == "seen"
    assert sitting.desk.view().body.verdict.sentence == "Failed: no trip."
    sitting.touch("keep")
    assert sitting.job.state.latest("a_flow").fields == {"tripped": "no"}


def test_reading_is_corrected_at_the_hold(sitting):
    sitting.at_the_gauge().give("reached", ("typed", "50.0"), ("keep",))
    sitting.desk.touched("go", "hold")
    sitting.desk.touched("start")
    sitting.desk.touched("ask", "hold_p")
    assert sitting.place.part == "hold_p"
    sitting.desk.touched("typed", "62.0", "hold_p")
    assert sitting.state.text("hold_readings", "hold_p") == "62.0"
    sitting.desk.touched("reading", {"hold_p": "62.0", "hold_t": "21.5"})
    assert sitting.place.part == ""
    (reading,) = sitting.job.state.attempt("hold_readings").readings
    sitting.desk.touched(
        "correct reading", reading.sequence, {"hold_p": "26.0", "hold_t": "21.5"}, "turned round"
    )
    (reading,) = sitting.job.state.attempt("hold_readings").readings
    assert reading.fields["hold_p"] == "26.0"
    assert reading.replaced[0].fields["hold_p"] == "62.0"


def test_lead_accepts_on_a_condition_and_nobody_else(sitting):
    sitting.at_the_gauge()
    sitting.give("reached", ("typed", "170.0"), ("say why",), ("kept", "pump is tired"))
    sitting.touch("accept", "reached")
    sitting.touch("kept", "new pump tomorrow")
    assert "Only the crew lead" in sitting.state.refused
    sitting.touch("people")
    sitting.touch("person", LEAD)
    assert sitting.place.screen == "reason"
    sitting.touch("kept", "new pump tomorrow")
    what = last(sitting)
    assert isinstance(what, Accepted)
    assert (what.accepter, what.condition) == (LEAD, "new pump tomorrow")


def test_owner_accepts_by_name_and_document(tmp_path):
    engineer = {"name": "Ova Stern", "role": "owner's engineer", "company": "Moorland Grid"}
    named = SHEET + "\n[[crew]]\n" + "".join(f'{k} = "{v}"\n' for k, v in engineer.items())
    sitting = Sitting(tmp_path, {"kestrel.toml": named}).at_the_gauge()
    sitting.give("reached", ("typed", "50.0"), ("keep",))
    sitting.desk.touched("go", "hold")
    sitting.desk.touched("start")
    for _ in range(4):
        sitting.desk.touched("reading", {"hold_p": "62.0", "hold_t": "21.5"})
    sitting.desk.touched("end")
    sitting.touch("accept", "hold_readings")
    sitting.touch("kept", "rain was coming")
    assert sitting.place.purpose == "document"
    sitting.touch("kept", "LT-204")
    what = last(sitting)
    assert (what.accepter, what.document) == ("Ova Stern", "LT-204")
    sitting.desk.close()


@pytest.mark.parametrize("screen", ["jobs", "newjob", "steps", "step", "entry", "reason", "people"])
def test_making_safe_is_one_touch_away_and_stamped(sitting, screen):
    sitting.at_the_gauge()
    {
        "jobs": sitting.to_jobs,
        "newjob": lambda: (sitting.to_jobs(), sitting.touch("new")),
        "steps": lambda: sitting.touch("steps"),
        "step": lambda: sitting.touch("go", "valve"),
        "entry": lambda: sitting.touch("go", "target"),
        "reason": lambda: sitting.give("station_p", ("typed", "834.2"), ("correct",)),
        "people": lambda: sitting.touch("people"),
    }[screen]()
    assert sitting.place.screen == screen
    sitting.touch("safe")
    view = sitting.touch("done", "stop_word")
    assert isinstance(last(sitting), MadeSafe)
    assert view.rows[0].stamped
    sitting.touch("back")
    assert sitting.place.screen == screen


def test_note_is_added_to_an_act_of_the_card(sitting):
    sitting.begin()
    sitting.touch("safe")
    sitting.touch("done", "control_room")
    sitting.touch("note", "control_room")
    sitting.touch("kept", "Kari answered")
    assert last(sitting).note == "Kari answered"
    assert sitting.place.screen == "safe"


def test_card_without_any_job_says_that_nothing_is_stamped(sitting):
    sitting.touch("safe")
    view = sitting.touch("done", "stop_word")
    assert "nothing can be stamped" in view.told


def test_report_and_closing_a_valve_are_never_gated(sitting):
    sitting.begin()
    sitting.touch("report")
    sitting.touch("ask", "joint_touched")
    sitting.touch("report", "joint_touched", "V3")
    assert sitting.place.screen == "open"
    assert last(sitting) == Reported("joint_touched", "V3")
    sitting.touch("hookup")
    sitting.touch("ask", "suction_tank_valve")
    sitting.touch("close valve", "suction_tank_valve")
    assert last(sitting) == Closed("suction_tank_valve")


@pytest.mark.parametrize(
    ("failure", "words"),
    [
        (NoSpaceError, "the tablet has no space left"),
        (lambda path: JournalPoisonedError(path, "the disk failed"), "Enter it again: the job is"),
    ],
    ids=["full disk", "poisoned journal"],
)
def test_what_is_not_saved_is_said_and_stays_typed(sitting, tmp_path, monkeypatch, failure, words):
    sitting.begin()

    def keep(self, outcome):
        raise failure(tmp_path / "x.journal")

    with monkeypatch.context() as broken:
        broken.setattr(KeptJob, "keep", keep)
        sitting.give("permit_ends", ("typed", "1800"))
        view = sitting.touch("keep")
        assert words in view.frame.not_saved
        assert str(tmp_path) not in view.frame.not_saved
        assert view.body.typed == "1800"
    view = sitting.touch("keep")
    assert sitting.state.not_saved == ""
    assert sitting.job.state.latest("permit_ends").fields["value"] == "18:00"


def test_technician_then_lead_sign_with_what_they_drew(sitting):
    hold_held(sitting.at_the_gauge())
    sitting.give("a_flow", ("answer", "tripped", "yes"), ("typed", "3.8"), ("next part",),
                 ("typed", "3.2"), ("next part",), ("answer", "seen_0", "yes"),
                 ("answer", "seen_1", "yes"), ("keep",))  # fmt: skip
    sitting.give("bubble_free", ("choose", "none"), ("keep",))
    sitting.give("handed", ("yes",))
    sitting.desk.touched("go", "sign_t")
    assert sitting.place.screen == "signoff"
    head = sitting.state.kept.head.hash
    sitting.desk.touched("strokes", (((0.1, 0.5), (0.2, 0.75)),))
    sitting.desk.touched("sign", "technician")
    signed = sitting.job.state.signature("technician").what
    assert (signed.head, signed.strokes) == (head, ((("0.1000", "0.5000"), ("0.2000", "0.7500")),))
    assert sitting.state.strokes == ()
    sitting.touch("people")
    sitting.touch("person", LEAD)
    sitting.touch("sign", "crew lead", (((0.3, 0.5), (0.4, 0.6)),))
    assert sitting.job.state.signature("crew lead").what.name == LEAD
    sitting.touch("jobs")
    assert sitting.desk.view().rows[0].word == "done"


def test_look_is_changed_from_the_list(sitting):
    sitting.touch("look")
    assert sitting.desk.look == "night"


def test_time_of_another_day_is_kept_with_its_date(sitting):
    sitting.begin()
    sitting.give("permit_ends", ("typed", "0600"), ("day",))
    assert sitting.desk.view().body.unit == "tomorrow"
    sitting.touch("keep")
    assert sitting.job.state.latest("permit_ends").fields["value"] == "2031-05-05 06:00"


def test_sheet_that_is_gone_when_it_is_to_be_changed_is_told_in_a_line(tmp_path):
    sitting = Sitting(tmp_path, {"faulty.toml": "number = 1"})
    sitting.touch("new")
    sitting.touch("sheet", "faulty.toml")
    (tmp_path / "sheets" / "faulty.toml").unlink()
    sitting.touch("change", "faulty.toml")
    assert sitting.place.screen == "newjob"
    assert sitting.state.refused == "faulty.toml: cannot be read: copy it to the tablet again."
    sitting.desk.close()
