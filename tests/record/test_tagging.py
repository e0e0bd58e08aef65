"""The tags of a record, read back with another program, and what comes with them."""

import io
import shutil
import subprocess

import pikepdf
import pytest
from pikepdf import Name

from fieldapp.record.pages.kit.paper import LETTER
from fieldapp.record.rendering import record_of
from fieldapp.record.tagging import tagged
from fieldapp.record.verification import verify
from tests.record import specimen

SHOWS = {"Tj", "TJ", "Do"}


@pytest.fixture(scope="module")
def pdf(hookup):
    return record_of(hookup.job, hookup.at, hookup.head, "0.0.0")[1]


@pytest.fixture(scope="module")
def document(pdf):
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        yield opened


def elements(node):
    """Yield every element below a node, in the order of reading."""
    kids = node.K if isinstance(node.K, pikepdf.Array) else [node.K]
    for kid in kids:
        if isinstance(kid, pikepdf.Dictionary):
            yield kid
            yield from elements(kid)


def marked(page):
    """Yield (kind, number) of each marked part of a page, and whether it shows anything."""
    kind, number = None, None
    for instruction in pikepdf.parse_content_stream(page):
        operands, name = list(instruction.operands), str(instruction.operator)
        if name == "BDC":
            assert kind is None, "a part within a part"
            kind, number = str(operands[0]), int(operands[1].MCID)
        elif name == "BMC":
            assert kind is None, "a part within a part"
            kind, number = str(operands[0]), None
        elif name == "EMC":
            yield kind, number
            kind = None
        elif name in SHOWS:
            assert kind is not None, f"{operands} is in no part"
    assert kind is None, "a part without an end"


def test_everything_shown_is_a_part_or_no_content(document):
    for page in document.pages:
        parts = list(marked(page))
        assert ("/Artifact", None) in parts
        numbers = [number for _, number in parts if number is not None]
        assert sorted(numbers) == list(range(len(numbers)))


def test_every_part_stands_in_the_tree_once_and_is_found_from_its_page(document):
    tree = document.Root.StructTreeRoot
    parts = [
        one for one in elements(tree) if not isinstance(one.K, pikepdf.Array | pikepdf.Dictionary)
    ]
    numbers = list(tree.ParentTree.Nums)
    held = dict(zip(numbers[::2], numbers[1::2], strict=True))
    places = {page.obj.objgen: number for number, page in enumerate(document.pages)}
    assert sum(len(found) for found in held.values()) == len(parts)
    for part in parts:
        page = places[part.Pg.objgen]
        assert held[page][int(part.K)].objgen == part.objgen
    for number, page in enumerate(document.pages):
        kinds = {n: kind for kind, n in marked(page) if n is not None}
        assert {n: str(part.S) for n, part in enumerate(held[number])} == kinds


def test_chapters_begin_with_their_title(document):
    (whole,) = [one for one in elements(document.Root.StructTreeRoot) if Name.Document == one.S]
    for chapter in whole.K:
        assert Name.Sect == chapter.S
        assert [str(part.S) for part in chapter.K].index("/H1") == 0
        assert [str(part.S) for part in chapter.K].count("/H1") == 1


def test_a_row_is_one_part(document, hookup):
    kinds = [str(one.S) for one in elements(document.Root.StructTreeRoot)]
    rows = sum(len(step.rows) for phase in hookup.content.phases for step in phase.steps)
    assert rows < kinds.count("/P") < 4 * rows


def test_figures_tell_what_they_show(document):
    figures = [one for one in elements(document.Root.StructTreeRoot) if Name.Figure == one.S]
    words = [str(figure.Alt) for figure in figures]
    assert len(words) == 4
    assert "suction tank valve open" in words[0]
    assert words[1].startswith("QR code: SP-T2-2026-01 r1 sha256 ")
    assert "attempt 2 from 843" in words[2]


def test_no_tag_leads_to_a_signature(document):
    """A link from the tree to a field makes its signature look like a change of the pages."""
    for one in elements(document.Root.StructTreeRoot):
        assert one.get("/Type") != Name.OBJR
    for field in document.Root.AcroForm.Fields:
        assert "/StructParent" not in field


def test_document_names_its_language_title_and_colours(document):
    root = document.Root
    assert str(root.Lang) == "en-GB"
    assert root.MarkInfo.Marked
    assert root.ViewerPreferences.DisplayDocTitle
    assert "Commissioning record SP-T2-2026-01" in str(document.docinfo.Title)
    with document.open_metadata() as facts:
        assert facts["dc:title"] == str(document.docinfo.Title)
        assert facts["pdf:Producer"] == "fieldapp 0.0.0, ReportLab"
    (intent,) = root.OutputIntents
    assert str(intent.OutputConditionIdentifier) == "sRGB IEC61966-2.1"
    assert intent.DestOutputProfile.read_bytes()[36:40] == b"acsp"


def test_equal_input_gives_equal_bytes(pdf, hookup):
    rendered = hookup.rendered()
    assert tagged(pdf, rendered.tags) == tagged(pdf, rendered.tags)


@pytest.mark.parametrize("sheet", [None, LETTER], ids=["A4", "Letter"])
def test_tagged_record_is_signed_and_found_good_by_us_and_by_others(hookup, sheet, tmp_path):
    more = {"sheet": sheet} if sheet else {}
    _, pdf = record_of(hookup.job, hookup.at, hookup.head, "0.0.0", **more)
    closed = specimen.closed_by_crew(pdf, hookup.job)
    assert verify(closed, specimen.roster()).findings == ()
    path = tmp_path / "record.pdf"
    path.write_bytes(closed)
    for program, words in (("pdfsig", "Signature is Valid"), ("qpdf", "No syntax or stream")):
        if shutil.which(program):
            options = ["--check"] if program == "qpdf" else ["-nocert"]
            command = [program, *options, path]
            told = subprocess.run(command, capture_output=True, text=True, check=True).stdout
            assert told.count(words) == (2 if program == "pdfsig" else 1), told
