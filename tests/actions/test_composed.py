"""A text is kept in one form, whatever the keyboard or the file it came from makes of it."""

from unicodedata import is_normalized, normalize

import pytest

from fieldapp.actions.beginning import job_of
from fieldapp.actions.entering import cannot_measure, enter
from fieldapp.actions.sign_off import explain
from fieldapp.job.events import Entered, Explained
from fieldapp.journal.jobs import Jobs, KeptJob
from tests.actions.play import BEGIN, CHECKLIST, SHEET, TECHNICIAN, Play

NAME = "Adé Quill"  # an e with its accent in one sign
APART = normalize("NFD", NAME)
SHEET_APART = SHEET.replace(TECHNICIAN, APART)


def test_this_test_knows_both_forms():
    assert (APART != NAME, is_normalized("NFC", APART)) == (True, False)


def test_job_sheet_of_a_system_that_writes_accents_apart_begins_a_job(tmp_path):
    jobs = Jobs(tmp_path, lambda: BEGIN)
    kept = jobs.begin(CHECKLIST, SHEET_APART, NAME)
    assert isinstance(kept, KeptJob)
    assert kept.job.sheet.person(NAME) is not None
    jobs.close()
    again = Jobs(tmp_path, lambda: BEGIN)
    assert again.open(kept.job.number).job.state == kept.job.state
    again.close()


@pytest.mark.parametrize(
    ("action", "arguments"),
    [
        (enter, ("plate_serial", {"value": APART})),
        (cannot_measure, ("plate_serial", APART)),
        (explain, ("plate_serial", APART)),
    ],
)
def test_what_is_typed_is_kept_composed_and_replays_alike(action, arguments):
    play = Play()
    play.do(enter, "permit_ends", {"value": "18:00"})
    if action is explain:
        play.do(enter, "plate_serial", {"value": "wrong"})
    play.do(action, *arguments)
    said = [
        event.what.reason
        if isinstance(event.what, Explained)
        else next(iter(event.what.fields.values()))
        for event in play.job.state.log
        if isinstance(event.what, Entered | Explained)
    ]
    assert NAME in said
    assert APART not in said
    assert job_of(play.job.state.log).state == play.job.state
