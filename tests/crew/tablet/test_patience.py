"""Two slips cost nothing; then one waits, longer each time, whatever the clock does."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.crew.tablet.patience import Tries, after_wrong, next_try, seen, wait_after
from tests.crew.offices import AT


@pytest.mark.parametrize(
    ("wrong", "seconds"),
    # NIST SP 800-63B (2017), 5.2.2: waits "30 seconds up to an hour" (value from memory).
    [(0, 0), (1, 0), (2, 0), (3, 30), (4, 60), (5, 120), (9, 1920), (10, 3600), (10**6, 3600)],
)
def test_wait_doubles_from_half_a_minute_to_an_hour(wrong, seconds):
    assert wait_after(wrong) == timedelta(seconds=seconds)


@given(st.integers(0, 200))
def test_one_more_wrong_secret_never_shortens_the_wait(wrong):
    assert wait_after(wrong) <= wait_after(wrong + 1)


def test_a_hundred_guesses_take_days():
    # NIST SP 800-63B (2017), 5.2.2 allows no more than 100 failures in a row (value from memory).
    assert sum(map(wait_after, range(100)), timedelta(0)) > timedelta(days=3)


def test_next_try_is_counted_from_the_last_wrong_secret():
    tries = Tries()
    for minute in range(3):
        tries = after_wrong(tries, AT + timedelta(minutes=minute))
    assert tries == Tries(3, AT + timedelta(minutes=2))
    assert next_try(tries) == AT + timedelta(minutes=2, seconds=30)
    assert next_try(Tries(2, AT)) is None


@given(st.timedeltas(timedelta(days=-4000), timedelta(days=4000)), st.integers(0, 30))
def test_wait_is_neither_endless_nor_shorter_after_a_clock_was_set_back(jump, wrong):
    now = AT + jump
    counted = seen(Tries(wrong, AT), now)
    until = next_try(counted) or now
    assert until - now <= wait_after(wrong)
    if now < AT:
        assert until - now == wait_after(wrong)
