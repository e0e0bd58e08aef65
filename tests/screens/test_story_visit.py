"""A visit begun from the course and left with something in force; and a record signed by two."""

from fieldapp.crew.roster import FOLDER, read_roster
from fieldapp.job.events import HandedOver
from fieldapp.record.verification import verify
from fieldapp.screens.app import checklists_here
from fieldapp.screens.desk.desk import Desk
from tests.record import small_job
from tests.screens.course import LEAD, TECHNICIAN, hooked_up
from tests.screens.person import Person, Watch
from tests.screens.signed_jobs import SECRET, give_keys, keep_signed_job
from tests.screens.stages import moment

HAND = ((0.1, 0.4), (0.3, 0.8), (0.5, 0.3), (0.9, 0.7))


def at_the_tablet(driver, home, watch):
    return Person(driver, Desk(home, watch, checklists_here()), watch)


def test_visit_is_begun_from_the_course_and_handed_over_with_a_block_in_force(driver, tmp_path):
    person = at_the_tablet(driver, hooked_up(tmp_path), Watch(moment("09:00", 18)))
    person.touch("T2", "Begin", "Visit to a running skid", TECHNICIAN)
    person.touch("Tell the control room", "Who answered").write("Desk 2").touch("Keep")
    person.touch("Back", "Back", "In force", "Enter more", "tap changer on manual", "Go on")
    person.touch("Emil Strand", "Go on", "no time named", "Keep it")
    assert person.reads("tap changer on manual")

    person.touch("Back", "Back", "Hand over", LEAD, "Hand over")
    handed = person.job.state.log[-1]
    assert isinstance(handed.what, HandedOver)
    assert handed.by == TECHNICIAN
    assert LEAD in str(handed.what)
    assert person.desk.state.place.screen == "jobs"
    assert person.touches < 35
    person.desk.close()


def test_two_sign_off_and_both_secrets_make_the_record(driver, tmp_path):
    keep_signed_job(tmp_path, small_job.evacuated)
    give_keys(tmp_path)
    watch = Watch(small_job.BEGAN.replace(hour=16))
    person = at_the_tablet(driver, tmp_path, watch)
    person.touch("T2", TECHNICIAN, "Sign as technician")
    person.draw(*HAND).touch("Sign as technician")
    person.touch(TECHNICIAN, LEAD)
    while person.can("Seen"):
        person.touch("Seen")
    person.touch("Type name").write(LEAD).touch("Take the name", "Sign off")
    assert person.reads("Signed off and locked")

    person.touch("Make the record", "Sign")
    person.write("not the secret at all").touch("Unlock")
    assert person.reads("does not open this key")
    person.write(SECRET).touch("Unlock").write(SECRET).touch("Unlock")
    assert person.reads("verified, nothing is wrong")
    (record,) = (tmp_path / "records").glob("*.pdf")
    assert verify(record.read_bytes(), read_roster(tmp_path / FOLDER)).sound
    assert person.touches < 40
    person.desk.close()
