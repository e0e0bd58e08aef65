"""From an office that is founded to a person who can sign: all by commands, nothing secret sent."""

import base64
from datetime import timedelta
from functools import partial

import click
import pytest
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
)

from fieldapp.commands.line import World, run
from fieldapp.crew.fingerprint import in_groups
from fieldapp.crew.keys import read_key
from fieldapp.crew.office import books
from fieldapp.crew.roster import FOLDER, read_roster
from fieldapp.crew.tablet.request import make_key, read_request
from fieldapp.crew.unlocking import unlock_signer
from tests.commands.conftest import NOW
from tests.crew.offices import CHEAP

OFFICE_SECRET, OWN_SECRET = "kettle on the hill", "lamp by the river"


class People:
    """The command line in two places, `office` and `tablet`, with secrets typed as told."""

    def __init__(self, folder, capsys, monkeypatch):
        self.folder, self.capsys = folder, capsys
        self.now, self.secret, self.same = NOW, OWN_SECRET, True
        monkeypatch.setattr(click, "prompt", lambda *_, **__: self.secret)
        monkeypatch.setattr(click, "confirm", lambda *_, **__: self.same)
        # stretched less, so that the tests are quick
        monkeypatch.setattr(books, "found", partial(books.found, cost=CHEAP))
        monkeypatch.setattr("fieldapp.commands.crew_tablet.make_key", partial(make_key, cost=CHEAP))

    def __call__(self, place, *arguments, secret=None):
        """Run `fieldapp crew` in a place; return (exit code, output, complaints)."""
        self.secret = secret or (OFFICE_SECRET if place == "office" else OWN_SECRET)
        world = World(lambda: self.now, self.folder / place, lambda _: None)
        code = run(["crew", *map(str, arguments)], world)
        written = self.capsys.readouterr()
        return code, written.out, written.err

    def refused(self, place, *arguments, **given):
        """Return the one line that says why."""
        code, output, complaint = self(place, *arguments, **given)
        assert code == 2, output
        assert complaint.count("\n") == 1, complaint
        return complaint

    def done(self, place, *arguments, **given):
        code, output, complaint = self(place, *arguments, **given)
        assert (code, complaint) == (0, ""), (output, complaint)
        return output


@pytest.fixture
def crew(tmp_path, capsys, monkeypatch):
    return People(tmp_path, capsys, monkeypatch)


@pytest.fixture
def trust(tmp_path):
    return tmp_path / "carried" / "trust.pem"


@pytest.fixture
def asked(crew):
    crew.done("office", "found", "Example grid office")
    crew.done("tablet", "request", "Ada Moor")
    return crew.folder / "tablet" / "for-office" / "Ada-Moor.request.pem"


@pytest.fixture
def enrolled(crew, asked, trust):
    crew.done("office", "enrol", asked, "--role", "technician", "--out", trust)
    crew.done("tablet", "take-in", trust)
    return crew


def test_person_asks_is_enrolled_and_can_sign(crew, asked, trust):
    output = crew.done("office", "enrol", asked, "--role", "technician", "--out", trust)
    assert "Ada Moor asks to be enrolled as technician." in output
    assert "counts until 2028-06-15" in output
    assert "List number 2: 0 withdrawn, next list due 2026-09-14." in output
    output = crew.done("tablet", "take-in", trust)
    assert "The fingerprint of the office Example grid office" in output
    assert "key on this tablet" in output
    home = crew.folder / "tablet"
    roster = read_roster(home / FOLDER)
    signer = unlock_signer(roster, home / "keys", "Ada Moor", OWN_SECRET, NOW)
    assert signer.person.role == "technician"


def test_both_sides_see_the_same_fingerprint_in_short_groups(crew):
    crew.done("office", "found", "Example grid office")
    told = crew.done("tablet", "request", "Ada Moor").splitlines()[2].strip()
    path = crew.folder / "tablet" / "for-office" / "Ada-Moor.request.pem"
    assert [len(group) for group in told.split()] == [4] * 8
    assert told in crew.done("office", "enrol", path, "--role", "technician")


def test_fingerprint_that_was_read_out_is_compared(crew, asked):
    output = crew.done("tablet", "request", "Bo Lind")
    bo = crew.folder / "tablet" / "for-office" / "Bo-Lind.request.pem"
    told = output.splitlines()[2].strip()
    wrong = crew.refused("office", "enrol", asked, "--role", "technician", "--fingerprint", told)
    assert "not the one given: nothing was written; compare again, face to face" in wrong
    crew.done("office", "enrol", bo, "--role", "crew-lead", "--fingerprint", told.upper())
    listed = crew.done("office", "list")
    assert "Bo Lind, crew lead" in listed
    assert "Ada Moor" not in listed


def test_nobody_is_enrolled_when_the_fingerprints_differ(crew, asked):
    crew.same = False
    assert crew.refused("office", "enrol", asked, "--role", "technician") == (
        "Stopped; nothing more was written.\n"
    )
    assert read_roster(crew.folder / "office" / FOLDER).people == ()


def test_withdrawal_reaches_the_tablet_and_an_older_list_does_not_come_back(enrolled, trust):
    crew, old = enrolled, trust
    new = trust.with_name("new.pem")
    output = crew.done("office", "withdraw", "Ada Moor", "--reason", "key-lost", "--out", new)
    assert "Ada Moor is withdrawn (key-lost)" in output
    assert "List number 3: 1 withdrawn" in output
    crew.done("tablet", "take-in", new)
    assert "withdrawn on 2026-06-16, key lost, key on this tablet" in crew.done("tablet", "list")
    complaint = crew.refused("tablet", "take-in", old)
    assert "is number 2, this tablet has number 3" in complaint
    assert "nothing was taken in" in complaint
    assert "withdrawn on 2026-06-16" in crew.done("tablet", "list")


def test_renewal_keeps_the_key(enrolled, trust):
    crew = enrolled
    crew.now = NOW + timedelta(days=700)
    before = read_roster(crew.folder / "tablet" / FOLDER).named("Ada Moor")
    output = crew.done("office", "renew", "Ada Moor", "--out", trust)
    assert "counts until 2030-05-16" in output
    crew.done("tablet", "take-in", trust)
    after = read_roster(crew.folder / "tablet" / FOLDER).named("Ada Moor")
    assert after.fingerprint == before.fingerprint
    assert after.certificate.not_valid_after_utc > before.certificate.not_valid_after_utc
    assert crew.done("tablet", "list").count("Ada Moor") == 1


def test_list_that_ran_out_is_refused_until_it_is_made_anew(enrolled, trust):
    crew = enrolled
    crew.now = NOW + timedelta(days=91)
    crew.done("office", "give-out", "--out", trust)
    assert "ran out on 2026-09-14" in crew.refused("tablet", "take-in", trust)
    crew.done("office", "renew", "--list-lasts", "30", "--out", trust)
    assert "next list due 2026-10-15" in crew.done("tablet", "take-in", trust)


def test_other_office_is_refused_by_name_and_key(enrolled, trust):
    crew = enrolled
    crew.done("other", "found", "Example grid office", secret=OFFICE_SECRET)
    crew.done("other", "give-out", "--out", trust)
    complaint = crew.refused("tablet", "take-in", trust)
    assert "it is from Example grid office, key" in complaint
    assert "this tablet takes the word of Example grid office, key" in complaint


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("enrol", "no-such.pem", "--role", "technician"), "no-such.pem: no such file"),
        (("enrol", "no-such.pem", "--role", "foreman"), "--role: 'foreman' is not one of"),
        (("withdraw", "Cy Hale", "--reason", "left"), "'Cy Hale' is not among the people"),
        (("withdraw", "Ada Moor", "--reason", "tired"), "--reason: 'tired' is not one of"),
        (("renew", "Cy Hale"), "'Cy Hale' is not among the people"),
        (("take-in", "no-such.pem"), "no-such.pem: no such file"),
        (("found", "Example grid office"), "an office or a trust folder here already"),
    ],
)
def test_refusal_is_one_line(enrolled, arguments, words):
    assert words in enrolled.refused("office", *arguments)


def test_secret_is_long_enough_and_right(crew, asked):
    complaint = crew.refused("tablet", "request", "Bo Lind", secret="1234567")
    assert "at least 8 characters" in complaint
    wrong = ("enrol", asked, "--role", "technician")
    for words in ("does not open this key; type", "does not open this key; type", "3 wrong"):
        assert words in crew.refused("office", *wrong, secret="wrong but long")
    assert "the next try is at 06:45:30" in crew.refused("office", *wrong)


def test_place_without_trust_folder_says_what_to_do(crew):
    assert "the file is missing; take in the office's trust file" in crew.refused("tablet", "list")
    wrong = crew.refused("office", "renew")
    assert "no office was founded here: “fieldapp crew found NAME”" in wrong


def test_no_key_leaves_in_the_clear(enrolled, tmp_path):
    enrolled.done("office", "renew", "Ada Moor", "--out", tmp_path / "carried" / "more.pem")
    office = read_key(tmp_path / "office" / "office" / "authority.key", OFFICE_SECRET)
    (place,) = (tmp_path / "tablet" / "keys").glob("*.key")
    files = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert len(files) > 9
    for key in (office, read_key(place, OWN_SECRET)):
        number = key.private_numbers().private_value.to_bytes(32, "big")
        der = key.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())
        written = [
            number,
            number[::-1],
            number.hex().encode(),
            str(int.from_bytes(number)).encode(),
        ]
        # base64 of the number wherever it begins: three positions, without the letters at its ends
        written += [base64.b64encode(bytes(at) + number)[4:40] for at in range(3)]
        written += [base64.b64encode(der)[:60], b"PRIVATE KEY"]
        for path in files:
            content = path.read_bytes()
            joined = content.replace(b"\n", b"")
            assert not [form for form in written if form in content or form in joined], path


def test_what_is_carried_holds_no_secret_and_keys_are_for_their_owner_only(enrolled, tmp_path):
    for path in (path for path in tmp_path.rglob("*") if path.is_file()):
        content = path.read_bytes()
        assert OWN_SECRET.encode() not in content, path
        assert OFFICE_SECRET.encode() not in content, path
        if path.suffix == ".key":
            assert path.stat().st_mode & 0o077 == 0, path


def test_groups_are_what_the_request_itself_says(enrolled, asked):
    assert in_groups(read_request(asked).fingerprint) in enrolled.done("tablet", "list")
