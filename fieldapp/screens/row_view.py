"""A row of a list: a mark with its word, two lines, and what stands at the right."""

from dataclasses import dataclass, field

from fieldapp.screens.frame_view import FrameView, PlateView


@dataclass(frozen=True, slots=True)
class PipeView:
    """The small pipe: how many lengths, how many full, how full the next, and deviations."""

    lengths: int
    done: int
    part: float
    deviations: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class RowView:
    """One row; `touch` and `details` are what it tells when touched ("" answers to nothing)."""

    touch: str
    details: tuple[str, ...]
    first: str
    second: str = ""
    mark: str = ""
    word: str = ""
    right: str = ""
    below: str = ""
    pipe: PipeView | None = None
    under_pipe: str = ""
    age: str = ""
    here: bool = False
    goes_on: bool = False
    """Its words go on from the row above, and stand below them."""


@dataclass(frozen=True, slots=True)
class ListView:
    """A list by pages: a rail of plates at the left, rows at the right, a frame around them.

    Without a frame the rail is as high as the sheet, as on the list of jobs.
    """

    title: str
    under: tuple[str, ...] = ()
    rail: tuple[PlateView, ...] = ()
    rows: tuple[RowView, ...] = ()
    start: int = 0
    empty: str = ""
    frame: FrameView | None = None
    caution: tuple[str, str] = ("", "")
    told: tuple[str, bool] = field(default=("", False))
