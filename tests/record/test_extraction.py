"""A record in the hands of other programs: its data, its fonts, its pages in colour and in grey."""

import io
import shutil
import subprocess

import pikepdf
import pypdf
import pytest
from PIL import Image

from fieldapp.record.rendering import record_of
from tests.record import specimen


@pytest.fixture(scope="module")
def closed(hookup):
    record_json, pdf = record_of(hookup.job, hookup.at, hookup.head, "0.0.0")
    return record_json, specimen.closed_by_crew(pdf, hookup.job)


@pytest.fixture
def path(closed, tmp_path):
    place = tmp_path / "record.pdf"
    place.write_bytes(closed[1])
    return place


def by_pikepdf(path):
    with pikepdf.open(path) as document:
        return document.attachments["record.json"].get_file().read_bytes()


def by_pypdf(path):
    (content,) = pypdf.PdfReader(path).attachments["record.json"]
    return content


def by_pdfdetach(path):
    if not shutil.which("pdfdetach"):
        return by_pikepdf(path)
    out = path.with_suffix(".json")
    subprocess.run(["pdfdetach", "-save", "1", "-o", out, path], check=True)
    return out.read_bytes()


@pytest.mark.parametrize("taken_out", [by_pikepdf, by_pypdf, by_pdfdetach])
def test_every_program_takes_out_the_same_data(taken_out, closed, path):
    assert taken_out(path) == closed[0]


def test_every_font_is_embedded(path):
    if shutil.which("pdffonts"):
        told = subprocess.run(["pdffonts", path], check=True, capture_output=True, text=True)
        _, _, *fonts = told.stdout.splitlines()
        assert len(fonts) == 3
        for font in fonts:
            embedded, subset, unicode = font.split()[-5:-2]
            assert (embedded, subset, unicode) == ("yes", "yes", "yes"), font


def drawn(path, name, *options):
    out = path.with_name(name)
    command = ["pdftoppm", "-r", "50", "-f", "1", "-l", "1", *options, path, out]
    subprocess.run(command, check=True)
    (picture,) = path.parent.glob(f"{name}*.p?m")
    with Image.open(io.BytesIO(picture.read_bytes())) as image:
        image.load()
        return image


def test_page_drawn_in_grey_is_as_dark_as_in_colour(path):
    """Green and red print equally dark, and nothing is so light that it is lost."""
    if shutil.which("pdftoppm"):
        colour, grey = drawn(path, "colour"), drawn(path, "grey", "-gray")
        assert (colour.mode, grey.mode) == ("RGB", "L")
        dark = [sum(image.convert("L").histogram()[:128]) for image in (colour, grey)]
        assert dark[0] == pytest.approx(dark[1], rel=0.05)
        assert dark[1] > 2000
