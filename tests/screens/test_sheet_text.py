"""A job sheet typed on the tablet is the sheet that a file would be."""

from datetime import date

import pytest

from fieldapp.checklist.problems import Problem
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.screens.desk.desk_lists import checklist_of
from fieldapp.screens.sheet.sheet_fields import sections_of
from fieldapp.screens.sheet.sheet_text import instrument_names, problems_in, text_of, typed_from
from tests.actions.play import CHECKLIST, SHEET

TODAY = date(2031, 5, 4)


def typed_again(text, checklist):
    return text_of(typed_from(text), checklist)


def test_typed_sheet_says_what_the_file_says():
    first = read_sheet(SHEET, TODAY)
    second = read_sheet(typed_again(SHEET, checklist_of(CHECKLIST)), TODAY)
    assert isinstance(first, JobSheet)
    assert isinstance(second, JobSheet)
    stated = {name: value for name, value in first.facts.items() if value is not False}
    again = {name: value for name, value in second.facts.items() if value is not False}
    assert again == stated
    assert second.crew == first.crew
    assert second.instruments == first.instruments
    assert second.owner == first.owner


def test_text_that_is_no_toml_gives_nothing_to_type_on():
    assert typed_from("this is = = no sheet") == {}


@pytest.mark.parametrize(
    ("old", "new", "section", "key", "words"),
    [
        ('elevation = "1500 m"', 'elevation = "15000 m"', "site", "elevation", "outside"),
        ('name = "Ben Thorne"', 'name = ""', "crew 1", "name", "name"),
        ('serial = "T-3"\n', "", "instrument thermometer", "serial", "missing"),
        ('bay = "T2"\n', "", "site", "bay", "missing"),
    ],
    ids=["figure outside", "person without name", "instrument without serial", "left out"],
)
def test_problem_stands_beside_its_field(old, new, section, key, words):
    checklist = checklist_of(CHECKLIST)
    assert old in SHEET
    typed = typed_from(SHEET.replace(old, new))
    text = text_of(typed, checklist)
    problems = read_sheet(text, TODAY)
    assert isinstance(problems, tuple)
    assert all(isinstance(problem, Problem) for problem in problems)
    (found,) = (one for one in sections_of(checklist, typed) if one.id == section)
    wrong = problems_in(found, problems, text, instrument_names(text))
    assert words in wrong[key]
    others = [one for one in sections_of(checklist, typed) if one.id != section]
    assert not any(problems_in(o, problems, text, instrument_names(text)) for o in others)


def test_every_instrument_that_the_checklist_reads_with_can_be_typed():
    sections = [section.id for section in sections_of(checklist_of(CHECKLIST), {})]
    assert "instrument vacuum_gauge" in sections
    assert sections[-1] == "owner"
