"""Copies of a journal are told apart by their hashes alone."""

import pytest

from fieldapp.handover.relation import Relation, relation
from fieldapp.journal.lines.chain import walk
from tests.journal.test_chain import journal_of


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ("", "", Relation.SAME),
        ("abc", "abc", Relation.SAME),
        ("abc", "ab", Relation.LONGER),
        ("ab", "abc", Relation.SHORTER),
        ("", "a", Relation.SHORTER),
        ("a", "", Relation.LONGER),
        ("abc", "abd", Relation.FORK),
        ("abc", "abdd", Relation.FORK),
        ("xbc", "ab", Relation.FORK),
    ],
)
def test_one_copy_is_compared_with_the_other(one, other, expected):
    chains = [walk(journal_of(*letters)[1]) for letters in (one, other)]
    assert relation(*chains) is expected
