"""What is shipped is sound: checklists, the demo's job sheet, the example for engineers."""

import re
from datetime import date
from pathlib import Path

import pytest

from fieldapp.actions.beginning import read_both
from fieldapp.checklist.model import Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.demo.player import checklist_text, sheet_text
from fieldapp.places import checklists

DEMO_DAY = date(2026, 6, 16)
FILES = sorted(checklists().glob("*/checklist.toml"))
README = (Path(__file__).parent.parent / "checklists" / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.parent.name)
def test_checklist_is_sound(path):
    found = read_checklist(path.read_text(encoding="utf-8"))
    assert isinstance(found, Checklist), "\n".join(map(str, found))


def test_demo_sheet_fits_the_hookup():
    found = read_both(checklist_text(), sheet_text(), DEMO_DAY)
    assert not isinstance(found[0], Problem), "\n".join(map(str, found))


def test_example_in_the_guide_for_engineers_is_sound():
    examples = [text for text in re.findall(r"```toml\n(.*?)```", README, re.DOTALL)
                if "format = 1" in text]  # fmt: skip
    assert examples
    for text in examples:
        found = read_checklist(text)
        assert isinstance(found, Checklist), "\n".join(map(str, found))


def test_hookup_has_every_step_of_the_procedure_in_ten_phases():
    hookup = read_checklist(checklist_text())
    assert isinstance(hookup, Checklist)
    assert [phase.id for phase in hookup.phases] == [
        "arrive", "ports", "set_up", "shut_dry", "connect", "evacuate", "fill", "shut_wet",
        "start", "hand_over",
    ]  # fmt: skip
    assert len(hookup.steps()) >= 86


def test_every_limit_of_the_hookup_says_where_it_comes_from():
    hookup = read_checklist(checklist_text())
    assert isinstance(hookup, Checklist)
    for step in hookup.steps():
        for entry in step.entries:
            if entry.measure and entry.measure.limits.high is not None:
                assert entry.basis, entry.id
    assert all(constant.source for constant in hookup.constants)
