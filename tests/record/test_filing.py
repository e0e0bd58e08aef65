"""A record is put in its place whole, verified at once, and never written over."""

import pytest

from fieldapp.crew.enrolment import enrol_crew
from fieldapp.record.filing import (
    JobAsItStands,
    RecordIsThereError,
    file_signed,
    file_unsigned,
    record_place,
)
from fieldapp.record.signing import CannotSignError
from fieldapp.record.verification import verify
from tests.crew.offices import CHEAP, SECRET
from tests.record import small_job


@pytest.fixture(scope="module")
def crew(tmp_path_factory):
    return enrol_crew(
        tmp_path_factory.mktemp("crew"), office="Example office", secret=SECRET, cost=CHEAP,
        technician=small_job.TECHNICIAN, lead=small_job.LEAD, at=small_job.BEGAN,
    )  # fmt: skip


@pytest.fixture
def standing(tmp_path):
    done = small_job.signed_off()
    return JobAsItStands(done.job, small_job.HEAD, tmp_path, done.now)


def test_signed_record_lies_in_its_place_and_is_sound(tmp_path, crew, standing):
    path, findings = file_signed(tmp_path, standing, (crew.technician, crew.lead), crew.roster)
    assert path == tmp_path / "records" / f"{standing.job.number}.pdf"
    assert findings.findings == ()
    assert [one.name for one in findings.signers] == ["Maren Holtby", "Ruth Calderon"]
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_signed_record_is_never_replaced(tmp_path, crew, standing):
    path = record_place(tmp_path, standing.job)
    path.parent.mkdir()
    path.write_bytes(b"kept")
    with pytest.raises(RecordIsThereError, match="is there already, and a signed record is never"):
        file_signed(tmp_path, standing, (crew.technician, crew.lead), crew.roster)
    assert path.read_bytes() == b"kept"


@pytest.mark.parametrize("pair", [("lead", "technician"), ("technician", "technician")])
def test_wrong_people_leave_no_file(tmp_path, crew, standing, pair):
    signers = [getattr(crew, who) for who in pair]
    with pytest.raises(CannotSignError):
        file_signed(tmp_path, standing, signers, crew.roster)
    assert list(tmp_path.iterdir()) == []


def test_unsigned_record_says_that_it_is(tmp_path, standing):
    path = file_unsigned(tmp_path, standing, None)
    assert path.name == f"{standing.job.number}-unsigned.pdf"
    assert verify(path.read_bytes()).findings == (
        "Nobody has signed; the technician signs first, then the crew lead.",
    )
    assert file_unsigned(tmp_path, standing, None) == path


def test_revision_has_a_place_of_its_own(tmp_path):
    again = small_job.sent_back().job
    assert record_place(tmp_path, again).name == f"{again.number}-r2.pdf"
