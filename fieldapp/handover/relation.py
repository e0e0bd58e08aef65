"""How two copies of one device's journal stand to each other."""

from enum import StrEnum

from fieldapp.journal.chain import Chain


class Relation(StrEnum):
    """What the first copy is to the second; a fork is never settled by a program."""

    SAME = "the same"
    LONGER = "longer"
    SHORTER = "shorter"
    FORK = "another story"


def relation(one: Chain, other: Chain) -> Relation:
    """Return what a journal is to another copy of it; a shared entry vouches for all before it."""
    common = min(len(one.hashes), len(other.hashes))
    if common and one.hashes[common - 1] != other.hashes[common - 1]:
        return Relation.FORK
    if len(one.hashes) == len(other.hashes):
        return Relation.SAME
    return Relation.LONGER if len(one.hashes) > len(other.hashes) else Relation.SHORTER
