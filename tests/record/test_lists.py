"""Records of the lists that follow a hookup, or stand alone: words, chapters and pages that fit."""

import io

import pypdf
import pytest
from pypdf.generic import Destination

from fieldapp.record.content import fingerprint_of, json_of
from fieldapp.record.pages.kit.paper import A4, LETTER
from fieldapp.record.pdf import render
from tests.checklists.playing import VALUES
from tests.record.lists import ALONE, HEAD_OF_HOOKUP, HOOKUP, played
from tests.record.test_pdf import overlaps, pages_of, placed, without_spaces

FULL_ENOUGH = 0.4


def rendered(name, sheet=A4):
    content = played(name).content
    return render(content, fingerprint=fingerprint_of(json_of(content)), sheet=sheet)


@pytest.mark.parametrize("name", VALUES)
@pytest.mark.parametrize("sheet", [A4, LETTER], ids=lambda sheet: sheet.name)
def test_pages_are_laid_out_without_a_fault(name, sheet):
    found = rendered(name, sheet)
    assert found.faults == ()
    for page in pypdf.PdfReader(io.BytesIO(found.pdf)).pages:
        assert overlaps(placed(page)) == []


@pytest.mark.parametrize("name", VALUES)
def test_no_page_but_the_last_is_empty_below_its_middle(name):
    *pages, _ = pypdf.PdfReader(io.BytesIO(rendered(name).pdf)).pages
    for number, page in enumerate(pages, start=1):
        body = [text for text in placed(page) if text[1] > 55]
        assert min(text[1] for text in body) < FULL_ENOUGH * A4.height, number


@pytest.mark.parametrize("name", [name for name in VALUES if name not in ALONE])
def test_record_names_the_commissioning_record_it_follows(name):
    content, front = played(name).content, pages_of(rendered(name).pdf)[0]
    assert content.heading.kind == "record"
    assert (content.heading.follows, content.heading.follows_head) == (HOOKUP, HEAD_OF_HOOKUP)
    assert content.heading.number == f"{HOOKUP}.{name.replace('_', '-')}-1"
    assert f"Follows commissioning record {HOOKUP}" in front
    assert "7c7c 7c7c 7c7c 7c7c" in front


@pytest.mark.parametrize("name", ALONE)
def test_record_that_follows_nothing_says_nothing_of_it(name):
    assert "Follows" not in " ".join(pages_of(rendered(name).pdf))


@pytest.mark.parametrize(
    ("name", "sentence", "first"),
    [
        ("visit", "Done and left running.", "Both shutdowns proven by a real stimulus."),
        ("alarm_response", "Done and left running.", "All 9 shutdowns proven"),
        ("cartridge_change", "Done and left running.", "Both shutdowns proven"),
        ("rest_test", "Done and left stopped.", "All 17 steps done."),
        ("disconnection", "Done and taken off.", "The one shutdown proven"),
        ("oil_sampling", "Done. No deviation is open.", "All 20 steps done."),
        ("vacuum_treatment", "Done. No deviation is open.", "All 30 steps done."),
    ],
)
def test_outcome_is_worded_by_what_the_list_has(name, sentence, first):
    outcome = played(name).content.outcome
    assert outcome.state == "done"
    assert outcome.sentence.startswith(sentence)
    assert outcome.counts.startswith(first)


@pytest.mark.parametrize("name", VALUES)
def test_nothing_is_said_of_a_hookup_where_there_is_none(name):
    text = " ".join(pages_of(rendered(name).pdf))
    assert "close the hookup" not in without_spaces(text)
    assert "closethejobasitstands" in without_spaces(text)
    assert "this hookup" not in text
    assert "Commissioning record" not in text.replace("Follows commissioning record", "")


@pytest.mark.parametrize(
    ("name", "absent"),
    [
        ("oil_sampling", ("Shutdowns", "Evacuation", "The hookup at sign-off", "Photos")),
        ("rest_test", ("Shutdowns", "Evacuation", "tests failed first and were repeated, 0")),
        ("vacuum_treatment", ("Shutdowns", "The hookup at sign-off", "No part of an energised")),
    ],
)
def test_chapters_that_are_empty_are_left_out(name, absent):
    reader = pypdf.PdfReader(io.BytesIO(rendered(name).pdf))
    text = " ".join(pages_of(rendered(name).pdf))
    titles = [entry.title for entry in reader.outline if isinstance(entry, Destination)]
    for words in absent:
        assert words not in titles
        assert words not in text


def test_shutdowns_whose_turn_is_another_day_are_named_and_not_counted():
    text = " ".join(pages_of(rendered("visit").pdf))
    assert "2 of 2 shutdowns proven." in text
    assert "Fitted, and not asked for here: Broken wire in the level loop;" in text
    assert "not yet tested" not in text


@pytest.mark.parametrize("name", VALUES)
def test_every_list_has_key_figures_against_their_limits(name):
    figures = played(name).content.figures
    assert len(figures) >= 3
    assert all(figure.judgement.limits for figure in figures)
