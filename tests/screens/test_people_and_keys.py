"""People, keys and what the office sends, on the tablet: shown, made, taken in, refused clearly."""

from datetime import timedelta
from functools import partial
from pathlib import Path

import pytest

from fieldapp.crew.authority import Revoked, revocation_list
from fieldapp.crew.office import books
from fieldapp.crew.people import Role
from fieldapp.crew.roster import FOLDER, read_roster
from fieldapp.crew.secret import Secret
from fieldapp.crew.tablet.request import make_key, read_request
from fieldapp.crew.trust_file import trust_text
from fieldapp.screens import theme
from fieldapp.screens.crew.told import path_words
from fieldapp.screens.desk.keys import desk_keys
from fieldapp.screens.row_view import ListView
from tests.crew.offices import CHEAP, SECRET
from tests.record.small_job import BEGAN
from tests.screens.findings import false_grounds, findings
from tests.screens.signed_jobs import LEAD, TECHNICIAN, Tablet, all_words, give_keys, plate

OWN = Secret("lamp by the river")
NAME = "Cy Hale"


@pytest.fixture(autouse=True)
def _cheap(monkeypatch):
    """Stretch less, so that the tests are quick."""
    monkeypatch.setattr(desk_keys, "make_key", partial(make_key, cost=CHEAP))


@pytest.fixture
def tablet(tmp_path):
    made = Tablet(tmp_path / "tablet")
    yield made
    made.close()


@pytest.fixture
def office(tmp_path):
    at = BEGAN - timedelta(days=1)
    return books.found(tmp_path / "office", "Example office", SECRET, at, cost=CHEAP)


def make_a_key(tablet, name=NAME):
    tablet.touch("crew")
    tablet.touch("new key")
    tablet.touch("named", name)
    tablet.touch("given", OWN)
    return tablet.touch("given", OWN)


def send(tablet, office, name="trust.pem"):
    """Put the office's trust file on the tablet."""
    folder = tablet.home / "from-office"
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(trust_text(office.roster))


def answered(tablet, office):
    """Return the office once it has enrolled who asked on the tablet."""
    request = read_request(tablet.home / "for-office" / "Cy-Hale.request.pem")
    after, _ = books.enrolled(office, request, Role.TECHNICIAN, BEGAN)
    send(tablet, after)
    return after


def take(tablet, name="trust.pem"):
    tablet.touch("jobs")
    tablet.touch("crew")
    tablet.touch("trust")
    view = tablet.touch("offer", name)
    return tablet.touch("take in") if any(p.name == "take in" for p in view.rail) else view


def test_new_tablet_says_how_it_begins(tablet):
    words = all_words(tablet.touch("crew"))
    assert "No office yet" in words
    assert "touch “Take in”" in words
    assert "Copy the office's trust file into the folder" in all_words(tablet.touch("trust"))


def test_key_is_made_with_a_secret_given_twice_and_its_request_lies_ready(tablet):
    view = make_a_key(tablet)
    request = read_request(tablet.home / "for-office" / "Cy-Hale.request.pem")
    assert tablet.screen == "made"
    words = all_words(view)
    assert request.fingerprint[:4] in view.rows[0].first
    assert "Cy-Hale.request.pem" in words
    assert request.name == NAME
    listed = all_words(tablet.touch("back"))
    assert f"{NAME} | Key {request.fingerprint[:4]}" in listed
    assert "The office has not answered yet" in listed
    assert tablet.touch("request", request.fingerprint).title == NAME


def test_slip_in_the_new_secret_is_noticed(tablet):
    tablet.touch("crew")
    tablet.touch("new key")
    tablet.touch("named", NAME)
    tablet.touch("given", OWN)
    view = tablet.touch("given", Secret("lamp by the riva"))
    assert view.frame.refused == "The two secrets are not the same: type it again, from the start"
    assert view.title == f"{NAME}: a secret for your key"
    assert tablet.state.keys.secret is None
    assert not (tablet.home / "keys").exists()


@pytest.mark.parametrize("name", ["", "  ", "n" * 65])
def test_name_that_no_certificate_can_carry_is_asked_again(tablet, name):
    tablet.touch("crew")
    tablet.touch("new key")
    view = tablet.touch("named", name)
    assert "does not fit into a certificate" in view.frame.refused
    assert view.title.startswith("Whose key is it?")


def test_short_secret_is_asked_again(tablet):
    tablet.touch("crew")
    tablet.touch("new key")
    tablet.touch("named", NAME)
    view = tablet.touch("given", Secret("1234567"))
    assert "at least 8 characters" in view.frame.refused
    assert (view.least, view.hidden) == (8, True)


def test_secret_of_a_new_key_is_let_go_when_one_walks_away(tablet):
    tablet.touch("crew")
    tablet.touch("new key")
    tablet.touch("named", NAME)
    tablet.touch("given", OWN)
    assert tablet.state.keys.secret == OWN
    tablet.touch("back")
    assert tablet.state.keys.secret is None


def test_office_is_compared_the_first_time_and_then_known(tablet, office):
    make_a_key(tablet)
    after = answered(tablet, office)
    tablet.touch("jobs")
    tablet.touch("crew")
    tablet.touch("trust")
    view = tablet.touch("offer", "trust.pem")
    words = all_words(view)
    assert "an office new to this tablet. It vouches for: Cy Hale." in words
    assert after.roster.fingerprint[:4] in words
    assert plate(view, "take in").first == "It is the same"
    words = all_words(tablet.touch("take in"))
    assert tablet.screen == "crew"
    assert f"{NAME} | Technician. Key" in words
    assert "on this tablet" in words
    assert read_roster(tablet.home / FOLDER).number == 2
    send(tablet, books.with_new_list(after, BEGAN), "newer.pem")
    tablet.touch("trust")
    assert plate(tablet.touch("offer", "newer.pem"), "take in").first == "Take it in"


def test_withdrawn_person_is_shown_as_such(tablet, office):
    make_a_key(tablet)
    after = answered(tablet, office)
    take(tablet)
    gone = books.withdrawing(after, NAME, BEGAN + timedelta(hours=1), key_lost=True)
    send(tablet, gone)
    row = next(row for row in take(tablet).rows if row.first == NAME)
    assert (row.mark, row.word, row.right, row.below) == (
        "failed", "withdrawn", "2026-06-16", "key lost",
    )  # fmt: skip
    send(tablet, after, "older.pem")
    view = take(tablet, "older.pem")
    assert "is number 2, this tablet has number 3" in all_words(view)
    assert [plate.name for plate in view.rail] == ["back", "safe"]


def test_file_of_another_office_and_no_file_at_all_are_refused(tablet, office, tmp_path):
    send(tablet, office)
    take(tablet)
    other = books.found(tmp_path / "other", "Other office", SECRET, BEGAN, cost=CHEAP)
    send(tablet, other, "other.pem")
    words = all_words(take(tablet, "other.pem"))
    assert "It is from Other office, key" in words
    assert "an office another than this tablet knows" in words
    (tablet.home / "from-office" / "torn.pem").write_bytes(b"torn")
    assert "is not an office's trust file, or is damaged" in all_words(take(tablet, "torn.pem"))


def test_hurt_key_file_is_said_and_people_are_still_listed(tablet):
    give_keys(tablet.home)
    (tablet.home / "keys" / "torn.key").write_bytes(b"torn")
    words = all_words(tablet.touch("crew"))
    assert "does not hold a key" in words
    assert TECHNICIAN in words


def test_list_that_ran_out_is_shouted(tablet):
    give_keys(tablet.home)
    tablet.minutes = 60 * 24 * 400
    row = tablet.touch("crew").rows[0]
    assert (row.mark, row.word) == ("failed", "list is old")
    assert "ran out on" in row.second


def test_long_path_breaks_at_a_folder():
    path = Path("/home") / ("a" * 40) / ("b" * 20) / "records" / "HK-0417.pdf"
    *firsts, last = path_words(path).split("\n")
    assert [first[-1] for first in firsts] == ["/"]
    assert "".join((*firsts, last)) == str(path)


SCREENS = ("crew", "crew none", "made", "trust", "trust none", "offer first", "offer refused",
           "name", "new", "again", "technician", "record", "record made",
           "record without keys")  # fmt: skip


def stage(tmp_path, name):
    """Bring a tablet to a screen."""
    from tests.screens.signed_jobs import keep_signed_job

    tablet = Tablet(tmp_path / "tablet")
    if "none" not in name and "without" not in name and "first" not in name:
        give_keys(tablet.home)
    if name.startswith("record") or name == "technician":
        _to_record(tablet, keep_signed_job(tablet.home), name)
        return tablet
    office = books.found(tmp_path / "office", "Example office", SECRET, BEGAN, cost=CHEAP)
    if name != "trust none":
        send(tablet, office)
    tablet.touch("crew")
    if name.startswith(("trust", "offer")):
        tablet.touch("trust")
        if name.startswith("offer"):
            tablet.touch("offer", "trust.pem")
        return tablet
    for touch in {
        "name": (("new key",),),
        "new": (("new key",), ("named", NAME)),
        "again": (("new key",), ("named", NAME), ("given", OWN)),
        "made": (("new key",), ("named", NAME), ("given", OWN), ("given", OWN)),
    }.get(name, ()):
        tablet.touch(*touch)
    return tablet


def _to_record(tablet, number, name):
    tablet.at_the_record(number)
    if name in ("technician", "record made"):
        tablet.touch("unlock")
    if name == "record made":
        tablet.touch("given", Secret(SECRET))
        tablet.touch("given", Secret(SECRET))


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
@pytest.mark.parametrize("name", SCREENS)
def test_all_can_be_read_and_touched(driver, tmp_path, name, look):
    from fieldapp.screens.shell import Shell

    theme.switch_look(look)
    tablet = stage(tmp_path, name)
    tablet.state.look = look.name
    shell = driver.show(Shell(tablet.desk))
    assert findings(shell) == []
    assert list(false_grounds(shell, driver.picture())) == []
    driver.tap("safe")
    assert tablet.screen == "safe"
    tablet.close()


@pytest.mark.parametrize("name", ["crew", "offer first", "new", "technician", "record made"])
def test_all_can_be_read_upright(driver, tmp_path, name):
    from kivy.core.window import Window

    from fieldapp.screens.crew.secret import SecretScreen
    from fieldapp.screens.listing import ListScreen

    tablet = stage(tmp_path, name)
    view = tablet.desk.view()
    screen = ListScreen() if isinstance(view, ListView) else SecretScreen()
    Window.add_widget(screen)
    screen.size_hint, screen.size, screen.pos = (None, None), (800, 1280), (0, 0)
    screen.show(view)
    driver.frames(3)
    assert [found for found in findings(screen) if "off the window" not in found] == []
    tablet.close()


def test_key_is_made_by_real_touches_and_the_secret_is_hidden_until_one_wants_to_see(
    driver, tmp_path
):
    from fieldapp.screens.shell import Shell

    tablet = stage(tmp_path, "crew")
    shell = driver.show(Shell(tablet.desk))
    driver.tap("new key")
    driver.tap("secret")
    driver.type(NAME)
    assert not driver.get("secret").password
    driver.tap("give")
    assert driver.get("give").kind == "waiting"
    driver.tap("secret")
    driver.type(OWN.text[:7])
    assert (driver.get("give").kind, driver.get("give").second) == (
        "waiting", "at least 8 characters",
    )  # fmt: skip
    driver.type(OWN.text[7:])
    assert driver.get("secret").password
    driver.tap("show")
    assert not driver.get("secret").password
    driver.tap("give")
    assert driver.get("secret").text == ""
    assert driver.get("secret").password
    driver.tap("secret")
    driver.type(OWN.text)
    driver.key(13)  # the keyboard's own Enter does what the plate does
    tablet.desk.settle(wait=True)
    shell.show()
    driver.frames(3)
    assert tablet.screen == "made"
    assert (tablet.home / "for-office" / "Cy-Hale.request.pem").is_file()
    tablet.close()


def test_window_says_that_it_works_and_goes_on_by_itself(driver, tmp_path):
    import time

    from fieldapp.screens.shell import Shell

    tablet = stage(tmp_path, "technician")
    driver.show(Shell(tablet.desk))
    driver.tap("secret")
    driver.type(SECRET)
    driver.tap("give")
    if tablet.desk.working:
        assert driver.get("give").kind == "waiting"
    for _ in range(400):
        if not tablet.desk.working:
            break
        time.sleep(0.01)
        driver.wait(0.1)
    driver.frames(3)
    assert driver.get("title" if driver.all("title") else "give") is not None
    assert any(f"{LEAD}, crew lead: your secret" in text for text in driver.texts())
    tablet.close()


def test_withdrawal_of_the_technician_is_shown_in_red_with_its_mark(tmp_path):
    from dataclasses import replace

    from fieldapp.crew.authority import Authority
    from fieldapp.crew.keys import read_key
    from fieldapp.crew.roster import write_roster

    tablet = stage(tmp_path, "crew")
    roster = read_roster(tablet.home / FOLDER)
    key = read_key(tablet.home / "office" / "authority.key", SECRET)
    serial = roster.named(TECHNICIAN).certificate.serial_number
    issued = revocation_list(Authority(roster.authority, key), [Revoked(serial, BEGAN)],
                             number=2, at=BEGAN, next_update=BEGAN + timedelta(days=9))  # fmt: skip
    write_roster(tablet.home / FOLDER, replace(roster, revocation_list=issued))
    row = next(row for row in tablet.desk.view().rows if row.first == TECHNICIAN)
    assert (row.mark, row.word, row.below) == ("failed", "withdrawn", "left")
    tablet.close()
