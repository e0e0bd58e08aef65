"""A signed statement is never more than what its signature covers."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from msgspec.json import encode

from fieldapp.crew.enrolment import enrol_crew
from fieldapp.crew.statement import signed
from fieldapp.handover.errors import HandOverRefusedError
from fieldapp.handover.manifest import signature_over, signer_words
from fieldapp.handover.vouching import UNSIGNED, gap_signer, gap_vouched
from fieldapp.job.events import Event, GapStated
from fieldapp.journal.tablets.gap import text_of

AT = datetime(2031, 5, 4, 9, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def people(tmp_path_factory):
    return enrol_crew(
        tmp_path_factory.mktemp("crew"), office="Example office", technician="Ada Moor",
        lead="Bo Lind", at=AT, secret="kettle on the hill", cost=2**10,
    )  # fmt: skip


@pytest.fixture
def stated(people):
    """A gap that the crew lead stated and signed."""
    gap = GapStated(2, "a" * 64, "power went")
    event = Event(7, AT, "Bo Lind", gap)
    certificate, signature = gap_signer(people.lead)(text_of(event))
    return replace(event, what=replace(gap, certificate=certificate, signature=signature))


def test_gap_is_vouched_for_by_who_signed_it(people, stated):
    assert gap_vouched(stated, people.roster) == "signed by Bo Lind, crew lead"


def test_gap_without_a_signature_is_unsigned(people, stated):
    what = GapStated(2, "a" * 64, "power went")
    assert gap_vouched(replace(stated, what=what), people.roster) == UNSIGNED


@pytest.mark.parametrize(
    "change",
    [
        lambda event: replace(event, by="Ada Moor"),
        lambda event: replace(event, sequence=8),
        lambda event: replace(event, at=AT.replace(hour=8)),
        lambda event: replace(event, what=replace(event.what, missing=1)),
        lambda event: replace(event, what=replace(event.what, lost_head="b" * 64)),
        lambda event: replace(event, what=replace(event.what, reason="thrown away")),
        lambda event: replace(event, what=replace(event.what, signature="00")),
        lambda event: replace(event, what=replace(event.what, signature="no signature")),
        lambda event: replace(event, what=replace(event.what, certificate="nobody")),
    ],
    ids=["who", "number", "time", "missing", "head", "reason", "signature", "no hex", "nobody"],
)
def test_gap_that_was_changed_is_signed_by_nobody(people, stated, change):
    assert gap_vouched(change(stated), people.roster).startswith("not signed by anybody: ")


def test_signature_of_a_hand_over_is_none_of_a_gap(people, stated):
    other = signed(text_of(stated), people.lead, purpose="hand-over, format 1")
    what = replace(stated.what, signature=other.signature.hex())
    assert "not signed by anybody" in gap_vouched(replace(stated, what=what), people.roster)


def test_hand_over_that_does_not_say_when_is_refused(people):
    part = {"device": "one", "sequence": 1, "hash": "a" * 64}
    manifest = encode({"format": 1, "job": "HK-1", "made": "yesterday", "journals": [part]})
    with pytest.raises(HandOverRefusedError, match="does not say when it was made"):
        signer_words(manifest, signature_over(manifest, people.lead), people.roster)
