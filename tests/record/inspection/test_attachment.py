"""The attached data is one file, unchanged, and names those who signed it."""

import json

import pytest

from fieldapp.record.structure import prepare
from tests.record import specimen as made

STATED = json.loads(made.RECORD)["signatures"]
HASH = made.HEAD


def closed(**changed):
    """Return a record that was signed with other data in it."""
    return made.forged_lead(made.forged_technician(made.document_of(**changed)))


def stated(place, **changed):
    """Return what the data says of who signed, one of them otherwise."""
    return [{**one, **(changed if number == place else {})} for number, one in enumerate(STATED)]


def test_record_signed_with_its_data_is_sound(found):
    assert found(closed()) == ""


@pytest.mark.parametrize(
    ("signatures", "says"),
    [
        (stated(0, name="Cy Hale"), "says that Cy Hale signed off as technician"),
        (stated(1, name="ADA MOOR"), "says that ADA MOOR signed off as crew lead"),
        (stated(0, at="2026-05-04T12:01:00+00:00"), "says that the technician signed at 2026"),
        (stated(1, at="yesterday"), "says that the crew lead signed at yesterday"),
        (stated(1, at="2026-05-04T12:09:00"), "says that the crew lead signed at 2026"),
        (stated(0, key="00" * 32), "names another key of the technician"),
        (stated(1, head=""), "does not say what the crew lead signed"),
        (stated(0, head="ab"), "does not say what the technician signed"),
        (stated(0, role="owner"), "does not say who signed off as technician"),
        ([*STATED, STATED[1]], "does not say who signed off as crew lead"),
        ([], "does not say who signed off as technician"),
        (["Ada Moor"], "does not say who signed off as technician"),
    ],
)
def test_data_that_names_others_than_the_signatures_is_found(signatures, says, found):
    assert says in found(closed(signatures=signatures))


@pytest.mark.parametrize("at", ["2026-05-04T14:09:00+02:00", "2026-05-04T12:09:00.250+00:00"])
def test_same_moment_written_otherwise_is_the_same(at, found):
    assert found(closed(signatures=stated(1, at=at))) == ""


def test_key_that_signed_may_be_named(found):
    keys = [one.person.fingerprint for one in (made.technician(), made.lead())]
    named = [{**one, "key": key} for one, key in zip(STATED, keys, strict=True)]
    assert found(closed(signatures=named)) == ""


@pytest.mark.parametrize("end", ["", None, "ab" * 31, "AB" * 32, 77])
def test_data_that_does_not_say_where_the_journal_ended_is_found(end, found):
    assert "does not say where the journal ended" in found(closed(journal={"hash": end}))


@pytest.mark.parametrize(
    "changed", [{"heading": None}, {"journal": []}, {"signatures": {}}, {"heading": "R-0417"}]
)
def test_data_that_is_no_record_is_found(changed, found):
    assert "The attached file is no record of this program" in found(closed(**changed))


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b"{}", b"null", b"\xff\xfe", b"7"], ids=repr)
def test_attachment_that_is_no_data_is_found(content, found):
    document = prepare(made.pages(), content, *made.BOXES)
    pdf = made.forged_lead(made.forged_technician(document))
    assert "The attached file is no record of this program" in found(pdf)


EARLIER = {
    "revision": 1,
    "head": HASH,
    "signed_by": "Ada Moor",
    "sent_back_by": "Bo Lind",
    "sent_back_at": "2026-05-04T10:00:00+00:00",
    "reason": "Weigh the cartridges again.",
}


def heading(revision):
    return {"number": "R-0417", "revision": revision, "program": "fieldapp 0.0.1"}


def test_second_revision_that_names_the_first_is_sound(found):
    assert found(closed(heading=heading(2), earlier=[EARLIER])) == ""


@pytest.mark.parametrize(
    ("revision", "earlier"),
    [
        (2, None),
        (2, []),
        (3, [EARLIER]),
        (1, [EARLIER]),
        (3, [EARLIER, EARLIER]),
        (2, [{**EARLIER, "head": ""}]),
        (2, [{**EARLIER, "sent_back_by": ""}]),
        (2, [{**EARLIER, "reason": " "}]),
        (0, []),
        ("2", [EARLIER]),
        (2, ["first"]),
    ],
)
def test_revision_that_does_not_name_those_before_is_found(revision, earlier, found):
    says = f"is revision {revision} and does not name each one before it"
    assert says in found(closed(heading=heading(revision), earlier=earlier))


@pytest.mark.parametrize(
    "content",
    [
        made.RECORD.replace(b'"leak_rate"', b'"leak_rate": "0.002", "leak_rate"'),
        made.RECORD.decode().encode("utf-16"),
        b"[" * 100_000,
    ],
    ids=["a name twice", "other letters", "nested without end"],
)
def test_data_that_two_readers_take_otherwise_is_found(content, found):
    document = prepare(made.pages(), content, *made.BOXES)
    pdf = made.forged_lead(made.forged_technician(document))
    assert "The attached file is no record of this program" in found(pdf)
