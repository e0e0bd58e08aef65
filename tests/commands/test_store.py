"""What is kept can be listed, checked, salvaged and exported, and nothing of it changes."""

import csv
import errno
import json
from datetime import timedelta
from pathlib import Path

import click
import pytest

from fieldapp.actions.entering import enter
from fieldapp.actions.rules import Act
from fieldapp.crew.enrolment import enrol_crew
from fieldapp.job.events import Event, Settled, document_of
from fieldapp.journal.exporting import told_words
from fieldapp.journal.jobs import Jobs, KeptJob
from fieldapp.journal.lines.chain import framed
from fieldapp.journal.lines.reading import inspect
from fieldapp.journal.store import JobDB
from tests.actions.play import BEGIN, CHECKLIST, SHEET, TECHNICIAN
from tests.commands.conftest import NOW

NUMBER = "KM-2031.04"


@pytest.fixture
def home(tmp_path):
    """A home with one job of two events."""
    jobs = Jobs(tmp_path / "home", lambda: BEGIN)
    kept = jobs.begin(CHECKLIST, SHEET, TECHNICIAN)
    assert isinstance(kept, KeptJob), kept
    act = Act(TECHNICIAN, BEGIN + timedelta(minutes=1))
    assert kept.keep(enter(kept.job, "permit_ends", {"value": "18:00"}, act)) is None
    jobs.close()
    return tmp_path / "home"


@pytest.fixture
def journal(home):
    return next(home.glob("jobs/*/*.journal"))


@pytest.fixture
def damaged(journal):
    journal.write_bytes(journal.read_bytes().replace(b"18:00", b"17:00"))
    return journal


def unchanged(home):
    return {path: path.read_bytes() for path in home.rglob("*") if path.is_file()}


def test_list_names_job_device_entries_and_state(fieldapp, home, journal):
    before = unchanged(home)
    code, output, _ = fieldapp("store", "list")
    assert code == 0
    assert output.startswith(f"{NUMBER}  {journal.stem}  2 entries, last ")
    assert output.endswith(", whole\n")
    assert unchanged(home) == before


def test_empty_home_is_said_to_hold_nothing(fieldapp, tmp_path):
    assert fieldapp("store", "list") == (0, f"{tmp_path / 'home'}: no jobs are kept here\n", "")
    assert fieldapp("store", "check")[0] == 0


def test_list_says_which_journal_is_damaged(fieldapp, damaged):
    code, output, _ = fieldapp("store", "list")
    assert code == 1
    assert "1 entry, " in output
    assert "DAMAGED" in output


def test_journal_of_another_format_is_listed_and_checked_as_unreadable(fieldapp, journal):
    journal.write_bytes(framed(b'{"format":9}')[1])
    code, output, _ = fieldapp("store", "list")
    assert code == 1
    assert "cannot be read" in output
    code, output, _ = fieldapp("store", "check")
    assert code == 2
    assert "kept in format 9" in output


def test_closed_job_is_named_and_the_others_are_listed_and_checked(
    fieldapp, home, journal, monkeypatch
):
    closed, look = home / "jobs" / "A-1", Path.iterdir
    closed.mkdir()

    def refusing(path):
        if path == closed:
            raise PermissionError(errno.EACCES, "Permission denied")
        return look(path)

    monkeypatch.setattr(Path, "iterdir", refusing)
    code, out, _ = fieldapp("--home", home, "store", "list")
    first, second, *_ = out.splitlines()
    assert (code, first) == (1, "A-1  ?  cannot be read: “fieldapp store check” says why")
    assert second.startswith(journal.parent.name)
    code, out, _ = fieldapp("--home", home, "store", "check")
    assert code == 2
    assert f"{closed}: cannot be looked into (Permission denied)" in out
    assert f"{journal}: sound" in out


@pytest.mark.parametrize("arguments", [("check",), ("check", NUMBER)])
def test_sound_journals_are_said_to_be_sound_with_their_head(fieldapp, journal, arguments):
    code, output, _ = fieldapp("store", *arguments)
    head = inspect(journal).chain.head
    assert code == 0
    assert output == f"{journal}: sound, 2 entries, head {head.hash[:16]}…\n"


def test_check_says_where_damage_is_and_what_to_do(fieldapp, damaged):
    code, output, _ = fieldapp("store", "check")
    assert code == 1
    assert f"{damaged}, entry 2: 1 saved entry is missing or changed" in output
    assert "store salvage" in output


def test_check_finds_an_end_that_was_cut_off_and_a_missing_head(fieldapp, journal):
    first, _ = journal.read_bytes().splitlines(keepends=True)
    journal.write_bytes(first)
    code, output, _ = fieldapp("store", "check")
    assert (code, "1 saved entry is missing" in output) == (1, True)
    journal.with_name(f"{journal.name}.head").unlink()
    code, output, _ = fieldapp("store", "check")
    assert (code, ".head file" in output) == (1, True)


def test_torn_end_is_told_and_no_damage(fieldapp, journal):
    journal.write_bytes(journal.read_bytes() + b'["to')
    code, output, _ = fieldapp("store", "check")
    assert code == 0
    assert "its last 4 bytes were never acknowledged" in output


def test_job_that_is_open_in_the_window_can_be_checked(fieldapp, home):
    jobs = Jobs(home, lambda: BEGIN)
    jobs.open(NUMBER)
    assert fieldapp("store", "check", NUMBER)[0] == 0
    jobs.close()


def test_salvage_copies_what_is_whole_before_and_after_the_damage(
    fieldapp, home, damaged, tmp_path
):
    with damaged.open("ab") as file:
        file.write(framed(b'{"sequence":3}')[1])
    before = unchanged(home)
    out = tmp_path / "salvaged"
    code, output, _ = fieldapp("store", "salvage", damaged, "--out", out)
    first, _, third = damaged.read_bytes().splitlines(keepends=True)
    assert code == 1
    assert out.read_bytes() == first + third
    assert "entry 2: it is not as it was written" in output
    assert "entries that are whole: 1 before it, 1 after it" in output
    assert unchanged(home) == before


def test_salvage_of_a_sound_journal_copies_all(fieldapp, journal, tmp_path):
    code, output, _ = fieldapp("store", "salvage", journal, "--out", tmp_path / "copy")
    assert code == 0
    assert "all 2 entries" in output
    assert (tmp_path / "copy").read_bytes() == journal.read_bytes()


def test_export_as_json_holds_every_event_whole(fieldapp, journal, tmp_path):
    out = tmp_path / "job.json"
    assert fieldapp("store", "export", NUMBER, "--out", out) == (0, f"{out}\n", "")
    exported = json.loads(out.read_text(encoding="utf-8"))
    assert exported["head"] == inspect(journal).chain.head.hash
    begun, entered = exported["events"]
    assert begun["what"]["checklist"] == CHECKLIST
    assert entered["what"]["fields"] == {"value": "18:00"}
    assert (entered["by"], entered["device"], entered["entry"]) == (TECHNICIAN, journal.stem, 2)


def test_export_as_csv_has_a_row_an_event(fieldapp, home, tmp_path):
    out = tmp_path / "job.csv"
    assert fieldapp("store", "export", NUMBER, "--out", out)[0] == 0
    with out.open(encoding="utf-8", newline="") as file:
        begun, entered = csv.DictReader(file)
    assert (begun["kind"], begun["about"]) == ("Begun", NUMBER)
    assert (entered["kind"], entered["about"], entered["given"]) == (
        "Entered", "permit_ends", "value=18:00",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("check", "no-such"), "job no-such: not found in"),
        (("export", "../x", "--out", "x.csv"), "job ../x: not found in"),
        (("export", NUMBER, "--out", "x.txt"), "x.txt: end the name in .json or .csv"),
        (("salvage", "nothing", "--out", "x"), "nothing: no such file: check the name"),
        (("repair",), "No such command"),
    ],
)
def test_wrong_arguments_give_one_line(fieldapp, home, arguments, words):
    code, output, complaint = fieldapp("store", *arguments)
    assert (code, output) == (2, "")
    assert words in complaint
    assert complaint.count("\n") == 1


def test_nothing_is_exported_from_a_damaged_journal_nor_over_a_file(
    fieldapp, home, journal, tmp_path
):
    out = tmp_path / "job.csv"
    out.write_text("mine")
    code, _, complaint = fieldapp("store", "export", NUMBER, "--out", out)
    assert (code, out.read_text()) == (2, "mine")
    assert "name a new file" in complaint
    journal.write_bytes(journal.read_bytes().replace(b"18:00", b"17:00"))
    code, _, complaint = fieldapp("store", "export", NUMBER, "--out", tmp_path / "b.csv")
    assert code == 2
    assert "entry 2" in complaint
    assert not (tmp_path / "b.csv").exists()


def test_backup_and_restore_say_what_was_copied(fieldapp, home, journal, tmp_path):
    card = tmp_path / "card"
    card.mkdir()
    code, output, _ = fieldapp("store", "backup", "--to", card)
    assert code == 0
    assert "2 entries, read back and compared" in output
    assert output.endswith(f"1 of 1 file copied from {home} to {card}\n")
    for path in journal.parent.iterdir():
        path.unlink()
    assert fieldapp("store", "restore", "--from", card)[0] == 0
    assert fieldapp("store", "check", NUMBER)[0] == 0


def test_backup_of_a_damaged_journal_says_so(fieldapp, damaged, tmp_path):
    code, output, _ = fieldapp("store", "backup", "--to", tmp_path)
    assert code == 1
    assert "entry 2: 1 saved entry is missing or changed" in output
    assert "0 of 1 file copied" in output


def test_card_that_is_not_there_is_not_made_on_the_tablet(fieldapp, home, tmp_path):
    card = tmp_path / "card"
    code, output, complaint = fieldapp("store", "backup", "--to", card, "--always")
    assert (code, output) == (2, "")
    assert "is not there, so nothing was copied: plug the card in" in complaint
    assert not card.exists()
    assert not (home / "backup.toml").exists()


def test_backup_of_nothing_is_one_line(fieldapp, tmp_path):
    code, output, complaint = fieldapp("store", "backup", "--to", tmp_path)
    assert (code, output) == (2, "")
    assert "holds no journals" in complaint
    assert complaint.count("\n") <= 2


def test_names_out_of_a_file_write_no_lines_of_their_own(fieldapp, home, journal, tmp_path):
    settled = Settled(1, "x\x1b[2J", "y", ())
    event = Event(2, NOW, "Ada\nfieldapp: all sound\u202e", settled)
    with JobDB(str(journal), device=journal.stem, clock=lambda: NOW) as database:
        database.table("events").insert(document_of(event))
    file = tmp_path / "job.zip"
    assert fieldapp("store", "hand-over", NUMBER, "--out", file)[0] == 0
    code, output, _ = fieldapp("--home", tmp_path / "other", "store", "receive", file)
    assert code == 0
    assert output.splitlines()[-1] == (
        "  settled by Ada\ufffdfieldapp: all sound\ufffd: x\ufffd[2J goes on, 0 events set aside"
    )
    assert "Ada\ufffdfieldapp: all sound\ufffd  settled" in told_words(document_of(event))


@pytest.fixture
def handed_over(fieldapp, home, tmp_path):
    file = tmp_path / "job.zip"
    code, output, _ = fieldapp("store", "hand-over", NUMBER, "--out", file)
    assert (code, output) == (0, f"{file}: unsigned: nobody vouches for it\n")
    return file


def test_hand_over_is_taken_in_by_another_tablet(fieldapp, handed_over, tmp_path):
    other = ("--home", tmp_path / "other")
    code, output, _ = fieldapp(*other, "store", "receive", handed_over)
    assert code == 0
    assert f"{handed_over}: job {NUMBER}, unsigned" in output
    assert "2 entries new of tablet-" in output
    code, output, _ = fieldapp(*other, "store", "receive", handed_over)
    assert (code, "nothing new" in output) == (0, True)
    assert fieldapp(*other, "store", "check", NUMBER)[0] == 0


def test_hand_over_is_signed_by_who_unlocks_their_key(fieldapp, home, tmp_path, monkeypatch):
    enrol_crew(home, office="Example office", technician="Ada Moor", lead="Bo Lind",
               at=NOW, secret="kettle on the hill", cost=2**10)  # fmt: skip
    monkeypatch.setattr(click, "prompt", lambda *_, **__: "kettle on the hill")
    file = tmp_path / "signed.zip"
    code, output, _ = fieldapp("store", "hand-over", NUMBER, "--out", file, "--sign", "Ada Moor")
    assert (code, output) == (0, f"{file}: signed by Ada Moor\n")
    code, output, _ = fieldapp("store", "receive", file)
    assert (code, "signed by Ada Moor, technician" in output) == (0, True)
    code, _, complaint = fieldapp("store", "hand-over", NUMBER, "--out", "x", "--sign", "Cy Hale")
    assert (code, "'Cy Hale' is not among the people" in complaint) == (2, True)


def test_file_that_is_no_hand_over_is_refused_in_one_line(fieldapp, home, tmp_path):
    (tmp_path / "x.zip").write_bytes(b"x")
    code, output, complaint = fieldapp("store", "receive", tmp_path / "x.zip")
    assert (code, output) == (2, "")
    assert "x.zip: it is not a hand-over file, or is damaged. Nothing was written" in complaint
    assert complaint.count("\n") == 1


def test_story_that_went_on_apart_is_told_with_exit_1(fieldapp, home, handed_over, tmp_path):
    jobs = Jobs(tmp_path / "other", lambda: BEGIN)
    assert isinstance(jobs.begin(CHECKLIST, SHEET, TECHNICIAN), KeptJob)
    jobs.close()
    other = ("--home", tmp_path / "other")
    code, output, complaint = fieldapp(*other, "store", "receive", handed_over)
    assert (code, output) == (1, "")
    assert "each went on after event -1. Nothing was written" in complaint


def test_gap_is_stated_and_the_job_checks_sound_again(fieldapp, home, journal):
    first, _ = journal.read_bytes().splitlines(keepends=True)
    journal.write_bytes(first)
    assert fieldapp("store", "check")[0] == 1
    said = ("--by", TECHNICIAN, "--reason", "power went")
    code, output, _ = fieldapp("store", "gap", NUMBER, *said)
    assert code == 0
    assert f"{TECHNICIAN} states that 1 entry is lost after entry 1;" in output
    assert fieldapp("store", "check")[0] == 0
    code, _, complaint = fieldapp("store", "gap", NUMBER, *said)
    assert (code, "nothing is missing" in complaint) == (2, True)
