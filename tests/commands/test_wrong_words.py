"""Wrong files, folders and secrets: one plain line each, nothing written and nothing asked in vain.

What the last commands wrote stays: no command writes over a file that somebody names.
"""

import subprocess
import sys

import click
import pytest

from fieldapp.demo.player import sheet_text
from fieldapp.places import checklists

HOOKUP = str(checklists() / "hookup")


@pytest.fixture
def sheet(tmp_path):
    path = tmp_path / "sheet.toml"
    path.write_text(sheet_text(), encoding="utf-8")
    return path


def one_line(answer):
    """Return the complaint, once it is one line without the words that we do not use."""
    code, _, complaint = answer
    assert code == 2
    assert complaint.startswith("fieldapp: ")
    assert complaint.count("\n") == 1
    assert not [word for word in ("nvalid", "rror", "lease", "None", "Errno") if word in complaint]
    return complaint


@pytest.mark.parametrize(
    "arguments",
    [
        ("check", ""), ("plan", ""), ("blank", "", "--out", "x.pdf"), ("verify", ""),
        ("verify", "x.pdf", "--trust", ""), ("store", "receive", ""), ("demo", "--out", " "),
        ("store", "salvage", "", "--out", "x"), ("store", "salvage", "x", "--out", ""),
        ("store", "backup", "--to", ""), ("store", "restore", "--from", ""),
        ("record", "X", "--out", ""), ("crew", "give-out", "--out", ""), ("crew", "take-in", ""),
        ("crew", "enrol", "", "--role", "technician"), ("--home", ""),
    ],
    ids=" ".join,
)  # fmt: skip
def test_an_empty_name_is_not_taken_for_the_folder_one_stands_in(fieldapp, arguments):
    assert "the name is empty: give one" in one_line(fieldapp(*arguments))
    assert fieldapp.opened == []


@pytest.mark.parametrize(
    "arguments",
    [
        ("plan", "{sheet}", "--out", "{there}"),
        ("blank", HOOKUP, "--out", "{there}"),
        ("record", "{number}", "--out", "{there}"),
        ("record", "{number}", "--sign", "--out", "{there}"),
        ("store", "export", "{number}", "--out", "{there}"),
        ("store", "hand-over", "{number}", "--out", "{there}", "--sign", "Ada Moor"),
        ("store", "salvage", "{there}", "--out", "{there}"),
        ("crew", "request", "Bo Lind", "--out", "{there}"),
        ("crew", "give-out", "--out", "{there}"),
        ("crew", "renew", "--out", "{there}"),
    ],
    ids=lambda given: " ".join(given[:2]),
)
def test_no_file_is_written_over(fieldapp, number, sheet, asked, tmp_path, arguments):
    there = tmp_path / "signed.csv"
    there.write_bytes(b"signed by both")
    arguments = [each.format(sheet=sheet, there=there, number=number) for each in arguments]
    complaint = one_line(fieldapp(*arguments))
    assert f"{there} is there already: name a new file" in complaint
    assert there.read_bytes() == b"signed by both"
    assert asked == []


def test_a_trust_file_is_written_over_by_the_next(fieldapp, number, tmp_path):
    out = tmp_path / "trust.pem"
    for _ in range(2):
        assert fieldapp("crew", "give-out", "--out", out)[0] == 0


def test_a_signed_record_is_refused_before_secrets_are_asked(fieldapp, number, asked):
    assert fieldapp("record", number, "--sign")[0] == 0
    asked.clear()
    assert "is there already" in one_line(fieldapp("record", number, "--sign"))
    assert asked == []


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("crew", "found", "Another office"), "an office or a trust folder here already"),
        (("crew", "found", ""), "an office or a trust folder here already"),
        (("crew", "withdraw", "Cy Hale", "--reason", "left"), "“fieldapp crew list” names them"),
        (("crew", "renew", "Cy Hale"), "“fieldapp crew list” names them"),
        (("crew", "request", " "), "does not fit into a certificate"),
        (("crew", "request", "n" * 65), "does not fit into a certificate"),
        (("--home", "elsewhere", "crew", "renew"), "elsewhere: no office was founded here"),
        (("store", "hand-over", "NIX", "--out", "x", "--sign", "Ada Moor"), "job NIX: not found"),
    ],
)
def test_no_secret_is_asked_in_vain(fieldapp, number, asked, arguments, words):
    assert words in one_line(fieldapp(*arguments))
    assert asked == []


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("store", "receive", "{folder}"), "{folder} is a folder: name a file in it"),
        (("plan", "{sheet}", "--out", "{folder}"), "--out: {folder} is a folder"),
        (("store", "backup", "--to", "{sheet}"), "--to: {sheet} is a file: name a folder"),
        (("plan", "{sheet}", "--out", "{sheet}/x.pdf"), "{sheet}: file exists: a file stands"),
        (("store", "hand-over", "{number}", "--out", "{sheet}/x"), "{sheet}: file exists: a file"),
        (("store", "salvage", "{folder}/x", "--out", "y"), "{folder}/x: no such file: check the"),
        (("store", "salvage", "{sheet}"), "“fieldapp store salvage --help”"),
        (("crew", "enrol", "x", "--role", "boss"), "--role: 'boss' is not one of 'technician'"),
        (("crew", "renew", "--list-lasts", "x"), "--list-lasts: write the days, from 1 to 3650"),
        (("crew", "renew", "--list-lasts", "0"), "--list-lasts: write the days, from 1 to 3650"),
        (("store", "backup"), "no second place is set: name one with --to FOLDER\n"),
    ],
    ids=lambda given: " ".join(given) if isinstance(given, tuple) else "",
)
def test_what_is_of_the_wrong_kind_is_named(fieldapp, sheet, number, tmp_path, arguments, words):
    names = {"sheet": sheet, "folder": tmp_path, "number": number}
    complaint = one_line(fieldapp(*(each.format(**names) for each in arguments)))
    assert words.format(**names) in complaint


@pytest.mark.parametrize("group", ["crew", "store"])
def test_a_group_alone_explains_itself(fieldapp, group):
    code, _, complaint = fieldapp(group)
    assert code == 2
    assert complaint.startswith(f"Usage: fieldapp {group} ")
    assert complaint.endswith("\n")
    assert "See “" not in complaint


@pytest.mark.parametrize("content", [b"", b"no journal\n", bytes(range(256))])
def test_nothing_is_salvaged_out_of_what_is_no_journal(fieldapp, tmp_path, content):
    stray = tmp_path / "stray"
    stray.write_bytes(content)
    code, output, _ = fieldapp("store", "salvage", stray, "--out", tmp_path / "saved")
    assert (code, output) == (1, f"{stray}: holds no whole entry; nothing was written\n")
    assert not (tmp_path / "saved").exists()


def test_an_output_that_is_full_is_said_so(tmp_path):
    with open("/dev/full", "wb") as full:  # noqa: PTH123 - a device
        done = subprocess.run(
            [sys.executable, "-m", "fieldapp", "calc"], stdout=full, stderr=subprocess.PIPE,
            text=True, check=False,
        )  # fmt: skip
    assert done.returncode == 2
    assert done.stderr.startswith("fieldapp: the output: no space left on device: make room")


def test_a_secret_is_asked_at_a_terminal_only(tmp_path):
    done = subprocess.run(
        [sys.executable, "-m", "fieldapp", "--home", tmp_path, "crew", "request", "Ada Moor"],
        input="a secret\na secret\n", capture_output=True, text=True, check=False,
        start_new_session=True,
    )  # fmt: skip
    assert (done.returncode, done.stdout) == (2, "")
    assert "no terminal to type it unseen: run this in a terminal window" in done.stderr
    assert done.stderr.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_two_secrets_that_differ_make_nothing(fieldapp, monkeypatch):
    typed = iter(["kettle on the hill", "kettle on the mill"])
    monkeypatch.setattr(click, "prompt", lambda *_, **__: next(typed))
    assert "the two secrets differ" in one_line(fieldapp("crew", "request", "Ada Moor"))
    assert not fieldapp.home.exists()
