"""Two people with two secrets make the signed record on the tablet; whatever lacks is said."""

import shutil
from datetime import timedelta

import pytest
from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePublicKey

from fieldapp.crew.authority import Revoked, revocation_list
from fieldapp.crew.keys import key_path, read_key
from fieldapp.crew.roster import FOLDER, read_roster, write_roster
from fieldapp.crew.secret import Secret
from fieldapp.record.verification import verify
from fieldapp.screens.place import Place
from tests.record import small_job
from tests.record.small_job import BEGAN
from tests.screens.signed_jobs import (
    LEAD,
    SECRET,
    TECHNICIAN,
    Tablet,
    all_words,
    give_keys,
    keep_signed_job,
    plate,
)

RIGHT, WRONG = Secret(SECRET), Secret("kettle on the roof")


@pytest.fixture(scope="module")
def prepared(tmp_path_factory):
    home = tmp_path_factory.mktemp("prepared")
    number = keep_signed_job(home)
    give_keys(home)
    return home, number


@pytest.fixture
def number(prepared):
    return prepared[1]


@pytest.fixture
def tablet(tmp_path, prepared):
    home = tmp_path / "home"
    shutil.copytree(prepared[0], home)
    made = Tablet(home)
    yield made
    made.close()


def test_sign_off_leads_to_what_is_signed(tablet, number):
    view = tablet.at_the_record(number)
    words = all_words(view)
    head = tablet.state.kept.head.hash
    assert f"{number}, revision 1" in words
    assert "0 deviations open" in words
    assert f"{head[:4]} {head[4:8]}" in words
    assert f"Technician: {TECHNICIAN}" in words
    assert f"Crew lead: {LEAD}" in words
    assert words.count("locked") == 2
    assert plate(view, "unlock").kind == "main"


def test_two_secrets_one_after_the_other_make_the_record(tablet, number):
    tablet.at_the_record(number)
    view = tablet.touch("unlock")
    assert view.title == f"{TECHNICIAN}, technician: your secret"
    assert f"You sign {number}, revision 1" in view.lines[0]
    view = tablet.touch("given", RIGHT)
    assert view.title == f"{LEAD}, crew lead: your secret"
    view = tablet.touch("given", RIGHT)
    path = tablet.home / "records" / f"{number}.pdf"
    words = all_words(view)
    assert tablet.screen == "record"
    assert f"{number}.pdf: verified, nothing is wrong" in words
    assert str(path) in words.replace("\n", "")
    assert f"Signed by {TECHNICIAN}, technician" in words
    assert plate(view, "jobs").kind == "main"
    found = verify(path.read_bytes(), read_roster(tablet.home / FOLDER))
    assert (found.findings, [one.name for one in found.signers]) == ((), [TECHNICIAN, LEAD])


def test_keys_are_locked_again_once_the_record_is_made(tablet, number):
    tablet.at_the_record(number)
    for touch in (("unlock",), ("given", RIGHT), ("given", RIGHT)):
        tablet.touch(*touch)
    assert tablet.state.keys.signers == {}


def test_record_that_is_there_is_verified_and_not_made_again(tablet, number):
    tablet.at_the_record(number)
    for touch in (("unlock",), ("given", RIGHT), ("given", RIGHT), ("jobs",)):
        tablet.touch(*touch)
    path = tablet.home / "records" / f"{number}.pdf"
    before = path.read_bytes()
    again = Tablet(tablet.home)
    tablet.close()
    view = again.at_the_record(number)
    assert "verified, nothing is wrong" in all_words(view)
    again.touch("back")
    path.write_bytes(before.replace(b"%%EOF", b"%%EOG"))
    again.state.place = Place("signoff")
    view = again.touch("make record")
    assert "not as it should be" in all_words(view)
    again.close()


def test_wrong_secret_is_said_and_slows_down(tablet, number):
    tablet.at_the_record(number)
    tablet.touch("unlock")
    view = tablet.touch("given", WRONG)
    assert "does not open this key; type it again" in view.frame.refused
    assert view.waits == ""
    for _ in range(2):
        view = tablet.touch("given", WRONG)
    assert "(3 wrong in a row)" in view.frame.refused
    assert view.waits == "next try at 18:00:30"
    view = tablet.touch("given", RIGHT)
    assert "this one was not looked at" in view.frame.refused
    tablet.minutes += 0.5
    assert tablet.desk.view().waits == ""
    assert tablet.touch("given", RIGHT).title.startswith(LEAD)


def test_wait_is_still_on_after_the_app_was_killed(tablet, number):
    tablet.at_the_record(number)
    tablet.touch("unlock")
    for _ in range(3):
        tablet.touch("given", WRONG)
    tablet.close()
    again = Tablet(tablet.home)
    again.at_the_record(number)
    assert again.touch("unlock").waits == "next try at 18:00:30"
    again.close()


def test_while_a_secret_is_tried_the_screen_says_so_and_stays_alive(tablet, number):
    tablet.at_the_record(number)
    tablet.touch("unlock")
    view = tablet.touch("given", RIGHT, settle=False)
    assert tablet.desk.working
    assert view.working == "the secret is being tried"
    card = tablet.touch("safe", settle=False)
    assert card.rows
    tablet.desk.settle(wait=True)
    assert tablet.screen == "safe"
    assert tablet.state.keys.signers == {}


def test_one_thing_at_a_time_is_said_not_swallowed(tablet, number):
    tablet.at_the_record(number)
    tablet.touch("unsigned", settle=False)
    view = tablet.touch("unsigned", settle=False)
    assert "One moment: the record is being written" in all_words(view)
    while tablet.desk.settle(wait=True):
        pass


def test_who_walks_away_leaves_the_keys_locked(tablet, number):
    tablet.at_the_record(number)
    tablet.touch("unlock")
    tablet.touch("given", RIGHT)
    assert list(tablet.state.keys.signers) == ["technician"]
    tablet.touch("safe")
    tablet.touch("back")
    assert list(tablet.state.keys.signers) == ["technician"]
    tablet.touch("back")
    tablet.touch("jobs")
    assert tablet.state.keys.signers == {}


def test_secret_is_in_no_view_and_no_words_of_the_desk(tablet, number):
    tablet.at_the_record(number)
    tablet.touch("unlock")
    tablet.touch("given", RIGHT, settle=False)
    assert SECRET not in repr(tablet.desk.view())
    assert SECRET not in repr(tablet.state)
    while tablet.desk.settle(wait=True):
        pass


def test_unsigned_record_can_be_written(tablet, number):
    tablet.at_the_record(number)
    view = tablet.touch("unsigned")
    path = tablet.home / "records" / f"{number}-unsigned.pdf"
    assert path.is_file()
    assert str(path) in all_words(view).replace("\n", "")


def without_trust(home):
    shutil.rmtree(home / "trust")


def without_the_leads_key(home):
    key_path(home / "keys", read_roster(home / FOLDER).named(LEAD)).unlink()


def with_another_crew(home):
    shutil.rmtree(home / "trust")
    give_keys(home, technician="Ada Moor", lead="Bo Lind")


def with_roles_swapped(home):
    shutil.rmtree(home / "trust")
    give_keys(home, technician=LEAD, lead=TECHNICIAN)


def with_lists(home, *, revoked=(), until):
    key = read_key(home / "office" / "authority.key", SECRET)
    from dataclasses import replace

    from fieldapp.crew.authority import Authority

    roster = read_roster(home / FOLDER)
    serial = roster.named(TECHNICIAN).certificate.serial_number
    issued = revocation_list(
        Authority(roster.authority, key), [Revoked(serial, at, lost) for at, lost in revoked],
        number=9, at=BEGAN - timedelta(days=20), next_update=until,
    )  # fmt: skip
    write_roster(home / FOLDER, replace(roster, revocation_list=issued))


def with_a_lost_key(home):
    with_lists(home, revoked=[(BEGAN + timedelta(days=9), True)], until=BEGAN + timedelta(days=90))


def with_an_old_list(home):
    with_lists(home, until=BEGAN - timedelta(days=1))


def with_a_hurt_folder(home):
    (home / "trust" / "people.pem").write_bytes(b"x")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (without_trust, "There is no trust folder on this tablet"),
        (without_the_leads_key, f"The key of {LEAD} is not on this tablet; sign on the tablet"),
        (with_another_crew, f"{TECHNICIAN} is not among the people of Example office"),
        (with_roles_swapped, f"The certificate of {TECHNICIAN} says crew lead; the technician"),
        (with_a_lost_key, f"The certificate of {TECHNICIAN} was withdrawn on 2026-06-25"),
        (with_an_old_list, "list of withdrawn certificates ran out on 2026-06-15"),
        (with_a_hurt_folder, "The file cannot be read; take in the office's trust"),
    ],
    ids=lambda one: getattr(one, "__name__", ""),
)
def test_whatever_lacks_is_said_and_the_unsigned_record_is_offered(tablet, number, change, words):
    change(tablet.home)
    view = tablet.at_the_record(number)
    assert words in all_words(view)
    assert plate(view, "unlock").kind == "waiting"
    tablet.touch("unsigned")
    assert (tablet.home / "records" / f"{number}-unsigned.pdf").is_file()


def test_one_key_for_two_people_is_refused(tablet, number):
    from dataclasses import replace

    from fieldapp.crew.authority import Authority, enrol
    from fieldapp.crew.people import Role, person_of

    roster = read_roster(tablet.home / FOLDER)
    office = Authority(roster.authority, read_key(tablet.home / "office" / "authority.key", SECRET))
    key = roster.named(TECHNICIAN).certificate.public_key()
    assert isinstance(key, EllipticCurvePublicKey)
    both = person_of(enrol(office, LEAD, Role.CREW_LEAD, key, BEGAN - timedelta(days=1)))
    write_roster(tablet.home / FOLDER, replace(roster, people=(roster.people[0], both)))
    view = tablet.at_the_record(number)
    assert f"The key of {LEAD} is {TECHNICIAN}'s too: two people sign with two keys" in (
        all_words(view)
    )
    assert plate(view, "unlock").kind == "waiting"


def test_name_typed_instead_of_drawn_is_kept_as_typed(tmp_path):
    number = keep_signed_job(tmp_path, small_job.evacuated)
    tablet = Tablet(tmp_path)
    tablet.state.kept = tablet.state.jobs.open(number)
    tablet.state.who, tablet.state.place = TECHNICIAN, Place("signoff")
    tablet.touch("ask", "name")
    view = tablet.touch("name", LEAD)
    assert view.frame.refused == f"Type the name as it is printed: {TECHNICIAN}."
    assert view.note is not None
    view = tablet.touch("name", TECHNICIAN)
    assert (view.note, view.technician.typed) == (None, TECHNICIAN)
    assert tablet.touch("clear").technician.typed == ""
    tablet.touch("name", TECHNICIAN)
    view = tablet.touch("sign", "technician", ())
    signed = tablet.state.job.state.signature("technician")
    assert (signed.what.typed, signed.what.strokes) == (TECHNICIAN, ())
    assert (view.technician.signed, view.lead.typed) == (True, "")
    tablet.close()


def test_trust_folder_that_goes_meanwhile_is_said(tablet, number):
    tablet.at_the_record(number)
    tablet.touch("unlock")
    with_a_hurt_folder(tablet.home)
    view = tablet.touch("given", RIGHT)
    assert "the file cannot be read; take in the office's trust" in view.frame.refused
    assert tablet.state.keys.signers == {}
