"""The whole of a record: its data, the PDF that carries it, and the PDF made from its data."""

import json

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.record.content import UnreadableDataError, content_from, json_of
from fieldapp.record.pages.kit.paper import LETTER
from fieldapp.record.rendering import rebuilt, record_of
from tests.record import small_job

KEYS = {small_job.TECHNICIAN: "12" * 32, small_job.LEAD: "34" * 32}
STAGES = (small_job.begun, small_job.evacuated, small_job.sent_back, small_job.signed_off)


@pytest.mark.parametrize("stage", STAGES, ids=lambda stage: stage.__name__)
def test_data_alone_gives_the_same_bytes_again(record_of_crew, stage):
    one = record_of_crew(stage())
    record_json, pdf = record_of(one.job, one.at, one.head, "0.0.0", keys=KEYS)
    assert rebuilt(record_json) == pdf


def test_data_of_a_whole_hookup_gives_the_same_bytes_again(hookup):
    record_json, pdf = record_of(hookup.job, hookup.at, hookup.head, "0.0.0", sheet=LETTER)
    assert rebuilt(record_json) == pdf


def test_content_read_from_the_data_is_the_content(hookup):
    assert content_from(hookup.json) == hookup.content


@given(st.text(), st.text())
def test_data_is_canonical_whatever_was_written(small, said, other):
    from dataclasses import replace

    found = json_of(replace(small.content, notices=(said, other)))
    assert found == rfc8785.dumps(json.loads(found))


def changed(record_json, change):
    record = json.loads(record_json)
    change(record)
    return rfc8785.dumps(record)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda record: record.pop("journal"), "another shape"),
        (lambda record: record.update(more="1"), "holds more than a record"),
        (lambda record: record["heading"].update(more="1"), "holds more than a record"),
        (lambda record: record.update(format=2), "another shape"),
        (lambda record: record["heading"].update(revision="1"), "another shape"),
        (lambda record: record["heading"].update(paper="A3"), "another shape"),
    ],
    ids=["less", "more", "more inside", "format", "kind", "paper"],
)
def test_data_that_no_record_has_is_refused(small, change, says):
    with pytest.raises(UnreadableDataError, match=says):
        rebuilt(changed(small.json, change))


@pytest.mark.parametrize(
    "text", [b"", b"{", b"[]", b"{}", b"\xff"], ids=["none", "torn", "list", "empty", "bytes"]
)
def test_what_is_no_data_at_all_is_refused(text):
    with pytest.raises(UnreadableDataError, match=r"record\.json"):
        rebuilt(text)


def test_data_written_in_another_way_is_refused(small):
    with pytest.raises(UnreadableDataError, match="written otherwise"):
        rebuilt(json.dumps(json.loads(small.json)).encode())
