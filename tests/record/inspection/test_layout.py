"""A file must be whole, end where the document ends, and list each part once."""

import io
import re

import pikepdf
import pytest

from fieldapp.record.inspection import layout
from fieldapp.record.verification import verify
from tests.record import specimen as made

END = re.compile(rb"endobj\n|%%EOF\n")


def signed_twice(document):
    return made.forged_lead(made.forged_technician(document))


@pytest.mark.parametrize("junk", [b"\n", b"GIF89a", b"#!/bin/sh\n" + b" " * 900], ids=len)
def test_something_before_the_beginning_is_found(junk, found):
    assert "Something stands in the file before the document begins" in found(junk + made.closed())


@pytest.mark.parametrize(
    "tail", [b"\n", b"\0", b"PK\x03\x04", b"<script>", b"%%EOF", b" %%EOF\r\n"], ids=repr
)
def test_something_after_the_end_is_found(tail, found):
    assert "something was added after its end" in found(made.closed() + tail)


def test_second_file_after_the_end_is_found(roster):
    findings = verify(made.closed() + made.document(), roster).findings
    assert findings
    assert not verify(made.closed() + made.closed(), roster).sound


def test_file_cut_at_any_object_is_found(roster):
    whole = made.closed()
    ends = [one.end() for one in END.finditer(whole)][:-1]
    assert len(ends) > 25
    for end in ends:
        findings = "\n".join(verify(whole[:end], roster).findings)
        left_whole = end in (len(made.document()), len(made.signed()))
        said = "has signed" if end == len(made.document()) else "has not signed"
        assert (said if left_whole else "it was cut short") in findings


def test_part_listed_twice_is_found(found):
    document = made.document()
    ends = document.rindex(b"trailer")
    line = document[document.rindex(b"xref\n0 ") : ends].splitlines(keepends=True)[3]
    twice = document[:ends] + b"2 1\n" + line + document[ends:]
    assert "The file lists a part twice, so that two viewers" in found(signed_twice(twice))


def test_second_list_for_older_viewers_is_found(found):
    document = made.document()
    begins = document.rindex(b"xref\n0 ")
    hidden = b"\1\0\0\0"
    stream = (
        b"99 0 obj\n<< /Type /XRef /Size 100 /W [1 2 1] /Index [3 1] /Length 4 >>\n"
        b"stream\n" + hidden + b"\nendstream\nendobj\n"
    )
    after = document[begins:].replace(b"trailer\n<<", b"trailer\n<< /XRefStm %d" % begins)
    after = re.sub(rb"/Size \d+", b"/Size 100", after)
    moved = after.replace(b"startxref\n%d" % begins, b"startxref\n%d" % (begins + len(stream)))
    both = document[:begins] + stream + moved
    assert "lists its parts in another way than ours" in found(signed_twice(both))


def test_list_in_a_stream_is_found(found):
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(made.document())) as document:
        document.save(written, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    pdf = signed_twice(written.getvalue())
    assert "lists its parts in another way than ours" in found(pdf)


@pytest.mark.parametrize("user", ["", "secret"], ids=["no password to open", "password"])
def test_file_locked_with_a_password_is_found(user, found):
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(made.closed())) as document:
        document.save(written, encryption=pikepdf.Encryption(owner="office", user=user))
    assert "The file was locked with a password; records never are" in found(written.getvalue())


def test_list_that_is_whole_names_nothing_twice():
    assert list(layout.end_findings(made.closed())) == []
