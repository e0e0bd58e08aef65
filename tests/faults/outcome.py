"""What came of one kind of fault, in figures."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Outcome:
    """How often a fault was made, what was acknowledged, and what must always be nought."""

    fault: str
    times: int
    acknowledged: int
    lost: int = 0
    silent: int = 0
    wrong: tuple[str, ...] = ()

    @property
    def good(self) -> bool:
        """Whether nothing acknowledged was lost, and nothing was altered unseen."""
        return not (self.lost or self.silent or self.wrong)
