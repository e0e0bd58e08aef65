"""A gap is stated, two stories are looked at and settled; the tablet says who stands for what."""

import shutil
from datetime import timedelta
from io import BytesIO

import click
import pytest
from PIL import Image

from fieldapp.actions.entering import enter
from fieldapp.actions.rules import Act
from fieldapp.crew.enrolment import enrol_crew
from fieldapp.job.events import Entered, Event
from fieldapp.journal.jobs import Jobs, KeptJob
from fieldapp.journal.pictures import keep
from tests.actions.play import BEGIN, CHECKLIST, LEAD, SHEET, TECHNICIAN
from tests.commands.conftest import NOW

NUMBER = "KM-2031.04"
SECRET = "kettle on the hill"


def permit(home, ends):
    jobs = Jobs(home, lambda: BEGIN)
    kept = jobs.open(NUMBER)
    act = Act(TECHNICIAN, BEGIN + timedelta(minutes=1))
    assert kept.keep(enter(kept.job, "permit_ends", {"value": ends}, act)) is None
    jobs.close()


@pytest.fixture
def home(fieldapp):
    """A home with one job of two events."""
    fieldapp.home.mkdir()
    (fieldapp.home / "device").write_text("one\n")
    jobs = Jobs(fieldapp.home, lambda: BEGIN)
    assert isinstance(jobs.begin(CHECKLIST, SHEET, TECHNICIAN), KeptJob)
    jobs.close()
    permit(fieldapp.home, "18:00")
    return fieldapp.home


@pytest.fixture
def other(fieldapp, home, tmp_path):
    """Another tablet that took the job over, after which both went on."""
    there = tmp_path / "other"
    file = tmp_path / "over.zip"
    assert fieldapp("store", "hand-over", NUMBER, "--out", file)[0] == 0
    there.mkdir()
    (there / "device").write_text("two\n")
    assert fieldapp("--home", there, "store", "receive", file)[0] == 0
    permit(home, "19:00")
    permit(there, "20:00")
    permit(there, "21:00")
    return there


@pytest.fixture
def apart(fieldapp, other, tmp_path):
    """The other tablet's file."""
    file = tmp_path / "apart.zip"
    assert fieldapp("--home", other, "store", "hand-over", NUMBER, "--out", file)[0] == 0
    return file


def test_second_story_is_refused_first_so_that_work_can_go_on(fieldapp, home, apart):
    code, output, complaint = fieldapp("store", "receive", apart)
    assert (code, output) == (1, "")
    assert complaint == (
        f"{apart}: one and two each went on after event 1. Nothing was written, so the job can be "
        "worked on here. To settle it on this tablet, take both sides in with --both\n"
    )
    permit(home, "22:00")


def test_both_sides_are_shown_entry_by_entry_and_settled(fieldapp, home, apart):
    code, output, _ = fieldapp("store", "receive", apart, "--both")
    assert code == 1
    assert "3 entries new of two" in output
    assert "by 1 event and 2 events" in output
    code, output, _ = fieldapp("store", "check")
    assert code == 1
    assert f"{NUMBER}: one and two each went on after event 1" in output
    code, output, _ = fieldapp("store", "conflict", NUMBER)
    assert code == 1
    assert output.splitlines() == [
        f"{NUMBER}: one and two each went on after event 1",
        "",
        "one: 1 event",
        f"  2  2031-05-04 08:01  {TECHNICIAN}  entered permit_ends, value: 19:00",
        "",
        "two: 2 events",
        f"  2  2031-05-04 08:01  {TECHNICIAN}  entered permit_ends, value: 20:00",
        f"  3  2031-05-04 08:01  {TECHNICIAN}  entered permit_ends, value: 21:00",
        "",
        (
            f"Settle it with “fieldapp store settle {NUMBER} --by NAME --keep one --reason TEXT”, "
            "or --keep another. What is set aside stays readable, and what it touched is to do "
            "again"
        ),
    ]
    said = ("--by", LEAD, "--keep", "two", "--reason", "two stood at the unit")
    code, output, _ = fieldapp("store", "settle", NUMBER, *said)
    assert code == 0
    assert f"{LEAD} settles that two goes on after event 1; 1 event set aside" in output
    assert fieldapp("store", "check")[0] == 0
    assert fieldapp("store", "conflict", NUMBER) == (
        0,
        f"{NUMBER}: its journals tell one story\n",
        "",
    )


def test_settlement_is_told_where_it_arrives(fieldapp, home, other, apart, tmp_path):
    fieldapp("store", "receive", apart, "--both")
    said = ("--by", LEAD, "--keep", "one", "--reason", "one stood at the unit")
    assert fieldapp("store", "settle", NUMBER, *said)[0] == 0
    file = tmp_path / "settled.zip"
    assert fieldapp("store", "hand-over", NUMBER, "--out", file)[0] == 0
    code, output, _ = fieldapp("--home", other, "store", "receive", file)
    assert code == 0
    assert f"settled by {LEAD}: one goes on, 2 events set aside" in output


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("settle", NUMBER, "--by", "A", "--keep", "one", "--reason", "b"), "nothing to settle"),
        (("settle", "no-such", "--by", "A", "--keep", "x", "--reason", "b"), "not found"),
        (("conflict", "no-such"), "not found"),
        (("backup",), "no second place is set: name one with --to FOLDER"),
        (("gap", NUMBER, "--by", "A", "--reason", "b"), "nothing is missing; open the job"),
    ],
)
def test_what_cannot_be_done_is_one_line(fieldapp, home, arguments, words):
    code, output, complaint = fieldapp("store", *arguments)
    assert (code, output) == (2, "")
    assert words in complaint
    assert complaint.count("\n") == 1


@pytest.fixture
def lost(home):
    """A journal whose last entry the disk lost."""
    journal = next(home.glob("jobs/*/*.journal"))
    first, _ = journal.read_bytes().splitlines(keepends=True)
    journal.write_bytes(first)
    return journal


@pytest.fixture
def keys(home, monkeypatch):
    enrol_crew(home, office="Example office", technician=TECHNICIAN, lead=LEAD,
               at=NOW, secret=SECRET, cost=2**10)  # fmt: skip
    monkeypatch.setattr(click, "prompt", lambda *_, **__: SECRET)


def test_gap_is_signed_by_who_has_a_key_on_the_tablet(fieldapp, home, lost, keys):
    said = ("--by", LEAD, "--reason", "power went")
    code, output, _ = fieldapp("store", "gap", NUMBER, *said)
    assert (code, output.splitlines()[-1]) == (0, f"signed by {LEAD}")
    code, output, _ = fieldapp("store", "check")
    assert code == 0
    assert f"a gap stated by {LEAD}, 2026-06-16 06:45, signed by {LEAD}, crew lead" in output
    shutil.rmtree(home / "trust")
    assert "there is no trust folder to ask" in fieldapp("store", "check")[1]


def test_check_says_that_a_gap_can_be_stated(fieldapp, lost):
    code, output, _ = fieldapp("store", "check")
    assert code == 1
    assert output.endswith("If no backup has the rest, “fieldapp store gap” lets work go on\n")


def test_gap_without_a_key_is_stated_unsigned_and_says_so(fieldapp, lost):
    said = ("--by", TECHNICIAN, "--reason", "power went")
    code, output, _ = fieldapp("store", "gap", NUMBER, *said)
    assert (code, output.splitlines()[-1]) == (
        0, f"unsigned: nobody vouches for it; the key of {TECHNICIAN} is not on this tablet",
    )  # fmt: skip
    assert "unsigned: nobody vouches for it" in fieldapp("store", "check")[1]


@pytest.mark.parametrize(
    ("who", "more"), [(LEAD, ("--unsigned",)), ("Cy Hale", ())], ids=["wished", "not on the roster"]
)
def test_gap_can_be_stated_without_a_secret(fieldapp, lost, keys, who, more):
    said = ("--by", who, "--reason", "power went", *more)
    code, output, _ = fieldapp("store", "gap", NUMBER, *said)
    assert (code, "unsigned: nobody vouches for it" in output) == (0, True)


def test_second_place_is_set_and_used_again(fieldapp, home, tmp_path):
    card = tmp_path / "card"
    card.mkdir()
    code, output, _ = fieldapp("store", "backup", "--to", card, "--always")
    assert (code, output.splitlines()[0]) == (0, f"{card}: copied to whenever the window closes")
    shutil.rmtree(card / "jobs")
    assert fieldapp("store", "backup")[0] == 0
    assert [*card.glob("jobs/*/*.journal")]


def test_last_backup_is_told_with_the_list(fieldapp, home):
    (home / "backup.txt").write_text("backup 2031-05-04: not finished\n")
    assert fieldapp("store", "list")[1].endswith("backup 2031-05-04: not finished\n")


@pytest.fixture
def picture(home, tmp_path):
    """A job with one picture, where it lies."""
    source, out = tmp_path / "bond.jpg", BytesIO()
    Image.new("RGB", (30, 20), "teal").save(out, "JPEG")
    source.write_bytes(out.getvalue())
    kept = keep(home / "jobs" / NUMBER, source)
    jobs = Jobs(home, lambda: BEGIN)
    job = jobs.open(NUMBER)
    fields = {"photo": "bond.jpg", "sha256": kept.sha256}
    number = job.job.state.next_sequence
    assert job.keep((Event(number, BEGIN, TECHNICIAN, Entered("bond", fields)),)) is None
    jobs.close()
    return kept.path


def test_pictures_are_checked_with_the_job(fieldapp, picture):
    assert fieldapp("store", "check")[0] == 0
    content = picture.read_bytes()
    picture.write_bytes(content[:-1])
    code, output, _ = fieldapp("store", "check")
    assert (code, "picture bond.jpg" in output, "not the one that was kept" in output) == (
        1, True, True,
    )  # fmt: skip
    picture.unlink()
    code, output, _ = fieldapp("store", "check")
    assert (code, f"{NUMBER}: picture bond.jpg" in output, "is missing" in output) == (
        1, True, True,
    )  # fmt: skip


def test_hand_over_without_a_missing_picture_says_so(fieldapp, picture, tmp_path):
    picture.unlink()
    out = tmp_path / "over.zip"
    code, output, _ = fieldapp("store", "hand-over", NUMBER, "--out", out)
    assert (code, out.is_file()) == (1, True)
    assert "picture bond.jpg" in output
    code, _, complaint = fieldapp("store", "hand-over", NUMBER, "--out", out)
    assert (code, "name a new file" in complaint) == (2, True)
