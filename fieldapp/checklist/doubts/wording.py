"""Doubts about words: what nobody reads in gloves, at an arm's length, in the rain."""

import re

from fieldapp.checklist.model import Checklist, Step
from fieldapp.checklist.reading.names import Tables, steps
from fieldapp.checklist.reading.shapes import Table

LONGEST_TITLE = 60
LONGEST_TEXT = 200
LONGEST_SENTENCE = 76
MOST_ANSWERS = 5
MOST_HAPPENINGS = 30
FEWEST_STEPS = 6


def doubt_wording(checklist: Checklist, tables: Tables) -> None:
    """Note what is too long or too much to be read in the field."""
    if len(checklist.happenings) > MOST_HAPPENINGS:
        what = f"more than {MOST_HAPPENINGS} happenings: nobody finds the right one, join some"
        tables["happening", MOST_HAPPENINGS].fault(what, "id")
    cautions, count = sum(s.caution is not None for s in checklist.steps()), len(checklist.steps())
    if count >= FEWEST_STEPS and 2 * cautions > count:
        what = f"{cautions} of {count} steps carry a caution: one on every step is read on none"
        tables[()].fault(what)
    for step, table in steps(checklist, tables):
        _doubt_step(step, table)


def _doubt_step(step: Step, table: Table) -> None:
    if len(step.title) > LONGEST_TITLE:
        table.fault(f"title is longer than {LONGEST_TITLE} characters: make it an order", "title")
    if len(step.text) > LONGEST_TEXT:
        what = f"text is longer than {LONGEST_TEXT} characters: two short sentences are read"
        table.fault(what, "text")
    sentences = re.split(r"(?<=[.:?!])\s", step.caution.text) if step.caution else []
    if any(len(sentence) > LONGEST_SENTENCE for sentence in sentences):
        what = f"a sentence is longer than {LONGEST_SENTENCE} characters: cut it in two"
        table.below("caution").fault(what, "text")
    for number, entry in enumerate(step.entries):
        if len(entry.options) > MOST_ANSWERS:
            what = f"more than {MOST_ANSWERS} answers: a glove cannot touch each, ask in two"
            table.below("entry", number).fault(what, "options")
