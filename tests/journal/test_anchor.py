"""Tests of the head anchor."""

import pytest

from fieldapp.journal.lines import anchor, disk
from fieldapp.journal.lines.anchor import SLOT, HeadAnchor
from fieldapp.journal.lines.chain import START, Head

HEADS = [Head(number, f"{number:064x}") for number in range(1, 6)]


@pytest.fixture
def path(tmp_path):
    anchor.begin(tmp_path / "job.journal.head")
    return tmp_path / "job.journal.head"


def remember(path, heads):
    opened = HeadAnchor(path, anchor.heads_at(path))
    for head in heads:
        opened.remember(head, disk.write)
    opened.close()


def test_new_anchor_says_twice_that_nothing_was_acknowledged(path):
    assert anchor.heads_at(path) == (START, START)


@pytest.mark.parametrize("count", range(1, 6))
def test_last_two_heads_are_kept(path, count):
    remember(path, HEADS[:count])
    assert set(anchor.heads_at(path)) == {*[START, *HEADS[:count]][-2:]}
    assert anchor.newest(anchor.heads_at(path)) == HEADS[count - 1]
    assert path.stat().st_size == 2 * SLOT


def test_opened_again_it_overwrites_the_older_head(path):
    for number, head in enumerate(HEADS):
        remember(path, [head])
        assert set(anchor.heads_at(path)) == {*[START, *HEADS][number : number + 2]}


def test_one_flipped_bit_anywhere_leaves_one_head_and_shows(path):
    remember(path, HEADS[:2])
    sound = path.read_bytes()
    for place in range(2 * SLOT):
        raw = bytearray(sound)
        raw[place] ^= 1 << place % 8
        path.write_bytes(raw)
        heads = anchor.heads_at(path)
        assert heads.count(None) == 1
        assert anchor.newest(heads) in HEADS[:2]


@pytest.mark.parametrize("length", [0, 1, SLOT - 1, SLOT, 2 * SLOT - 1])
def test_shortened_anchor_shows(path, length):
    path.write_bytes(path.read_bytes()[:length])
    assert None in anchor.heads_at(path)


def test_there_is_no_head_where_there_is_no_anchor(tmp_path):
    assert anchor.newest(anchor.heads_at(tmp_path / "nothing.head")) is None


def test_damaged_place_is_the_next_to_be_written(path):
    remember(path, HEADS[:2])
    for place in (0, SLOT):
        raw = bytearray(path.read_bytes())
        raw[place] ^= 1
        path.write_bytes(raw)
        remember(path, [HEADS[4]])
        assert None not in anchor.heads_at(path)
