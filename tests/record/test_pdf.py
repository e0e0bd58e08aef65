"""The pages of a record, read back with other programs and held against its data."""

import hashlib
import io
import json
import os
import re

import pikepdf
import pypdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf.generic import Destination

from fieldapp.actions.beginning import job_of
from fieldapp.record.content import content_of, fingerprint_of
from fieldapp.record.pages.kit.lettering import lines, printed, width
from fieldapp.record.pages.kit.paper import A4, LETTER, Paper
from fieldapp.record.pdf import render
from fieldapp.record.rendering import record_of
from fieldapp.record.verification import verify
from tests.record import small_job, specimen

STAGES = (
    small_job.begun,
    small_job.arrived,
    small_job.proven,
    small_job.evacuated,
    small_job.signed_by_technician,
    small_job.sent_back,
    small_job.signed_off,
)
AWKWARD = (
    ("\u2603 \U0001f525 \u05d0", "[U+2603] [U+1F525] [U+05D0]"),
    ("W" * 400, "W" * 400),
    ("a\u0301 b\ttab\nline", "\u00e1 b tab line"),
    ("wide " * 300, "wide " * 300),
    ("\u202ereversed", "[U+202E]reversed"),
)


def plain(text):
    """Return text as it is compared: any white space is one space, minus is ASCII."""
    return re.sub(r"\s+", " ", text.replace("\u2212", "-")).strip()


def pages_of(pdf):
    return [plain(page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


def without_spaces(text):
    return re.sub(r"\s+", "", text)


def placed(page):
    """Return (left, bottom, right, top, text) of everything written on a page."""
    found = []

    def visit(text, _, matrix, font, size):
        words = text.strip()  # the reader puts a space between texts that are far apart
        if words:
            name = str(font["/BaseFont"]).partition("+")[2]
            left, base = matrix[4], matrix[5]
            right = left + width(words, size, name)
            found.append((left, base - 0.12 * size, right, base + 0.62 * size, words))

    page.extract_text(visitor_text=visit)
    return found


def overlaps(texts, least=0.5):
    return [
        (one[4], other[4])
        for place, one in enumerate(texts)
        for other in texts[place + 1 :]
        if one[0] < other[2] - least
        and other[0] < one[2] - least
        and one[1] < other[3] - least
        and other[1] < one[3] - least
    ]


def test_two_texts_on_each_other_are_found():
    written = io.BytesIO()
    paper = Paper(written, A4)
    paper.text(0, 100, "one")
    paper.text(4, 101, "other")
    paper.turn()
    paper.finish()
    (page,) = pypdf.PdfReader(written).pages
    assert overlaps(placed(page)) == [("one", "other")]


@pytest.mark.parametrize("sheet", [A4, LETTER], ids=lambda sheet: sheet.name)
def test_nothing_overlaps_and_nothing_leaves_the_page(hookup, sheet):
    rendered = hookup.rendered(sheet=sheet)
    assert rendered.faults == ()
    for page in pypdf.PdfReader(io.BytesIO(rendered.pdf)).pages:
        texts = placed(page)
        assert overlaps(texts) == []
        assert min(text[0] for text in texts) >= sheet.left - 1
        assert max(text[2] for text in texts) <= sheet.left + 505
        assert min(text[1] for text in texts) > 15


@pytest.mark.parametrize("stage", STAGES, ids=lambda stage: stage.__name__)
@pytest.mark.parametrize("sheet", [A4, LETTER], ids=lambda sheet: sheet.name)
def test_job_is_laid_out_at_every_stage(record_of_crew, stage, sheet):
    rendered = record_of_crew(stage()).rendered(sheet=sheet)
    assert rendered.faults == ()
    for page in pypdf.PdfReader(io.BytesIO(rendered.pdf)).pages:
        assert overlaps(placed(page)) == []


@pytest.mark.parametrize("events", range(1, 312, 23))
def test_hookup_is_laid_out_after_any_event(hookup, events):
    job = job_of(hookup.job.state.log[:events])
    content = content_of(job, job.state.log[-1].at, head=hookup.head, version="0.0.0")
    rendered = render(content, fingerprint="0" * 64)
    assert rendered.faults == ()
    for page in pypdf.PdfReader(io.BytesIO(rendered.pdf)).pages:
        assert overlaps(placed(page)) == []


@pytest.mark.parametrize(
    ("said", "stands"), AWKWARD, ids=["signs", "one word", "marks", "long", "direction"]
)
def test_whatever_was_written_fits_and_stands_whole(record_of_crew, said, stands):
    record = record_of_crew(small_job.arrived(said))
    rendered = record.rendered()
    assert rendered.faults == ()
    text = without_spaces(" ".join(pages_of(rendered.pdf)))
    assert without_spaces(stands) in text


@settings(max_examples=25)
@given(st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs")), max_size=400))
def test_lines_hold_every_sign_and_none_is_too_wide(text):
    found = lines(text, 120, 7.8)
    assert all(width(line, 7.8) <= 120 for line in found)
    left = without_spaces("".join(found))
    assert len(left) >= len(without_spaces(text))


def test_every_figure_of_the_data_stands_on_the_pages(hookup, hookup_pdf):
    text = plain(" ".join(pages_of(hookup_pdf.pdf)))
    words = set(text.split(" "))
    for phase in hookup.content.phases:
        for step in phase.steps:
            for row in step.rows:
                value = plain(printed(row.value))
                assert value in text if " " in value else value in words or not value, row.entry
                for reading in row.table.readings if row.table and not row.chapter else ():
                    assert {plain(printed(one)) for one in reading.values if one} <= words
    for attempt in hookup.content.evacuation.attempts:
        assert {reading.pressure for reading in attempt.readings} <= words
        assert attempt.fit.ultimate in words
    last = hookup.content.evacuation.attempts[-1].readings
    assert {plain(printed(r.gauge)) for r in last} | {r.fit for r in last} <= words
    for computation in hookup.content.computations:
        assert plain(printed(computation.value)) in words


def test_every_verdict_and_every_reason_stands_on_the_pages(hookup, hookup_pdf):
    text = without_spaces(" ".join(pages_of(hookup_pdf.pdf)))
    content = hookup.content
    said = [d.reason for d in content.deviations] + [d.condition for d in content.deviations]
    said += [c.text for c in content.cautions] + [h.note for h in content.happenings]
    said += [t.judgement.sentence for s in content.shutdowns for t in s.trials[:-1]]
    for phase in content.phases:
        for step in phase.steps:
            said.append(step.title)
            said += [row.judgement.words for row in step.rows if row.judgement.place == "outside"]
    for words in said:
        assert without_spaces(plain(words)) in text.replace("\u2212", "-"), words


def test_failed_attempts_are_printed_beside_the_good_ones(small):
    text = " ".join(pages_of(small.rendered().pdf))
    assert "failed: outside by 94.4 hPa" in text
    assert "Broken wire in the level loop, test 1" in text
    assert "failed: no trip" in text
    assert "0.120" in text
    assert "digits swapped" in text


def test_head_and_foot_of_every_page_name_number_page_and_fingerprint(hookup, hookup_pdf):
    pages = pages_of(hookup_pdf.pdf)
    groups = " ".join(hookup.fingerprint[place : place + 4] for place in range(0, 64, 4))
    for number, text in enumerate(pages, start=1):
        assert f"Commissioning record {hookup.content.heading.number}" in text
        assert f"Page {number} of {len(pages)}" in text
        assert groups in text
    assert sum("nothing follows" in text for text in pages) == 1
    assert f"{len(pages)} pages, nothing follows" in pages[-1]


@pytest.mark.parametrize("chapter", ["Evacuation", "Shutdowns", "Entries by phase", "Instruments"])
def test_outline_leads_to_the_page_of_a_chapter(hookup_pdf, chapter):
    reader = pypdf.PdfReader(io.BytesIO(hookup_pdf.pdf))
    entries = [entry for entry in reader.outline if isinstance(entry, Destination)]
    (entry,) = (entry for entry in entries if entry.title == chapter)
    page = reader.get_destination_page_number(entry)
    assert page is not None
    assert chapter in reader.pages[page].extract_text()


@pytest.mark.parametrize(
    ("words", "stands_there"),
    [
        ("Evacuation, attempt 1", "What the fit says"),
        ("shutdown proven,", "9 of 9 shutdowns proven."),
    ],
)
def test_pages_named_on_the_front_are_the_right_ones(hookup_pdf, words, stands_there):
    pages = pages_of(hookup_pdf.pdf)
    (number,) = re.findall(f"{words}.*?page (\\d+)", pages[0])
    assert stands_there in pages[int(number) - 1]


def test_unsigned_record_says_so(record_of_crew):
    front = pages_of(record_of_crew(small_job.evacuated()).rendered().pdf)[0]
    assert "Not proven: 2 steps open, nobody has signed." in front
    assert front.count("Not signed") == 2
    assert "Still open" in front
    assert "Sign as technician" in front


def test_signatures_show_name_role_time_and_meaning(small):
    front = pages_of(small.rendered().pdf)[0]
    for signature in small.content.signatures:
        assert signature.name in front
        assert signature.at[:19].replace("T", " ") in front
        assert without_spaces(signature.meaning) in without_spaces(front)


def test_name_typed_by_a_hand_that_cannot_draw_stands_as_typed(record_of_crew):
    record = record_of_crew(small_job.signed_by_a_typed_name())
    (signature,) = record.content.signatures
    assert (signature.typed, signature.strokes) == ("Maren Holtby", ())
    assert "Maren Holtby name typed" in pages_of(record.rendered().pdf)[0]


def test_fonts_are_embedded_and_no_other_is_named(hookup_pdf):
    with pikepdf.open(io.BytesIO(hookup_pdf.pdf)) as document:
        fonts = [o for o in document.objects
                 if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/Font"]  # fmt: skip
        assert fonts
        for font in fonts:
            assert "SourceSans3" in str(font["/BaseFont"])
            assert "/FontFile2" in font["/FontDescriptor"]


def test_same_content_gives_the_same_bytes(small):
    assert small.rendered().pdf == small.rendered().pdf


def test_dates_are_of_the_record_and_the_environment_is_left_alone(small):
    before = dict(os.environ)
    facts = pypdf.PdfReader(io.BytesIO(small.rendered().pdf)).metadata
    assert facts is not None
    assert dict(os.environ) == before
    assert facts.creation_date == small.at
    assert facts.title == "Commissioning record SP-T2-2026-01, revision 1"
    assert not facts.author


def test_boxes_lie_where_the_signatures_are_drawn(small):
    rendered = small.rendered()
    page = pypdf.PdfReader(io.BytesIO(rendered.pdf)).pages[0]
    names = {text[4]: text for text in placed(page)}
    for box, name in ((rendered.technician, small_job.TECHNICIAN), (rendered.lead, small_job.LEAD)):
        left, bottom, right, top, _ = names[name]
        assert box.page == 0
        assert box.left <= left <= right <= box.left + box.width
        assert box.bottom <= bottom <= top <= box.bottom + box.height


def test_prepared_record_carries_its_json_and_two_fields(small):
    record_json, pdf = record_of(small.job, small.at, small.head, "0.0.0")
    assert (record_json, pdf) == record_of(small.job, small.at, small.head, "0.0.0")
    with pikepdf.open(io.BytesIO(pdf)) as document:
        assert document.attachments["record.json"].get_file().read_bytes() == record_json
        assert [str(f["/T"]) for f in document.Root.AcroForm.Fields] == ["Technician", "CrewLead"]
    digits = hashlib.sha256(record_json).hexdigest()
    assert digits == fingerprint_of(record_json)
    assert all(digits in without_spaces(text) for text in pages_of(pdf))


def test_record_is_signed_by_two_and_verified_as_sound(hookup):
    record_json, pdf = record_of(hookup.job, hookup.at, hookup.head, "0.0.0")
    findings = verify(specimen.closed_by_crew(pdf, hookup.job), specimen.roster())
    assert findings.findings == ()
    assert findings.record == json.loads(record_json)
