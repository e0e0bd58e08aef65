"""From the demo to a verified record: the commands as a new user types them."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pikepdf
import pytest

from fieldapp.commands.line import World, run
from fieldapp.crew.secret import Secret
from tests.commands.conftest import NOW
from tests.screens.signed_jobs import Tablet


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    """Return (folder, output) of a demo that was played."""
    out = tmp_path_factory.mktemp("played") / "demo"
    done = subprocess.run(
        [sys.executable, "-m", "fieldapp", "demo", "--out", str(out)],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    return out, done.stdout


@pytest.fixture(scope="module")
def record(demo):
    """Return the path that the last line names."""
    return Path(demo[1].splitlines()[-1])


def test_last_line_is_the_path_of_the_signed_record(demo, record):
    assert record.parent == demo[0]
    assert record.read_bytes().startswith(b"%PDF-")


def test_demo_says_what_went_wrong_on_the_way(demo):
    _, output = demo
    assert "digits swapped" in output
    assert "gasket missing at the return coupling" in output
    assert "Ruth Calderon accepts a deviation" in output


def test_another_reader_finds_two_valid_signatures_the_second_over_the_total_document(record):
    # pdfsig of poppler; it exits 0 even on a mismatch, so its words are what counts
    words = subprocess.run(
        ["pdfsig", str(record)], capture_output=True, text=True, check=False
    ).stdout
    first, second = words.split("Signature #2:")
    for part in (first, second):
        assert "Signature Validation: Signature is Valid." in part
    assert "Not total document signed" in first
    assert "Total document signed" in second


def test_fonts_of_the_record_are_all_embedded(record):
    rows = subprocess.run(
        ["pdffonts", str(record)], capture_output=True, text=True, check=True
    ).stdout.splitlines()[2:]
    assert rows
    assert all(re.search(r" yes yes (yes|no) ", row) for row in rows), rows


def test_verify_finds_it_sound_and_says_who_signed(fieldapp, record):
    code, output, _ = fieldapp("verify", record)
    assert code == 0
    assert "sound" in output
    assert "signed by Maren Holtby, technician, 2026-06-17 12:40:00 +0200" in output
    assert "signed by Ruth Calderon, crew lead, 2026-06-17 12:54:00 +0200" in output
    assert "authority " in output


def test_verify_exits_1_after_any_byte_was_changed(fieldapp, record, tmp_path):
    whole = record.read_bytes()
    (tmp_path / "trust").symlink_to(record.parent / "trust")
    changed = tmp_path / "changed.pdf"
    for place in range(len(b"%PDF-"), len(whole), len(whole) // 40):
        content = bytearray(whole)
        content[place] ^= 0x01
        changed.write_bytes(content)
        assert fieldapp("verify", changed)[0] == 1, place


def test_verify_says_what_cannot_be_read_with_2(fieldapp, record, tmp_path):
    (tmp_path / "note.pdf").write_text("not a record")
    code, _, complaint = fieldapp("verify", tmp_path / "note.pdf", tmp_path / "none.pdf", record)
    assert code == 2
    assert "is not a PDF" in complaint
    assert "no such file" in complaint


def test_record_is_rendered_again_with_the_same_bytes_and_unsigned(fieldapp, demo, tmp_path):
    number = next((demo[0] / "jobs").iterdir()).name
    for name in ("first.pdf", "second.pdf"):
        code, output, _ = fieldapp("--home", demo[0], "record", number, "--out", tmp_path / name)
        assert (code, output.strip()) == (0, str(tmp_path / name))
    assert (tmp_path / "first.pdf").read_bytes() == (tmp_path / "second.pdf").read_bytes()
    code, output, _ = fieldapp("verify", tmp_path / "first.pdf")
    assert code == 1
    assert "finding: " in output


def test_data_is_printed_byte_for_byte_as_it_is_attached(demo, record, capfdbinary):
    number = record.stem
    world = World(lambda: NOW, demo[0], lambda _: None)
    assert run(["--home", str(demo[0]), "record", number, "--json"], world) == 0
    with pikepdf.open(record) as document:
        attached = document.attachments["record.json"].get_file().read_bytes()
    assert capfdbinary.readouterr().out == attached


def test_record_without_a_file_named_is_put_among_the_records(fieldapp, demo, record):
    place = demo[0] / "records" / f"{record.stem}-unsigned.pdf"
    for paper, width in (("a4", 595.28), ("letter", 612)):
        code, output, _ = fieldapp("--home", demo[0], "record", record.stem, "--paper", paper)
        assert (code, output.strip()) == (0, str(place))
        with pikepdf.open(place) as document:
            assert float(document.pages[0].mediabox[2]) == width


def test_record_is_signed_when_both_unlock_their_keys(demo, tmp_path, monkeypatch, capsys):
    number = next((demo[0] / "jobs").iterdir()).name
    world = World(lambda: NOW, tmp_path, lambda _: None)
    monkeypatch.setattr("click.prompt", lambda *_, **__: "demo only, not a secret")
    out = tmp_path / "signed.pdf"
    arguments = ["--home", str(demo[0]), "record", number, "--out", str(out), "--sign"]
    assert run(arguments, world) == 0
    assert run(["verify", str(out), "--trust", str(demo[0] / "trust")], world) == 0
    assert run(arguments, world) == 2
    assert "signed.pdf is there already" in capsys.readouterr().err
    monkeypatch.setattr("click.prompt", lambda *_, **__: "a wrong secret")
    arguments[5] = str(tmp_path / "another.pdf")
    assert run(arguments, world) == 2
    assert "secret" in capsys.readouterr().err
    assert not (tmp_path / "another.pdf").exists()


def test_window_on_the_demo_unlocks_its_people_with_the_secret_it_printed(demo, tmp_path):
    said = next(line for line in demo[1].splitlines() if line.startswith("The secret of both"))
    secret = said.partition(": ")[2]
    home = tmp_path / "home"
    shutil.copytree(demo[0], home)
    tablet = Tablet(home)
    number = next((home / "jobs").iterdir()).name
    tablet.at_the_record(number)
    for touch in (("unlock",), ("given", Secret(secret)), ("given", Secret(secret))):
        view = tablet.touch(*touch)
    assert f"{number}.pdf: verified, nothing is wrong" in view.rows[0].first
    assert (home / "records" / f"{number}.pdf").is_file()
    tablet.close()


def test_demo_does_not_write_into_a_folder_that_is_in_use(fieldapp, demo):
    code, _, complaint = fieldapp("demo", "--out", demo[0])
    assert code == 2
    assert "is not empty: name a new folder" in complaint
