"""What is asked on the right of a screen: a number, an answer out of some, or words."""

from dataclasses import dataclass, field

from fieldapp.screens.frame_view import PlateView


@dataclass(frozen=True, slots=True)
class RulerView:
    """The limits as a ruler, in the entry's unit; texts are the figures beneath."""

    lower: float | None = None
    upper: float | None = None
    guard: float = 0.0
    reading: float | None = None
    uncertainty: float = 0.0
    lower_text: str = ""
    upper_text: str = ""
    lower_guard_text: str = ""
    upper_guard_text: str = ""


@dataclass(frozen=True, slots=True)
class VerdictView:
    """A mark, one sentence, and what then."""

    mark: str = ""
    sentence: str = ""
    second: str = ""


@dataclass(frozen=True, slots=True)
class KeypadBody:
    """A number: limits before typing, the verdict while typing, plates in the fifth column."""

    limit: str = ""
    shown: str = ""
    unit: str = ""
    typed: str = ""
    signed: bool = False
    whole: bool = False
    ruler: RulerView | None = None
    verdict: VerdictView = VerdictView()
    side: tuple[PlateView, ...] = ()


@dataclass(frozen=True, slots=True)
class AnswerBody:
    """Some answers as plates, in columns, and one plate that keeps what is held."""

    limit: str = ""
    plates: tuple[PlateView, ...] = ()
    columns: int = 1
    verdict: VerdictView = VerdictView()
    keep: tuple[PlateView, ...] = ()


@dataclass(frozen=True, slots=True)
class WordsBody:
    """A text typed with the tablet's keyboard, with a few texts to take instead."""

    limit: str = ""
    typed: str = ""
    hint: str = ""
    suggestions: tuple[str, ...] = ()
    verdict: VerdictView = VerdictView()
    keep: tuple[PlateView, ...] = ()


@dataclass(frozen=True, slots=True)
class PictureView:
    """A picture: where its file lies, when it was taken, its name and what else is known of it."""

    path: str
    first: str
    second: str = ""
    held: bool = False


@dataclass(frozen=True, slots=True)
class PicturesBody:
    """The newest pictures to choose from, with plates to page; or one picture, large."""

    limit: str = ""
    pictures: tuple[PictureView, ...] = ()
    pages: tuple[PlateView, ...] = ()
    large: PictureView | None = None
    words: tuple[str, ...] = ()
    verdict: VerdictView = VerdictView()
    keep: tuple[PlateView, ...] = ()


Body = KeypadBody | AnswerBody | WordsBody | PicturesBody


@dataclass(frozen=True, slots=True)
class InstrumentView:
    """The instrument in hand: names from full to short, how far it may be off, until when.

    With `others` in reach it is a plate that leads to them.
    """

    names: tuple[str, ...]
    accuracy: str
    calibration: str
    overdue: bool = False
    others: bool = False


@dataclass(frozen=True, slots=True)
class AttemptView:
    """What was given earlier: its mark and one line."""

    mark: str
    line: str


@dataclass(frozen=True, slots=True)
class AskingView:
    """The left of the screen: where one is, what is asked, why, with what; and earlier tries."""

    heading: str
    task: str
    text: str = ""
    signal_word: str = ""
    caution: str = ""
    instrument: InstrumentView | None = None
    earlier: tuple[AttemptView, ...] = field(default=())
    basis: str = ""
