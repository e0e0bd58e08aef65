"""Every fault in a small number, and a harness that would notice a loss."""

import pytest

from tests.faults.__main__ import FAULTS, table_of
from tests.faults.bytes_changed import _is_silent
from tests.faults.outcome import Outcome
from tests.journal.writer import document


@pytest.mark.parametrize(("fault", "few"), [(fault, few) for fault, few, _ in FAULTS])
def test_nothing_acknowledged_is_lost_and_nothing_altered_unseen(fault, few, tmp_path):
    outcome = fault(tmp_path, min(few, 100))
    assert outcome.good, outcome
    assert outcome.times > 0
    assert outcome.acknowledged > 0


@pytest.mark.parametrize("bad", [{"lost": 1}, {"silent": 1}, {"wrong": ("this",)}])
def test_outcome_with_a_loss_is_not_good(bad):
    assert not Outcome("x", 1, 1, **bad).good
    assert Outcome("x", 1, 1).good


def test_harness_notices_an_alteration_that_the_journal_does_not(tmp_path, open_store, path):
    events = open_store().table("events")
    events.insert(document(1))
    open_store().close()
    assert not _is_silent(path, [document(1)])
    assert _is_silent(path, [document(2)])


def test_table_has_a_line_a_fault():
    table = table_of([Outcome("one", 1, 2), Outcome("two", 3, 4)])
    assert table.row_count == 2
