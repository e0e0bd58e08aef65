"""The blank of each checklist, read back with another program and held against the checklist."""

import io
from datetime import date
from hashlib import sha256

import pikepdf
import pypdf
import pytest

from fieldapp.checklist.model import Checklist
from fieldapp.checklist.reader import read_checklist
from fieldapp.demo.player import sheet_text
from fieldapp.job.emergency import CAUTION, ROWS
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.places import checklists
from fieldapp.record.blank_pdf import blank_pdf
from fieldapp.record.pages.blanks.blank_pieces import SIGNALS
from fieldapp.record.pages.kit.paper import A4, LETTER
from tests.checklist.planting import VALID
from tests.checklists.playing import checklist_text
from tests.record.test_pdf import overlaps, placed, plain, without_spaces

NAMES = sorted(path.parent.name for path in checklists().glob("*/checklist.toml"))
each_list = pytest.mark.parametrize("name", NAMES)
each_paper = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)


def stated():
    found = read_sheet(sheet_text(), date(2026, 6, 16))
    assert isinstance(found, JobSheet)
    return found


def blank(text, sheet=None, paper=A4):
    checklist = read_checklist(text)
    assert isinstance(checklist, Checklist), checklist
    return blank_pdf(checklist, text.encode(), sheet, paper=paper)


def pages(pdf):
    return pypdf.PdfReader(io.BytesIO(pdf)).pages


def written(pdf):
    return without_spaces(plain(" ".join(page.extract_text() for page in pages(pdf))))


def squeezed(text):
    return without_spaces(plain(text))


@each_list
@each_paper
@pytest.mark.parametrize("sheet", [None, stated()], ids=["no sheet", "with a sheet"])
def test_nothing_overlaps_and_nothing_leaves_the_page(name, paper, sheet):
    for page in pages(blank(checklist_text(name), sheet, paper)):
        texts = placed(page)
        assert overlaps(texts) == []
        assert min(text[0] for text in texts) >= paper.left - 1
        assert max(text[2] for text in texts) <= paper.left + 506
        assert min(text[1] for text in texts) > 15


@each_list
def test_every_step_is_there_in_its_order_with_all_that_it_asks_for(name):
    checklist = read_checklist(checklist_text(name))
    assert isinstance(checklist, Checklist)
    text = written(blank(checklist_text(name)))
    for number, step in enumerate(checklist.steps(), 1):
        place = text.find(squeezed(f"{number} {step.title}"))
        assert place >= 0, step.id
        assert squeezed(step.text) in text
        for entry in step.entries:
            assert squeezed(entry.label) in text, entry.id
            for part in (*entry.checks, *(option.text for option in entry.options)):
                assert squeezed(part) in text, entry.id
        if step.caution:
            said = f"{step.caution.word} {step.caution.text}"
            assert squeezed(said) in text[:place], "the caution stands before the action"


@each_list
def test_a_caution_stands_directly_above_its_step(name):
    checklist = read_checklist(checklist_text(name))
    assert isinstance(checklist, Checklist)
    text = written(blank(checklist_text(name)))
    for number, step in enumerate(checklist.steps(), 1):
        if step.caution:
            said = squeezed(f"{step.caution.text} {number} {step.title}")
            assert said in text, step.id


@each_list
def test_every_page_says_what_it_belongs_to(name):
    text = checklist_text(name)
    found = pages(blank(text))
    digits = sha256(text.encode()).hexdigest()
    for number, page in enumerate(found, 1):
        words = plain(page.extract_text())
        assert f"Page {number} of {len(found)}" in words
        assert digits in without_spaces(words)
        assert "revision" in words


@each_list
def test_the_last_page_is_the_emergency_card(name):
    words = plain(pages(blank(checklist_text(name)))[-1].extract_text())
    for said in ("Stop and make safe", CAUTION, *(row for _, row in ROWS)):
        assert squeezed(said) in without_spaces(words)


def test_limits_are_worked_out_with_the_sheet_and_named_without_it():
    text = checklist_text("hookup")
    assert squeezed("within 35 hPa of “Standard pressure at this elevation”") in written(
        blank(text)
    )
    with_sheet = written(blank(text, stated()))
    # the demo's 166.65 hPa less the 2 hPa of its gauge, to one decimal on the safe side
    assert squeezed("At most 166.65 hPa; with this instrument, 164.6 or less") in with_sheet
    assert squeezed("must be: 40-1984-2217, else stop") in with_sheet
    assert squeezed("SP-T2-2026-01") in with_sheet


def test_what_the_sheet_leaves_out_is_said_and_gets_no_room():
    text = checklist_text("hookup")
    said = squeezed("Enter what is blocked and until when: not needed: by the job sheet")
    assert said in written(blank(text, stated()))
    assert said not in written(blank(text))


def test_terms_that_a_screen_would_enforce_are_said_on_paper():
    text = written(blank(checklist_text("alarm_response")))
    assert squeezed("only if “Joints, hoses, vessel” is “opened”") in text
    assert squeezed("only with the suction tank valve closed") in text
    assert squeezed("not if: Emergency stop: prove it though it did not act") in text
    hookup = written(blank(checklist_text("hookup")))
    assert squeezed("counts for 60 min, until 47–49 are done") in hookup


def test_a_step_longer_than_a_page_goes_on_under_its_name():
    row = '[[phase.step.entry]]\nid = "more_{0}"\nkind = "confirm"\nlabel = "More {0}"\n\n'
    more = "".join(row.format(number) for number in range(60))
    text = VALID.replace('[[phase.step.entry]]\nid = "signed"', more
                         + '[[phase.step.entry]]\nid = "signed"')  # fmt: skip
    found = pages(blank(text))
    assert any("Sign, continued" in plain(page.extract_text()) for page in found)
    assert all(overlaps(placed(page)) == [] for page in found)


@each_paper
def test_texts_as_long_as_the_reader_allows_still_fit(paper):
    long = "Wide words and more of them " * 7
    text = VALID.replace('title = "Sign"', f'title = "{long}"\ntext = "{"Read this. " * 250}"')
    for label in ("Both valves are closed", "Temperature of the cooler", "Low flow", "Plate",
                  "Fluid on the plate", "Gauge while pumping", "Done as written"):  # fmt: skip
        text = text.replace(f'label = "{label}"', f'label = "{long}"')
    text = text.replace('text = "mineral"', f'text = "mineral", waive = "owner" }}, '
                                            f'{{ text = "{long}"')  # fmt: skip
    assert all(overlaps(placed(page)) == [] for page in pages(blank(text, None, paper)))


def test_equal_input_gives_equal_bytes():
    text = checklist_text("visit")
    assert blank(text, stated()) == blank(text, stated())


def test_every_font_is_embedded():
    with pikepdf.open(io.BytesIO(blank(checklist_text("hookup"), stated()))) as document:
        fonts = [o for o in document.objects
                 if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/Font"]  # fmt: skip
        assert fonts
        for font in fonts:
            assert "SourceSans3" in str(font["/BaseFont"])
            assert "/FontFile2" in font["/FontDescriptor"]


def test_every_signal_word_has_its_colour():
    assert set(SIGNALS) == {"DANGER", "WARNING", "CAUTION", "NOTICE"}
