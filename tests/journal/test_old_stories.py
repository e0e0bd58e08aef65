"""Jobs of several tablets, of every released format, are kept for ever and tell the same story."""

import json
import shutil
from pathlib import Path

import pytest

from fieldapp.job.events import Entered, GapStated, Settled, document_of, event_of
from fieldapp.journal.lines.reading import sound_inspection
from fieldapp.journal.tablets.union import kept_by, one_story

OLD = Path(__file__).with_name("old")


@pytest.fixture(params=sorted(folder.name for folder in OLD.glob("tablets-*")))
def folder(request, tmp_path):
    return shutil.copytree(OLD / request.param, tmp_path / request.param)


def story_in(folder):
    journals = [sound_inspection(path) for path in sorted(folder.glob("*.journal"))]
    return [event_of(document) for document in one_story(kept_by(journals))]


def test_there_is_a_job_of_the_first_format():
    assert (OLD / "tablets-1" / "expected.json").is_file()


def test_old_journals_still_tell_their_story_after_the_first_event(folder):
    expected = json.loads((folder / "expected.json").read_text(encoding="utf-8"))
    begun, *rest = story_in(folder)
    assert begun.sequence == 0
    assert [document_of(event) for event in rest] == expected


def test_settlement_and_gap_are_still_read(folder):
    story = story_in(folder)
    (settled,) = [event.what for event in story if isinstance(event.what, Settled)]
    (gap,) = [event for event in story if isinstance(event.what, GapStated)]
    given = [event.what for event in settled.events() if isinstance(event.what, Entered)]
    assert [what.fields["value"] for what in given] == ["18:00"]
    assert isinstance(gap.what, GapStated)
    assert gap.what.missing == 1
