"""Work that takes longer than a touch may: it goes on beside the window, which says so."""

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

from fieldapp.errors import FieldAppError, said_at_tablet


@dataclass(frozen=True, slots=True)
class Work:
    """What goes on, in words; what it gives, and what is done with that."""

    words: str
    outcome: Future[Any]
    then: Callable[[Any], None]


class Workbench:
    """Does one piece of work at a time beside the window."""

    def __init__(self) -> None:
        self._hand: ThreadPoolExecutor | None = None
        self.work: Work | None = None

    @property
    def words(self) -> str:
        """Return what goes on; "" when nothing does."""
        return self.work.words if self.work else ""

    def begin(self, words: str, do: Callable[[], Any], then: Callable[[Any], None]) -> None:
        """Begin a piece of work; while one goes on no other begins."""
        if self.work is not None:
            return
        self._hand = self._hand or ThreadPoolExecutor(max_workers=1)
        self.work = Work(words, self._hand.submit(do), then)

    def settle(self, *, wait: bool = False) -> str | None:
        """Take in what is ready; return why it was not possible ("" if it was), None if not yet."""
        work = self.work
        if work is None or not (wait or work.outcome.done()):
            return None
        self.work = None
        try:
            found = work.outcome.result()
        except (FieldAppError, OSError) as failure:
            return said_at_tablet(failure)
        work.then(found)
        return ""

    def close(self) -> None:
        """Wait for what goes on; nothing is taken in any more."""
        if self._hand is not None:
            self._hand.shutdown(wait=True)
