"""Every message that the checker can give stands in the guide for engineers, with its cure."""

import re

from fieldapp.places import checklists
from tests.checklist.messages import messages
from tests.checklist.test_conditions import FAULTS as CONDITIONS
from tests.checklist.test_doubts import FAULTS as DOUBTS
from tests.checklist.test_reader import ENTRIES, SHAPES
from tests.checklist.test_references import FORMULAS, GATES, NAMES, QUANTITIES

GUIDE = (checklists() / "README.md").read_text(encoding="utf-8")
CHAPTERS = ("## What the checker says", "## Warnings", "## On paper")


def told():
    """Return the rows of the chapters that list messages."""
    begin, _, end = (GUIDE.index(chapter) for chapter in (f"\n{c}" for c in CHAPTERS))
    return dict(re.findall(r"^\| `(.+?)` \| (.+?) \|$", GUIDE[begin:end], re.MULTILINE))


def test_every_message_of_the_code_stands_in_the_guide_with_a_cure():
    rows = told()
    missing = {said: file for said, file in messages().items() if said not in rows}
    assert not missing
    assert all(len(cure) > 5 for cure in rows.values())


def test_the_guide_lists_no_message_that_is_gone():
    assert set(told()) <= set(messages())


def test_every_message_that_a_test_plants_is_one_of_them():
    forms = [re.compile(".*".join(map(re.escape, said.split("…")))) for said in messages()]
    for fault in (*CONDITIONS, *DOUBTS, *SHAPES, *ENTRIES, *NAMES, *GATES, *QUANTITIES, *FORMULAS):
        assert any(form.search(fault.what) for form in forms), fault.what
