"""Tests of the canonical bytes and of what is refused."""

import json
import unicodedata

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.journal.errors import DocumentRefusedError
from fieldapp.journal.lines.canonical import (
    DEEPEST,
    LARGEST_WHOLE_NUMBER,
    canonical,
    there_and_back,
)
from tests.journal.documents import documents, things


def nested(depth):
    inner: list[object] = []
    for _ in range(depth - 1):
        inner = [inner]
    return inner


@given(documents)
def test_bytes_are_those_of_the_reference_implementation_of_rfc_8785(document):
    assert canonical(document) == rfc8785.dumps(document)


# RFC 8785 (A. Rundgren, B. Jordan, S. Erdtman: JSON Canonicalization Scheme, June 2020),
# section 3.2.2: the example, without its numbers that are no whole numbers and with the text
# of its "string" as printed there.
def test_text_is_escaped_as_in_the_example_of_rfc_8785():
    text = "\u20ac$\u000f\u000aA'\u0042\u0022\u005c\\\"/"
    assert canonical({"string": text, "literals": [None, True, False]}) == (
        '{"literals":[null,true,false],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}'.encode()
    )


@given(documents)
def test_what_is_written_is_read_back(document):
    written, back = there_and_back(document)
    assert back == document
    assert json.loads(written) == document


@pytest.mark.parametrize(
    ("document", "place", "why"),
    [
        pytest.param({"a": [0.5]}, "a.0", "0.5 is a float", id="float"),
        pytest.param({"a": 1.0}, "a", "1.0 is a float", id="whole float"),
        pytest.param({"a": float("nan")}, "a", "nan is a float", id="not a number"),
        pytest.param({"a": 2**53}, "a", "beyond", id="large number"),
        pytest.param({"a": -(2**53)}, "a", "beyond", id="large negative number"),
        pytest.param({"a": {"e\u0301": 1}}, "a", "not plain ASCII", id="key with accent"),
        pytest.param({1: "a"}, "", "not plain ASCII", id="number as key"),
        pytest.param({"1": "a", 1: "b"}, "", "not plain ASCII", id="same key twice"),
        pytest.param({"a": "e\u0301"}, "a", "not in Unicode form NFC", id="decomposed text"),
        pytest.param({"a": "\ud800"}, "a", "half a character", id="surrogate"),
        pytest.param({"a": (1, 2)}, "a", "a tuple cannot be kept", id="tuple"),
        pytest.param({"a": {1, 2}}, "a", "a set cannot be kept", id="set"),
        pytest.param({"a": b"b"}, "a", "a bytes cannot be kept", id="bytes"),
        pytest.param({"a": nested(DEEPEST)}, "a.0.0", "nested more than", id="too deep"),
        pytest.param({"a": nested(100_000)}, "a.0.0", "nested more than", id="far too deep"),
    ],
)
def test_what_would_not_come_back_is_refused_with_its_place(document, place, why):
    with pytest.raises(DocumentRefusedError, match="NOT SAVED") as caught:
        canonical(document)
    assert caught.value.place == place
    assert why in caught.value.why


def test_document_that_holds_itself_is_refused():
    document: dict[str, object] = {}
    document["a"] = document
    with pytest.raises(DocumentRefusedError, match="nested more than"):
        canonical(document)


@pytest.mark.parametrize(
    "value",
    [LARGEST_WHOLE_NUMBER, -LARGEST_WHOLE_NUMBER, nested(DEEPEST), "é °C µL/L", "", {}, None],
    ids=["largest", "smallest", "deepest", "units", "empty text", "nothing in it", "nothing"],
)
def test_what_is_just_allowed_comes_back(value):
    assert there_and_back(value)[1] == value


@given(things)
def test_anything_is_either_read_back_exactly_or_refused(thing):
    try:
        written, back = there_and_back(thing)
    except DocumentRefusedError:
        return
    assert repr(back) == repr(json.loads(written))
    assert back == thing
    assert written == rfc8785.dumps(thing)


@given(st.text(alphabet=st.characters(exclude_categories=["Cs"])))
def test_text_is_refused_only_if_it_is_not_normalised(text):
    if unicodedata.normalize("NFC", text) == text:
        assert there_and_back(text)[1] == text
    else:
        with pytest.raises(DocumentRefusedError):
            canonical(text)
