"""What is wrong in a file that a person wrote, and the limits that every such file keeps to."""

import difflib
import re
import tomllib
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

FILE = "the file"
LARGEST_FILE = 1_000_000
LONGEST_LINE = 5_000
MOST_LINES = 20_000
DEEPEST_NESTING = 12

_POSITION = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")
# What the TOML reader of Python says, and what we say instead.
_SAID = (
    ("Invalid value", "no value of TOML: text goes in quotes, yes and no are true and false"),
    ("Expected '=' after", "the sign “=” is missing after the key"),
    ("Cannot overwrite a value", "the key stands twice in this table: keep one of them"),
    ("Cannot declare", "the table in brackets stands twice, or its name is taken by a key"),
    ("Cannot mutate immutable", "a table in braces cannot be added to further down"),
    ("Cannot redefine", "the key is taken already: keep one of them"),
    ("Duplicate inline table key", "the key stands twice in this table: keep one of them"),
    ("Unterminated string", "a text is opened and never closed: add the closing quotes"),
    ("Illegal character '\\n'", "a text is not closed on its line: add the closing quote"),
    ("Unescaped '\\' in a string", "a backslash in double quotes: write it twice"),
    ("Expected newline or end", "something stands behind the value: begin a new line"),
    ("Unclosed array", "a list is not closed: add “]”, and a comma between its values"),
    ("Unclosed inline table", "a table in braces is not closed: add “}”, on the same line"),
    ("Expected ']]'", "the name of a table is not closed: add the bracket"),
    ("Expected ']'", "the name of a table is not closed: add the bracket"),
    ("Invalid initial character", "a key is missing here (a table in braces stays on one line)"),
    ("Invalid statement", "neither a key nor a table in brackets begins here"),
    ("Illegal character", "a control character: delete it"),
    ("Found invalid character", "a control character: delete it"),
    ("Invalid hex value", "a backslash with figures that stand for no sign: write the sign itself"),
    ("Escaped character", "a backslash with figures that stand for no sign: write the sign itself"),
    ("Invalid date or datetime", "a date that is not in the calendar"),
)

# What the line itself shows, whatever the reader of Python makes of it.
_SEEN = (
    (re.compile(r"[=\[,{] *[“”„‟‘’«»]"), "curly quotes: type the straight ones"),
    (re.compile(r"= *-?\d+,\d+ *(?:[,}#\r]|$)"), "a comma in a number: write a point, as in 17.5"),
    (
        re.compile(r"= *-?\d[\d.]* *(?!e[-+]?\d|\w+ *=)[a-zA-Z%]"),
        "a unit outside quotes: put number and unit in quotes, or leave the unit out",
    ),
    (
        re.compile(r"[\u00a0\u2000-\u200f\u202f\u2060\ufeff]"),
        "a blank or a sign that cannot be seen: type the line anew",
    ),
)
_QUOTED = re.compile(r"""\"[^\"]*\"|'[^']*'""")

_HIDDEN = ("Cc", "Cf", "Cs")
_NAMES: tuple[tuple[type | tuple[type, ...], str], ...] = (
    (str, "a text"),
    (bool, "true or false"),
    ((int, Decimal), "a number"),
    ((date, datetime), "a date"),
    (list, "a list"),
    (dict, "a table"),
)


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing that a person got wrong: the line, where that is, and what to do about it."""

    line: int
    where: str
    what: str

    def __str__(self) -> str:
        """Return the problem as people read it: `12: step "hold": label is missing`."""
        return f"{self.line}: {self.where}: {self.what}"


def nearest(name: str, known: Iterable[str], otherwise: str = "") -> str:
    """Return what to add to “unknown name”: the known name most like it, or `otherwise`.

    >>> nearest("lable", ["label", "kind"])
    ': did you mean “label”?'
    """
    small = {other.casefold(): other for other in known}
    found = difflib.get_close_matches(name[:100].casefold(), small, n=1)
    return f": did you mean “{small[found[0]]}”?" if found else otherwise


def described(value: object) -> str:
    """Return what a value of a file is, in words."""
    return next((name for shape, name in _NAMES if isinstance(value, shape)), "a time of day")


def unreadable(value: str, longest: int) -> str:
    """Return why people cannot read a text; "" if they can."""
    if not value.strip():
        return "is empty: write what people shall read"
    if len(value) > longest:
        return f"is longer than {longest} characters: shorten it"
    hidden = {sign for sign in value if unicodedata.category(sign) in _HIDDEN}
    return "holds a sign that cannot be seen: type the text anew" if hidden - {"\n", "\t"} else ""


def in_one_line(value: str) -> str:
    r"""Return a text of somebody else with a mark for each sign that is not to be seen.

    Else it could write a line of its own, or over ours.

    >>> in_one_line("Ada\nsound\x1b[2J")
    'Ada�sound�[2J'
    """
    return "".join(
        "\ufffd" if unicodedata.category(sign) in (*_HIDDEN, "Zl", "Zp") else sign for sign in value
    )


def decoded(content: bytes) -> str | Problem:
    """Return the text of a file's bytes, or why it is not a text."""
    if len(content) > LARGEST_FILE:
        return Problem(1, FILE, _TOO_LARGE)
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as cause:
        line = content.count(b"\n", 0, cause.start) + 1
        return Problem(line, FILE, "a byte that is not UTF-8: save the file as UTF-8 text")


def opened(text: str) -> dict[str, object] | Problem:
    """Return the values of TOML `text`, decimals kept exactly, or why it cannot be read."""
    return _oversized(text) or _parsed(text)


def without_mark(text: str) -> str:
    """Return `text` without the byte order mark that some editors put before it."""
    return text.removeprefix("\ufeff")


_TOO_LARGE = f"is larger than {LARGEST_FILE // 1_000_000} MB: this is no checklist or job sheet"


def _oversized(text: str) -> Problem | None:
    if len(text) > LARGEST_FILE:
        return Problem(1, FILE, _TOO_LARGE)
    if text.count("\n") > MOST_LINES:
        return Problem(1, FILE, f"is longer than {MOST_LINES} lines: split it")
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            what = f"is longer than {LONGEST_LINE} characters: break it into several lines"
            return Problem(number, "the line", what)
    return None


def _parsed(text: str) -> dict[str, object] | Problem:
    too_deep = Problem(1, FILE, f"is nested more than {DEEPEST_NESTING} levels deep: flatten it")
    try:
        values = tomllib.loads(without_mark(text), parse_float=Decimal)
    except tomllib.TOMLDecodeError as cause:
        return _syntax_problem(text, str(cause))
    except RecursionError:
        return too_deep
    except ValueError:  # Python reads whole numbers of up to 4300 digits
        return Problem(1, FILE, "holds a number of far too many digits: write the figure in full")
    return too_deep if _depth(values) > DEEPEST_NESTING else values


def _syntax_problem(text: str, message: str) -> Problem:
    found = _POSITION.search(message)
    line = int(found[1]) if found and found[1] else text.rstrip("\n").count("\n") + 1
    written = _QUOTED.sub("", text.split("\n")[line - 1])
    seen = next((ours for shape, ours in _SEEN if shape.search(written)), None)
    said = next((ours for theirs, ours in _SAID if message.startswith(theirs)), None)
    return Problem(line, FILE, seen or said or f"not written as TOML: {_POSITION.sub('', message)}")


def _depth(values: object) -> int:
    depth, level = 0, [values]
    while level and depth <= DEEPEST_NESTING:
        depth += 1
        level = [part for value in level for part in _parts(value)]
    return depth


def _parts(value: object) -> Iterable[object]:
    if isinstance(value, dict):
        return value.values()
    return value if isinstance(value, list) else ()
