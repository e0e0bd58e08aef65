"""Entries that a disk lost are stated by a person before work goes on, and never unseen."""

from datetime import timedelta

import pytest

from fieldapp.actions.entering import enter
from fieldapp.actions.rules import Act
from fieldapp.job.events import GapStated
from fieldapp.journal.errors import (
    JournalBusyError,
    JournalDamagedError,
    JournalOfOtherDeviceError,
)
from fieldapp.journal.jobs import Jobs, KeptJob
from fieldapp.journal.lines.anchor import anchor_path, heads_at, newest
from fieldapp.journal.lines.reading import inspect
from fieldapp.journal.tablets import gap as going_on
from fieldapp.journal.tablets.gap import GapUnnamedError, NoGapError, gap_in, state_gap
from tests.actions.play import BEGIN, CHECKLIST, SHEET, TECHNICIAN

NUMBER = "KM-2031.04"
REASON = "the battery fell out"


def now():
    return BEGIN + timedelta(hours=1)


@pytest.fixture
def jobs(tmp_path):
    found = Jobs(tmp_path, now)
    yield found
    found.close()


@pytest.fixture
def path(jobs):
    """The journal of a job with three permits kept, closed."""
    kept = jobs.begin(CHECKLIST, SHEET, TECHNICIAN)
    assert isinstance(kept, KeptJob), kept
    for minute, ends in enumerate(("18:00", "19:00", "20:00"), 1):
        act = Act(TECHNICIAN, BEGIN + timedelta(minutes=minute))
        assert kept.keep(enter(kept.job, "permit_ends", {"value": ends}, act)) is None
    jobs.close()
    return next(jobs.folder(NUMBER).glob("*.journal"))


def lose(path, entries, rest=b""):
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join(lines[:-entries]) + rest)


def state(jobs, path, who=TECHNICIAN, reason=REASON):
    return state_gap(path, device=jobs.device, who=who, reason=reason, clock=now)


@pytest.mark.parametrize("rest", [b"", b'["torn', bytes(40)], ids=["cut", "torn", "zeros"])
@pytest.mark.parametrize("entries", [1, 2, 3])
def test_work_goes_on_after_a_statement_and_the_gap_is_an_event(jobs, path, entries, rest):
    lost = newest(heads_at(anchor_path(path)))
    assert lost is not None
    lose(path, entries, rest)
    with pytest.raises(JournalDamagedError):
        jobs.open(NUMBER)
    stated = state(jobs, path)
    assert (stated.after, stated.missing, stated.lost_head) == (4 - entries, entries, lost.hash)
    *_, last = jobs.open(NUMBER).job.state.log
    assert last.what == GapStated(entries, lost.hash, REASON)
    assert (last.by, last.at, last.sequence) == (TECHNICIAN, now(), 4 - entries)
    assert inspect(path).words == ""


def test_what_was_found_is_kept_aside(jobs, path):
    lose(path, 1, b'["torn')
    journal, head = path.read_bytes(), anchor_path(path).read_bytes()
    state(jobs, path)
    assert path.with_name(f"{path.name}.gap-1").read_bytes() == journal
    assert path.with_name(f"{path.name}.head.gap-1").read_bytes() == head
    assert jobs.numbers() == (NUMBER,)


@pytest.mark.parametrize("entries", [1, 2, 3])
def test_statement_cut_short_by_a_power_cut_is_made_once_more(jobs, path, monkeypatch, entries):
    lose(path, entries)
    gap = gap_in(path)

    def cut(_):
        raise KeyboardInterrupt

    monkeypatch.setattr(going_on, "both_places", cut)
    with pytest.raises(KeyboardInterrupt):
        state(jobs, path)
    monkeypatch.undo()
    with pytest.raises(JournalDamagedError):
        jobs.open(NUMBER)
    assert gap_in(path) == gap
    before = path.read_bytes()
    assert state(jobs, path, reason="the card was pulled out") == gap
    *earlier, last = jobs.open(NUMBER).job.state.log
    assert last.what == GapStated(entries, gap.lost_head, "the card was pulled out")
    assert not any(isinstance(event.what, GapStated) for event in earlier)
    assert before in {each.read_bytes() for each in path.parent.glob("*.gap-*")}


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda path: None, "nothing is missing; open the job"),
        (lambda path: path.write_bytes(path.read_bytes().replace(b"18:00", b"17:00")),
         "entries in it were changed"),
        (lambda path: anchor_path(path).unlink(), "does not say what is missing"),
        (lambda path: path.write_bytes(b""), "no entry is left"),
    ],
    ids=["sound", "changed", "no head", "empty"],
)  # fmt: skip
def test_what_is_no_gap_cannot_be_stated(jobs, path, change, words):
    change(path)
    before = {file: file.read_bytes() for file in path.parent.iterdir()}
    with pytest.raises(NoGapError, match=words):
        state(jobs, path)
    with pytest.raises(NoGapError, match=words):
        gap_in(path)
    assert {file: file.read_bytes() for file in path.parent.iterdir()} == before


@pytest.mark.parametrize(("who", "reason"), [("", REASON), (TECHNICIAN, " ")])
def test_gap_is_stated_by_somebody_for_a_reason(jobs, path, who, reason):
    lose(path, 1)
    with pytest.raises(GapUnnamedError, match="say who"):
        state(jobs, path, who, reason)


def test_gap_of_another_tablet_is_not_stated_here(jobs, path):
    lose(path, 1)
    with pytest.raises(JournalOfOtherDeviceError):
        state_gap(path, device="tablet-other", who="A", reason="b", clock=now)


def test_gap_in_a_job_that_is_open_is_not_stated(jobs, path):
    jobs.open(NUMBER)
    with pytest.raises(JournalBusyError):
        state(jobs, path)
