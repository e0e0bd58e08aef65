"""How two copies of one device's journal stand to each other."""

from enum import StrEnum

from fieldapp.journal.lines.chain import Chain


class Relation(StrEnum):
    """What the first copy is to the second; a fork is never settled by a program."""

    SAME = "the same"
    LONGER = "longer"
    SHORTER = "shorter"
    FORK = "another story"


def relation(one: Chain, other: Chain) -> Relation:
    """Return what a journal is to another copy of it; a shared entry vouches for all before it."""
    common = min(len(one.ends), len(other.ends))
    if common and one.hash_of(common) != other.hash_of(common):
        return Relation.FORK
    if len(one.ends) == len(other.ends):
        return Relation.SAME
    return Relation.LONGER if len(one.ends) > len(other.ends) else Relation.SHORTER
