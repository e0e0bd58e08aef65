"""Mutated checklists, as many as a hurry allows; `python -m tests.fuzz` reads 10,000."""

from hypothesis import given, settings

from fieldapp.checklist.doubts.finding import doubts_in
from fieldapp.checklist.model import Checklist
from fieldapp.checklist.reader import read_checklist
from tests.fuzz.mutations import MUTATIONS, SHIPPED, SMALL, cases, lines_of, pairs_of, told


@settings(max_examples=400, deadline=None)
@given(cases())
def test_no_mutated_file_ends_in_a_traceback_and_each_message_carries_its_line(case):
    found = told(case)
    if isinstance(found, Checklist):
        assert isinstance(doubts_in(case.content), tuple)


@settings(max_examples=20, deadline=None)
@given(cases(SHIPPED))
def test_nor_does_one_of_the_shipped_files(case):
    told(case)


def test_every_file_that_is_mutated_is_sound_and_has_lines_to_change():
    for path in (*SMALL, *SHIPPED):
        assert isinstance(read_checklist(path.read_text(encoding="utf-8")), Checklist), path
        assert len(pairs_of(path)) > len(lines_of(path)) / 2


def test_every_mutation_changes_the_file():
    for mutation in MUTATIONS:
        content = mutation(SMALL[0], pairs_of(SMALL[0])[5], 3).content
        text = content if isinstance(content, str) else content.decode("utf-8", "replace")
        assert text.splitlines() != list(lines_of(SMALL[0])), mutation.__name__
