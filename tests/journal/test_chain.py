"""Tests of the lines and their links."""

import hashlib
import json

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st
from msgspec import UNSET

from fieldapp.journal.lines.chain import (
    BLOCK,
    FORMAT,
    START,
    Body,
    Head,
    damage,
    framed,
    next_entry,
    unframed,
    walk,
)
from tests.journal.documents import documents


def journal_of(*operations, head=START, device="tablet-7"):
    """The head and the bytes of a journal with these operations, one entry each."""
    raw = b""
    for operation in operations:
        head, _, line = next_entry(
            head, device=device, time="2031-05-04T08:30:00+02:00", operations=[operation]
        )
        raw += line
    return head, raw


def rehashed(raw, number, **changes):
    """The same bytes with one entry rewritten by someone who knows how to make its hash."""
    lines = raw.splitlines(keepends=True)
    body = json.loads(lines[number - 1])[1] | changes
    lines[number - 1] = framed(rfc8785.dumps(body))[1]
    return b"".join(lines)


def test_entries_come_back_in_order():
    head, raw = journal_of("a", "b", "c")
    chain = walk(raw)
    assert [body.operations for body in chain.bodies] == [["a"], ["b"], ["c"]]
    assert [body.sequence for body in chain.bodies] == [1, 2, 3]
    assert (chain.head, chain.end, chain.fault, chain.torn) == (head, len(raw), "", False)


def test_nothing_is_a_sound_chain():
    chain = walk(b"")
    assert (chain.bodies, chain.head, chain.end, damage(chain, START)) == ((), START, 0, None)


def test_only_the_first_entry_names_the_format():
    chain = walk(journal_of("a", "b")[1])
    assert [body.format for body in chain.bodies] == [FORMAT, UNSET]


def test_body_given_by_a_new_entry_is_the_one_a_reader_finds():
    _, body, line = next_entry(START, device="d", time="t", operations=[{"b": 1, "a": "é"}])
    assert walk(line).bodies == (body,)


# The hash is that of FIPS 180-4 as Python's hashlib and the coreutils have it.
def test_hashes_and_links_can_be_recomputed_without_this_program():
    _, raw = journal_of({"b": "é", "a": 1}, "b", "c")
    previous = "0" * 64
    for line in raw.decode().splitlines():
        digest, body = json.loads(line)
        text = line[len('["",') + 64 : -1]
        assert hashlib.sha256(text.encode()).hexdigest() == digest
        assert rfc8785.dumps(body) == text.encode()
        assert body["previous"] == previous
        previous = digest


# FIPS 180-4 (NIST, August 2015); the digest of "abc" is the one of NIST's example for SHA-256.
def test_hash_is_that_of_the_published_example():
    digest, line = framed(b"abc")
    assert digest == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert unframed(line) == (digest, b"abc")


@given(documents)
def test_any_document_survives_the_chain(document):
    head, raw = journal_of(document, document)
    chain = walk(raw)
    assert [body.operations for body in chain.bodies] == [[document], [document]]
    assert chain.head == head


@given(st.binary(max_size=200))
def test_no_bytes_stop_the_reading(raw):
    chain = walk(raw)
    assert chain.bodies == ()
    assert bool(chain.fault) == bool(raw)


def test_large_entries_come_back():
    text = "x" * 100_000
    head, raw = journal_of(*[f"{number}{text}" for number in range(10)])
    chain = walk(raw)
    assert [body.operations[0][0] for body in chain.bodies] == [*"0123456789"]
    assert chain.head == head


_, SOUND = journal_of("a", "b", "c")
FIRST, SECOND, THIRD = SOUND.splitlines(keepends=True)


@pytest.mark.parametrize(
    ("raw", "entry", "why"),
    [
        pytest.param(FIRST + THIRD, 2, "bears the number 3", id="one left out"),
        pytest.param(SECOND + THIRD, 1, "bears the number 2", id="beginning cut off"),
        pytest.param(FIRST + THIRD + SECOND, 2, "bears the number 3", id="two swapped"),
        pytest.param(FIRST + FIRST, 2, "bears the number 1", id="one twice"),
        pytest.param(FIRST + SECOND[9:] + THIRD, 2, "not as it was written", id="part missing"),
        pytest.param(FIRST + b"x\ny\nz\n" + SECOND, 2, "not as it was written", id="three lines"),
        pytest.param(FIRST + b"\n" + SECOND, 2, "not as it was written", id="empty line"),
        pytest.param(
            rehashed(SOUND, 2, operations=["B"]), 3, "does not follow", id="rewritten with its hash"
        ),
        pytest.param(rehashed(SOUND, 3, device="other"), 3, "written by other", id="other device"),
        pytest.param(rehashed(SOUND, 3, operations="c"), 3, "not an entry", id="other shape"),
        pytest.param(rehashed(SOUND, 3, time=5), 3, "not an entry", id="time is no text"),
        pytest.param(SOUND + framed(b"5")[1], 4, "not an entry", id="a number"),
        pytest.param(SOUND + framed(b"[]")[1], 4, "not an entry", id="a list"),
        pytest.param(SOUND + framed(b"")[1], 4, "cannot be read", id="empty body"),
        pytest.param(SOUND + framed(b"{},{}")[1], 4, "not an entry", id="two bodies in one"),
        pytest.param(
            SOUND + framed(b'{"operations":' + b"[" * 99999)[1], 4, "cannot be read", id="deep"
        ),
        pytest.param(SOUND + framed(b"\xff")[1], 4, "cannot be read", id="not UTF-8"),
        pytest.param(SOUND + framed(b"[" * 99999)[1], 4, "not an entry", id="deep list"),
    ],
)
def test_chain_says_which_entry_does_not_hold_and_why(raw, entry, why):
    chain = walk(raw)
    assert (found := damage(chain, START))
    assert found[0] == entry
    assert why in found[1]
    assert len(chain.bodies) == entry - 1


@pytest.mark.parametrize("length", range(1, len(SECOND)))
def test_line_torn_by_a_power_cut_is_told_from_damage(length):
    chain = walk(FIRST + SECOND[:length])
    assert (len(chain.bodies), chain.torn, chain.end) == (1, True, len(FIRST))
    assert damage(chain, chain.head) is None


@pytest.mark.parametrize(
    ("saved", "entry", "why"),
    [
        pytest.param(None, 4, "missing or damaged", id="no anchor"),
        pytest.param(Head(5, "0" * 64), 4, "2 saved entries are missing", id="anchor ahead"),
        pytest.param(Head(2, "0" * 64), 2, "not the entry that was saved", id="another hash"),
        pytest.param(Head(3, "0" * 64), 3, "not the entry that was saved", id="another last hash"),
    ],
)
def test_anchor_shows_what_the_chain_alone_cannot(saved, entry, why):
    assert (found := damage(walk(SOUND), saved))
    assert found[0] == entry
    assert why in found[1]


def test_anchor_may_lag_behind():
    chain = walk(SOUND)
    for number in range(1, len(chain.ends) + 1):
        assert damage(chain, Head(number, chain.hash_of(number))) is None
    assert damage(chain, START) is None


def test_entries_are_given_one_by_one_to_who_asks_for_them_and_then_not_kept():
    given_out: list[Body] = []
    chain = walk(SOUND, given_out.append)
    assert tuple(given_out) == walk(SOUND).bodies
    assert (chain.bodies, chain.head) == ((), walk(SOUND).head)


def test_entries_before_a_fault_are_given_and_none_after_it():
    given_out: list[Body] = []
    chain = walk(rehashed(SOUND, 2, operations=["B"]), given_out.append)
    assert [body.operations for body in given_out] == [["a"], ["B"]]
    assert chain.fault


@pytest.mark.parametrize("long", [BLOCK - 400, BLOCK - 200, BLOCK, 3 * BLOCK])
def test_blocks_of_reading_may_end_anywhere(long):
    texts = ["a" * long, "b", "c" * long, "d" * 300, "e"]
    head, raw = journal_of(*texts)
    chain = walk(raw)
    assert [body.operations for body in chain.bodies] == [[text] for text in texts]
    assert (chain.head, chain.end) == (head, len(raw))
    for cut in (1, 100, long):
        shorter = walk(raw[:-cut])
        assert (shorter.torn, shorter.head.sequence < head.sequence) == (True, True)


def test_a_chain_holds_its_own_entries_and_no_others():
    chain = walk(SOUND)
    assert all(chain.holds(Head(number, chain.hash_of(number))) for number in (1, 2, 3))
    others = [START, Head(1, chain.hash_of(2)), Head(4, chain.hash_of(3)), Head(-1, "0" * 64)]
    assert not any(map(chain.holds, others))
