"""What a tablet goes through: killed programs, torn lines, flipped bits, full disks."""

import random
import subprocess
import sys
from pathlib import Path

import pytest

from fieldapp.journal.errors import JournalBusyError, JournalDamagedError
from fieldapp.journal.lines.anchor import anchor_path, begin, heads_at, newest
from fieldapp.journal.lines.chain import damage, walk
from fieldapp.journal.lines.file import Journal
from tests.journal.conftest import DEVICE, clock
from tests.journal.writer import document

ROOT = Path(__file__).parents[2]
KILLS = 20


@pytest.fixture
def sound(path, open_store):
    """The bytes of a small journal of five entries."""
    events = open_store().table("events")
    for number in range(1, 6):
        events.insert(document(number))
    open_store().close()
    return path.read_bytes()


def opened(path):
    """The numbers of the entries and the notices, after opening."""
    journal = Journal(path, device=DEVICE, clock=clock)
    try:
        return [body.sequence for body in journal.scan()], journal.notices
    finally:
        journal.close()


def forget_head(path):
    anchor_path(path).unlink()
    begin(anchor_path(path))


def start_writer(path, *options):
    command = [sys.executable, "-m", "tests.journal.writer", str(path), *options]
    return subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE)


def killed_after(writer, acknowledgements):
    """What a writer acknowledged until it was killed without warning."""
    said = [writer.stdout.readline() for _ in range(acknowledgements)]
    writer.kill()
    rest, complaint = writer.communicate()
    assert complaint == b""
    whole = b"".join([*said, rest]).splitlines(keepends=True)
    return [int(line) for line in whole if line.endswith(b"\n")]


def test_journal_cut_off_anywhere_is_refused(path, sound):
    for length in range(len(sound)):
        path.write_bytes(sound[:length])
        with pytest.raises(JournalDamagedError, match=r"saved entr.* missing"):
            opened(path)


def test_journal_cut_off_anywhere_beyond_its_head_keeps_its_whole_lines(path, sound):
    ends = walk(sound).ends
    near_ends = {end + beside for end in ends[:-1] for beside in (-1, 0, 1)}
    for length in sorted({*range(1, len(sound), 11), *near_ends}):
        forget_head(path)
        path.write_bytes(sound[:length])
        sequences, notices = opened(path)
        assert sequences == [*range(1, sum(end <= length for end in ends) + 1)]
        assert len(notices) == (length not in ends)


def test_bit_flipped_at_any_place_is_refused(path, sound):
    for place in range(len(sound)):
        raw = bytearray(sound)
        raw[place] ^= 1 << place % 8
        path.write_bytes(raw)
        with pytest.raises(JournalDamagedError):
            opened(path)


def test_every_bit_of_a_journal_counts(path, sound):
    saved = newest(heads_at(anchor_path(path)))
    assert damage(walk(sound), saved) is None
    for bit in range(8 * len(sound)):
        raw = bytearray(sound)
        raw[bit // 8] ^= 1 << bit % 8
        assert damage(walk(bytes(raw)), saved) is not None


def test_bit_flipped_beyond_the_head_is_refused_or_reported(path, sound):
    for place in range(0, len(sound), 3):
        forget_head(path)
        raw = bytearray(sound)
        raw[place] ^= 1 << place % 8
        path.write_bytes(raw)
        try:
            _, notices = opened(path)
        except JournalDamagedError:
            continue
        assert len(notices) == 1


def test_killed_program_loses_nothing_it_acknowledged(path, open_store):
    chance = random.Random(7)
    acknowledged = []
    for _ in range(KILLS):
        acknowledged += killed_after(start_writer(path), chance.randint(1, 40))
        db = open_store()
        kept = db.table("events").all()
        assert kept == [document(number) for number in range(1, len(kept) + 1)]
        assert acknowledged == sorted(set(acknowledged))
        assert set(acknowledged) <= {event["number"] for event in kept}
        assert all("were never acknowledged" in notice for notice in db.notices)
        db.close()
    assert len(acknowledged) >= KILLS


def test_second_program_is_told_that_the_journal_is_busy_until_the_first_is_gone(path, open_store):
    writer = start_writer(path)
    writer.stdout.readline()
    with pytest.raises(JournalBusyError):
        open_store()
    second = start_writer(path)
    assert b"open in another window or program" in second.communicate()[1]
    killed_after(writer, 1)
    assert len(open_store().table("events")) >= 2


if sys.platform != "win32":

    @pytest.mark.parametrize("largest", [5000, 9999, 12345])
    def test_file_that_may_not_grow_keeps_all_that_was_acknowledged(path, open_store, largest):
        said, complaint = start_writer(path, str(largest)).communicate()
        assert b"NOT SAVED, the disk has no space left" in complaint
        acknowledged = [int(line) for line in said.splitlines()]
        assert len(acknowledged) > 5
        db = open_store()
        assert db.notices == ()
        assert db.table("events").all() == [document(number) for number in acknowledged]
        db.table("events").insert(document(len(acknowledged) + 1))
        assert db.head.sequence == len(acknowledged) + 1
