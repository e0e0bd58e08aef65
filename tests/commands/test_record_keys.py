"""Whoever cannot sign is told so before any secret is asked."""

from datetime import timedelta

import pytest

from fieldapp.actions.entering import make_safe
from fieldapp.actions.rules import Act
from fieldapp.crew.keys import key_path
from fieldapp.crew.office import books
from fieldapp.crew.roster import FOLDER, read_roster
from fieldapp.crew.tablet.taking_in import take_in
from fieldapp.journal.jobs import Jobs
from tests.crew.offices import SECRET
from tests.record.small_job import BEGAN
from tests.screens.signed_jobs import LEAD, TECHNICIAN


def test_record_is_signed_with_two_secrets_and_is_sound(fieldapp, number, asked):
    code, output, _ = fieldapp("record", number, "--sign")
    assert (code, len(asked)) == (0, 2)
    assert fieldapp("verify", output.strip())[0] == 0


def test_record_made_again_after_a_later_stamp_is_the_same_one(fieldapp, number, asked):
    signed = fieldapp("record", number, "--sign")[1].strip()
    data = fieldapp("record", number, "--json")[1]
    jobs = Jobs(fieldapp.home, lambda: BEGAN)
    kept = jobs.open(number)
    act = Act(TECHNICIAN, kept.job.state.log[-1].at + timedelta(hours=1))
    assert kept.keep(make_safe(kept.job, "leaving", act)) is None
    jobs.close()
    assert fieldapp("record", number, "--json")[1] == data
    again = fieldapp.home / "again.pdf"
    assert fieldapp("record", number, "--sign", "--out", again)[0] == 0
    code, output, _ = fieldapp("verify", signed, again)
    assert (code, "journals end differently" in output) == (0, False)


def lost(home):
    office = books.opened(home, SECRET, BEGAN)
    gone = books.withdrawing(office, TECHNICIAN, BEGAN + timedelta(days=1), key_lost=True)
    take_in(home, gone.roster, BEGAN)


def without_a_key(home):
    key_path(home / "keys", read_roster(home / FOLDER).named(LEAD)).unlink()


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lost, f"{TECHNICIAN} cannot sign: the certificate of {TECHNICIAN} was withdrawn on"),
        (without_a_key, f"{LEAD} cannot sign: the key of {LEAD} is not on this tablet"),
    ],
    ids=["withdrawn", "no key"],
)
def test_refusal_is_one_line_and_no_secret_is_asked(fieldapp, number, asked, change, words):
    change(fieldapp.home)
    code, output, complaint = fieldapp("record", number, "--sign")
    assert (code, output, asked) == (2, "", [])
    assert words in complaint
    assert complaint.count("\n") == 1
    assert not (fieldapp.home / "records").exists()
