"""Records of real lists, as the tablet makes them, are sound and name each other rightly."""

from datetime import timedelta
from importlib.metadata import version

import pytest

from fieldapp.actions.sign_off import see, send_back, sign, to_see
from fieldapp.record.findings import Pages
from fieldapp.record.following import named_in, relations
from fieldapp.record.rendering import record_of
from fieldapp.record.signing import sign_as_technician
from fieldapp.record.verification import verify
from tests.record import lists, small_job
from tests.record import specimen as made
from tests.record.inspection.resigning import last_place

VERSION = version("fieldapp")
FOLLOWING = ("visit", "alarm_response", "cartridge_change", "rest_test", "disconnection")
LATER_HEAD = (120, "ce" * 32)


def pages_of(job, at, head):
    return record_of(job, at, head, VERSION)[1]


@pytest.mark.parametrize("name", [*FOLLOWING, *lists.ALONE])
def test_record_of_a_shipped_list_is_sound_and_shows_its_data(name, roster):
    played = lists.played(name)
    pages = pages_of(played.job, played.at, played.head)
    findings = verify(made.closed_by_crew(pages, played.job), roster)
    assert findings.findings == ()
    assert findings.pages is Pages.SHOW_THE_DATA


def test_visit_names_the_head_of_the_hookup_it_follows(roster):
    played = lists.played("visit")
    pages = pages_of(played.job, played.at, played.head)
    record = verify(made.closed_by_crew(pages, played.job), roster).record
    assert record
    visit = named_in("visit.pdf", record)
    assert (visit.follows, visit.follows_head) == (lists.HOOKUP, lists.HEAD_OF_HOOKUP)


def signed_again(crew):
    """Let both sign, the lead having seen what there is to see."""
    crew.does(sign, "technician", "c2" * 32, strokes=small_job.STROKES)
    for event in to_see(crew.job):
        crew.does(see, event.sequence, who=small_job.LEAD)
    crew.does(sign, "crew lead", "e2" * 32, who=small_job.LEAD, strokes=small_job.STROKES)


def test_second_revision_names_the_first(roster):
    crew = small_job.signed_off()
    first = verify(
        made.closed_by_crew(pages_of(crew.job, crew.now, small_job.HEAD), crew.job), roster
    )
    crew.does(send_back, "Weigh the cartridges again.", who=small_job.LEAD)
    signed_again(crew)
    second = verify(made.closed_by_crew(pages_of(crew.job, crew.now, LATER_HEAD), crew.job), roster)
    assert (first.findings, second.findings) == ((), ())
    assert first.record
    assert second.record
    names = [named_in("first.pdf", first.record), named_in("second.pdf", second.record)]
    (relation,) = relations(names)
    assert (relation.place, relation.right) == ("second.pdf", True)
    assert relation.words == "names what was signed as revision 1 rightly (first.pdf)"


def test_record_that_the_technician_alone_has_signed_shows_its_data_already(roster):
    crew = small_job.signed_off()
    technician = made.signer(small_job.TECHNICIAN, made.technician().person.role)
    at = crew.job.state.signature("technician").at
    pages = pages_of(crew.job, crew.now, small_job.HEAD)
    findings = verify(sign_as_technician(pages, technician, at), roster)
    assert findings.awaits_lead
    assert findings.pages is Pages.SHOW_THE_DATA


def test_parts_of_a_second_are_no_contradiction(roster):
    crew = small_job.signed_by_technician()
    crew.now += timedelta(microseconds=400_123)
    for event in to_see(crew.job):
        crew.does(see, event.sequence, who=small_job.LEAD)
    crew.does(sign, "crew lead", "ef" * 32, who=small_job.LEAD, strokes=small_job.STROKES)
    assert crew.now.microsecond
    pages = pages_of(crew.job, crew.now, small_job.HEAD)
    assert verify(made.closed_by_crew(pages, crew.job), roster).findings == ()


def test_proof_of_a_real_record_fits_its_place(roster):
    crew = small_job.signed_off()
    pdf = made.closed_by_crew(pages_of(crew.job, crew.now, small_job.HEAD), crew.job)
    begins, ends = last_place(pdf)
    assert pdf[begins:ends].endswith(b"000>")
