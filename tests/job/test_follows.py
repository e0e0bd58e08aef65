"""A job that follows a hookup says so; journals from before still say what they said."""

from datetime import datetime

from fieldapp.actions.beginning import Following, begin, job_of, next_number
from fieldapp.actions.rules import Act
from fieldapp.job.events import Begun, Event, document_of, event_of
from tests.actions.play import BEGIN, CHECKLIST, SHEET, TECHNICIAN

OLD = {
    "sequence": 0, "at": "2026-09-14T08:32:00+00:00", "by": TECHNICIAN,
    "what": {"number": "KM-2031.04", "checklist": "c", "sheet": "s", "kind": "Begun"},
}  # fmt: skip


def events_in(found):
    return tuple(event for event in found if isinstance(event, Event))


def test_journal_from_before_follows_nothing():
    began = event_of(OLD)
    assert began.at == datetime.fromisoformat(str(OLD["at"]))
    assert began.what == Begun("KM-2031.04", "c", "s", follows="", head="")


def test_what_a_job_follows_is_kept_and_read_again():
    began = Event(0, BEGIN, TECHNICIAN, Begun("A.visit-1", "c", "s", "A", "ab" * 32))
    assert event_of(document_of(began)) == began


def test_number_counts_the_lists_of_one_kind():
    taken = ["HK-0417", "HK-0417.visit-1", "HK-0417.visit-2", "HK-0417.cartridge-change-1"]
    assert next_number("HK-0417", "visit", taken) == "HK-0417.visit-3"
    assert next_number("HK-0417", "cartridge_change", taken) == "HK-0417.cartridge-change-2"
    assert next_number("HK-0417", "rest_test", taken) == "HK-0417.rest-test-1"


def test_job_that_follows_has_a_number_of_its_own_and_the_same_sheet():
    found = begin(CHECKLIST, SHEET, Act(TECHNICIAN, BEGIN), Following("KM-2031.04", "ab" * 32))
    job = job_of(events_in(found))
    assert job.number == f"KM-2031.04.{job.checklist.id}-1"
    assert (job.follows, job.begun.head) == ("KM-2031.04", "ab" * 32)
    assert job.sheet.number == "KM-2031.04"


def test_job_that_follows_nothing_has_the_number_of_its_sheet():
    job = job_of(events_in(begin(CHECKLIST, SHEET, Act(TECHNICIAN, BEGIN))))
    assert (job.number, job.follows) == ("KM-2031.04", "")
