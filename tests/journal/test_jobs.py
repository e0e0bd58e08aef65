"""Jobs on the tablet: begun, kept, opened again, and told apart."""

from datetime import timedelta

import pytest

from fieldapp.actions.entering import enter, make_safe
from fieldapp.actions.rules import Act, Refusal
from fieldapp.checklist.problems import Problem
from fieldapp.handover.receiving import receive
from fieldapp.handover.sending import hand_over
from fieldapp.journal.errors import JournalBusyError, JournalDamagedError
from fieldapp.journal.jobs import DeviceUnnamedError, Jobs, KeptJob, NoSuchJobError, NotBegunError
from tests.actions.hookup import signed
from tests.actions.play import BEGIN, CHECKLIST, SHEET, TECHNICIAN

NUMBER = "KM-2031.04"


@pytest.fixture
def jobs(tmp_path):
    found = Jobs(tmp_path, lambda: BEGIN)
    yield found
    found.close()


def begun(jobs):
    kept = jobs.begin(CHECKLIST, SHEET, TECHNICIAN)
    assert isinstance(kept, KeptJob), kept
    return kept


def permit(kept, ends="18:00"):
    act = Act(TECHNICIAN, BEGIN + timedelta(minutes=1))
    return enter(kept.job, "permit_ends", {"value": ends}, act)


def test_what_was_kept_is_there_when_the_tablet_starts_again(jobs, tmp_path):
    kept = begun(jobs)
    assert kept.keep(permit(kept)) is None
    state, head = kept.job.state, kept.head
    jobs.close()
    again = Jobs(tmp_path, lambda: BEGIN)
    opened = again.open(NUMBER)
    assert (opened.job.state, opened.head) == (state, head)
    assert opened.job.checklist == kept.job.checklist
    again.close()


def test_refusal_keeps_nothing(jobs):
    kept = begun(jobs)
    head = kept.head
    assert isinstance(kept.keep(permit(kept, "noon or so")), Refusal)
    assert kept.head == head


def test_job_keeps_to_the_checklist_it_began_with(jobs, tmp_path):
    begun(jobs)
    jobs.close()
    again = Jobs(tmp_path, lambda: BEGIN + timedelta(days=900))
    assert again.open(NUMBER).job.checklist.title == "A small job"
    again.close()


def test_job_is_not_begun_twice(jobs):
    begun(jobs)
    (problem,) = jobs.begin(CHECKLIST, SHEET, TECHNICIAN)
    assert isinstance(problem, Problem)
    assert "is on this tablet already" in problem.what


def test_faults_of_both_texts_are_told_at_once_and_nothing_is_begun(jobs):
    problems = jobs.begin(CHECKLIST.replace('kind = "hold"', 'kind = "halt"'),
                          SHEET.replace('"1500 m"', '"1500"'), TECHNICIAN)  # fmt: skip
    words = "\n".join(map(str, problems))
    assert "“halt” is not known" in words
    assert "“1500” has no unit" in words
    assert jobs.numbers() == ()


def test_instrument_that_the_sheet_lacks_is_told_before_the_job_begins(jobs):
    (problem, *_) = jobs.begin(CHECKLIST, SHEET.replace('"vacuum_gauge"', '"gauge"'), TECHNICIAN)
    assert "vacuum_gauge" in str(problem)


@pytest.mark.parametrize("number", ["no-such", "../etc", "a/b", ""])
def test_job_that_is_not_here_is_said_so(jobs, number):
    with pytest.raises(NoSuchJobError, match="not found in"):
        jobs.open(number)


def test_tablet_stopped_before_the_first_entry_leaves_a_job_that_can_be_begun_again(jobs, tmp_path):
    begun(jobs)
    jobs.close()
    journal = next(tmp_path.glob("jobs/*/*.journal"))
    for path in journal.parent.iterdir():
        path.unlink()
    again = Jobs(tmp_path, lambda: BEGIN)
    again._database(NUMBER)  # noqa: SLF001 - what a stop in the middle of beginning leaves
    with pytest.raises(NotBegunError, match="begin it again"):
        again.open(NUMBER)
    assert isinstance(again.begin(CHECKLIST, SHEET, TECHNICIAN), KeptJob)
    again.close()


def test_second_program_is_told_that_the_job_is_open(jobs, tmp_path):
    begun(jobs)
    other = Jobs(tmp_path, lambda: BEGIN)
    with pytest.raises(JournalBusyError):
        other.open(NUMBER)
    other.close()


def test_changed_journal_is_refused(jobs, tmp_path):
    kept = begun(jobs)
    kept.keep(permit(kept))
    jobs.close()
    journal = next(tmp_path.glob("jobs/*/*.journal"))
    journal.write_bytes(journal.read_bytes().replace(b"18:00", b"19:00"))
    again = Jobs(tmp_path, lambda: BEGIN)
    with pytest.raises(JournalDamagedError):
        again.open(NUMBER)
    again.close()


def test_device_keeps_its_name(tmp_path):
    first = Jobs(tmp_path, lambda: BEGIN).device
    assert first.startswith("tablet-")
    assert Jobs(tmp_path, lambda: BEGIN).device == first


@pytest.mark.parametrize("content", [b"", b"\n", b"a/b\n", "Täblet".encode(), b"nul"])
def test_device_that_lost_its_name_adds_to_no_journal(tmp_path, content):
    (tmp_path / "device").write_bytes(content)
    with pytest.raises(DeviceUnnamedError, match="Write it there again"):
        begun(Jobs(tmp_path, lambda: BEGIN))
    assert not (tmp_path / "jobs").exists()


def test_number_that_differs_in_capitals_alone_is_taken(jobs):
    begun(jobs)
    problem = (Problem(1, "number", f"job {NUMBER} is on this tablet already: open it, or change "
                       "the number"),)  # fmt: skip
    assert jobs.begin(CHECKLIST, SHEET.replace(NUMBER, NUMBER.lower()), TECHNICIAN) == problem
    assert jobs.numbers() == (NUMBER,)


def test_job_that_follows_another_lies_in_a_folder_of_its_own(jobs):
    first = begun(jobs)
    visits = [jobs.begin(CHECKLIST, SHEET, TECHNICIAN, follows=NUMBER) for _ in range(2)]
    own = [f"{NUMBER}.{first.job.checklist.id}-{number}" for number in (1, 2)]
    assert [kept.job.number for kept in visits] == own
    assert {kept.job.begun.head for kept in visits} == {first.head.hash}
    assert jobs.numbers() == (NUMBER, *own)
    assert all(jobs.folder(number).is_dir() for number in own)


def test_list_that_follows_names_the_head_that_was_signed_whatever_is_stamped_later(jobs):
    kept = begun(jobs)
    kept.keep(signed().job.state.log[1:])
    closing = kept.job.state.signature("crew lead")
    act = Act(TECHNICIAN, closing.at + timedelta(hours=1))
    assert kept.keep(make_safe(kept.job, "leaving", act)) is None
    visit = jobs.begin(CHECKLIST, SHEET, TECHNICIAN, follows=NUMBER)
    assert visit.job.begun.head == closing.what.head != kept.head.hash


def test_longest_number_leaves_room_for_the_list_that_follows(jobs, tmp_path):
    longest = "K" * 40
    sheet = SHEET.replace(f'"{NUMBER}"', f'"{longest}"')
    assert isinstance(jobs.begin(CHECKLIST, sheet, TECHNICIAN), KeptJob)
    checklist = CHECKLIST.replace('id = "small"', f'id = "{"k" * 60}"')
    assert checklist != CHECKLIST
    following = jobs.begin(checklist, sheet, TECHNICIAN, follows=longest)
    assert isinstance(following, KeptJob), following
    number = following.job.number
    jobs.close()
    again = Jobs(tmp_path, lambda: BEGIN)
    assert again.open(number).job.follows == longest
    again.close()
    found = receive(hand_over(tmp_path, number, BEGIN), tmp_path / "other", "other", None)
    assert found.job == number
