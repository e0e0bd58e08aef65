"""What a report must carry by ISO/IEC 17025:2017, 7.8.2.1, letter by letter, and where it stands.

The letters are told in our own words, from memory; the record itself names the page of each.
"""

import io
import re

import pypdf
import pytest

from fieldapp.record.pages.kit.paper import A4
from tests.record.test_pdf import pages_of, placed, plain, without_spaces

QUARTER = 129  # points: the table has four columns
SAYS = {
    "a": lambda c: [c.heading.title],
    "b": lambda c: ["Brackwater Drying (invented)", "1 Kiln Lane, Oxbridge (invented)"],
    "c": lambda c: [c.heading.place],
    "d": lambda c: [c.heading.number, "Page 1 of"],
    "e": lambda c: ["Larkmoor Grid (invented)", "H. Brook, control room"],
    "f": lambda c: [f"Checklist “{c.heading.checklist}”, revision 1"],
    "g": lambda c: ["Transformer T2", "40-1984-2217"],
    "h": lambda c: ["Oil sample, date", "2026-05-28"],
    "i": lambda c: ["2026-06-16", "07:10"],
    "j": lambda c: ["Issued 2026-06-17 12:54"],
    "k": lambda c: ["Entries by phase"],
    "l": lambda c: ["this unit, this hookup and this time only"],
    "m": lambda c: ["value", "unit", "limits", "verdict"],
    "n": lambda c: [deviation.label for deviation in c.deviations],
    "o": lambda c: [word for one in c.signatures for word in (one.name, one.role)],
    "p": lambda c: ["oil samples before the job, as the job sheet states them"],
}


@pytest.fixture(scope="module")
def pages(hookup_pdf):
    return pages_of(hookup_pdf.pdf)


@pytest.fixture(scope="module")
def named(hookup_pdf):
    """Return the page that the record names for each letter; 0 where it says every page."""
    last = pypdf.PdfReader(io.BytesIO(hookup_pdf.pdf)).pages[-1]
    lines: dict[tuple[int, int], list[tuple[float, str]]] = {}
    for left, base, _, _, words in placed(last):
        lines.setdefault((round(base), int((left - A4.left + 1) // QUARTER)), []).append(
            (left, words)
        )
    cells = [" ".join(words for _, words in sorted(line)) for line in lines.values()]
    found = [re.fullmatch(r"([a-p]) .*?(page (\d+)|every page)", plain(cell)) for cell in cells]
    return {match[1]: int(match[3] or 0) for match in found if match}


def test_every_letter_is_named_once(named):
    assert "".join(sorted(named)) == "abcdefghijklmnop"


@pytest.mark.parametrize("letter", SAYS)
def test_page_named_for_a_letter_carries_it(letter, named, pages, hookup):
    text = pages[named[letter] - 1] if named[letter] else pages[0]
    for words in SAYS[letter](hookup.content):
        assert without_spaces(words) in without_spaces(text), words


def test_what_is_said_to_be_on_every_page_is(named, pages, hookup):
    assert {letter for letter, page in named.items() if not page} == {"d", "j"}
    for number, text in enumerate(pages, start=1):
        assert f"Page {number} of {len(pages)}" in text
        assert hookup.content.heading.number in text
        assert "Issued 2026-06-17 12:54" in text
    assert "nothing follows" in pages[-1]


def test_samples_of_the_job_stand_among_the_entries(hookup):
    labels = {row.label for phase in hookup.content.phases for step in phase.steps
              for row in step.rows}  # fmt: skip
    assert "Number of the sampling job" in labels


def test_outline_leads_to_every_chapter(hookup_pdf):
    reader = pypdf.PdfReader(io.BytesIO(hookup_pdf.pdf))
    titles = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert titles == [
        "Front page", "Evacuation", "Shutdowns", "Entries by phase", "Photos", "Computed values",
        "Instruments", "People, events and cautions", "Deviations", "What the job sheet stated",
    ]  # fmt: skip
