"""Work beside the window gives its outcome once, or says in a sentence why there is none."""

import threading

import pytest

from fieldapp.errors import FieldAppError
from fieldapp.screens.desk.desk import OWN_FAULT
from fieldapp.screens.desk.state.work import Workbench
from tests.screens.signed_jobs import Tablet


@pytest.fixture
def bench():
    made = Workbench()
    yield made
    made.close()


def fails(failure):
    def do():
        raise failure

    return do


def test_outcome_is_taken_in_once(bench):
    taken: list[object] = []
    bench.begin("adding", lambda: 1 + 1, taken.append)
    assert bench.words == "adding"
    assert bench.settle(wait=True) == ""
    assert (taken, bench.words, bench.settle(wait=True)) == ([2], "", None)


def test_nothing_is_taken_in_before_it_is_ready(bench):
    go = threading.Event()
    taken: list[object] = []
    bench.begin("waiting", go.wait, taken.append)
    assert bench.settle() is None
    assert taken == []
    go.set()
    assert bench.settle(wait=True) == ""
    assert taken == [True]


def test_one_thing_at_a_time(bench):
    taken: list[object] = []
    bench.begin("first", lambda: "first", taken.append)
    bench.begin("second", lambda: "second", taken.append)
    bench.settle(wait=True)
    assert taken == ["first"]


@pytest.mark.parametrize(
    ("failure", "words"),
    [
        (FieldAppError("the card is gone: put it in"), "the card is gone: put it in"),
        (OSError(28, "No space left on device", "a.pdf"), "no space left on device"),
    ],
    ids=["ours", "the disk's"],
)
def test_failure_of_the_world_is_a_sentence(bench, failure, words):
    bench.begin("failing", fails(failure), print)
    assert words in bench.settle(wait=True)
    assert bench.words == ""


def test_fault_of_the_program_is_told_by_the_shell_and_the_record_is_safe(driver, tmp_path):
    from fieldapp.screens.shell import Shell

    tablet = Tablet(tmp_path)
    shell = driver.show(Shell(tablet.desk))
    tablet.state.begin("failing", fails(ZeroDivisionError()), print)
    shell.show()
    driver.until(lambda: tablet.state.refused == OWN_FAULT)
    assert not tablet.desk.working
    tablet.close()
