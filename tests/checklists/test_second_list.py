"""A small checklist written by following the README alone works without touching any code."""

import io
import json
from pathlib import Path

import pypdf
import pytest

from fieldapp.actions.entering import enter, report
from fieldapp.checklist.doubts.finding import doubts_in
from fieldapp.checklist.model import Checklist, Kind, Waive
from fieldapp.checklist.reader import read_checklist
from fieldapp.judgement.evaluation import StepState, evaluate
from fieldapp.judgement.verdict import Place
from fieldapp.record.blank_pdf import blank_pdf
from fieldapp.record.rendering import record_of
from tests.checklists import playing
from tests.checklists.playing import Playing

TEXT = (Path(__file__).parent / "drum_fill" / "checklist.toml").read_text(encoding="utf-8")
GIVEN = {
    "bond_resistance": "0.12",
    "filled_rate": [["12.0"], ["12.4"], ["12.2"]],
    "sampled_water": "6.0",
    "sampled_at": "08:10",
}


@pytest.fixture
def drum(monkeypatch):
    """Return how to begin a job of the list, with what a crew enters."""
    monkeypatch.setattr(playing, "checklist_text", lambda _: TEXT)
    monkeypatch.setitem(playing.VALUES, "drum_fill", GIVEN)
    return lambda **options: Playing("drum_fill", **options)


def test_is_sound_and_nothing_in_it_is_doubtful():
    assert isinstance(read_checklist(TEXT), Checklist)
    assert doubts_in(TEXT) == ()


def test_uses_most_of_what_the_format_offers():
    found = read_checklist(TEXT)
    assert isinstance(found, Checklist)
    kinds = {entry.kind for step in found.steps() for entry in step.entries}
    assert kinds == set(Kind) - {Kind.ALARM}  # a drum has no shutdown


@pytest.mark.parametrize(("owner", "changed", "asked"), [
    ("", {}, set()),
    ("nitrogen_wanted = true", {}, {"topped"}),
    ("", {"drum_state": "drops of water"}, {"dried"}),
    ("nitrogen_wanted = true", {"drum_state": "drops of water"}, {"topped", "dried"}),
])  # fmt: skip
def test_is_played_from_begin_to_sign_off(drum, owner, changed, asked):
    done = drum(owner=owner, changed=changed).through()
    found = evaluate(done.job, done.now)
    assert not found.open_steps
    assert not found.deviations
    assert {done.job.state.signature(role) is None for role in ("technician", "crew lead")} == {
        False
    }
    for step in ("topped", "dried"):
        wanted = StepState.DONE if step in asked else StepState.NOT_NEEDED
        assert found.steps[step].state is wanted


def test_what_is_outside_holds_its_gate(drum):
    wet = drum().through("rest")
    wet.do(enter, "sampled_water", {"value": "14"})
    verdict = wet.verdict("sampled", "sampled_water")
    assert (verdict.place, verdict.waive) == (Place.OUTSIDE, Waive.OWNER)


def test_an_opened_drum_is_filled_and_sampled_again(drum):
    opened = drum().through("sampled")
    opened.do(report, "drum_opened")
    for step in ("filled", "rest", "sampled"):
        assert opened.standing(step).state is StepState.STALE


def test_becomes_a_record(drum):
    done = drum(changed={"drum_state": "drops of water"}).through()
    record_json, pdf = record_of(done.job, done.now, (len(done.job.state.log), "ab" * 32), "test")
    assert json.loads(record_json)
    words = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages)
    for said in ("Fill a drum for topping up", "Dry the drum with warm dry air", "6.0"):
        assert said in " ".join(words.split())


def test_becomes_a_blank():
    found = read_checklist(TEXT)
    assert isinstance(found, Checklist)
    pages = pypdf.PdfReader(io.BytesIO(blank_pdf(found, TEXT.encode()))).pages
    words = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert "only if “Inside, by lamp” is “drops of water”" in words
