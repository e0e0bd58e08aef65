"""On which line of a TOML text a key stands; the reader of Python tells values only."""

import re
import tomllib
from bisect import bisect_right

Path = tuple[str | int, ...]

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_KEY = re.compile(r"""[A-Za-z0-9_-]+|"(?:\\.|[^"\\\n])*"|'[^'\n]*'""")
_DOT = re.compile(r"[ \t]*\.[ \t]*")
_EQUALS = re.compile(r"[ \t]*=[ \t]*")
_STRING = re.compile(
    r"""\"{3}(?:\\.|[^\\])*?\"{3,5}|'{3}.*?'{3,5}|"(?:\\.|[^"\\\n])*"|'[^'\n]*'""", re.DOTALL
)
_PLAIN = re.compile(r"[^,\]}\n#]+")


class Lines:
    r"""The lines of all keys, tables and list members of a TOML text that can be read.

    >>> Lines("a = 1\n[[b]]\nc = [\n 7,\n 8]").line_of(("b", 0, "c", 1))
    5
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._position = 0
        self._starts = [match.end() for match in re.finditer("\n", text)]
        self._lines: dict[Path, int] = {}
        self._lengths: dict[Path, int] = {}
        self._read_document()

    def line_of(self, path: Path) -> int:
        """Return the line of `path`, or of the innermost table around it that is in the text."""
        while path and path not in self._lines:
            path = path[:-1]
        return self._lines.get(path, 1)

    def _read_document(self) -> None:
        table: Path = ()
        while self._skip(_BLANK) and self._position < len(self._text):
            if self._text.startswith("[", self._position):
                table = self._read_header()
            else:
                self._read_pair(table)

    def _read_header(self) -> Path:
        repeated = self._text.startswith("[[", self._position)
        line = self._line()
        self._position += 2 if repeated else 1
        keys = self._read_keys()
        path: Path = ()
        for key in keys[:-1]:
            path = self._latest((*path, key))
            self._lines.setdefault(path, line)
        path = (*path, keys[-1])
        self._lines.setdefault(path, line)
        if repeated:
            self._lengths[path] = self._lengths.get(path, 0) + 1
            path = self._latest(path)
            self._lines[path] = line
        self._position += 2 if repeated else 1
        return path

    def _latest(self, path: Path) -> Path:
        return (*path, self._lengths[path] - 1) if path in self._lengths else path

    def _read_keys(self) -> list[str]:
        self._skip(_BLANK)
        keys = [self._read_key()]
        while _DOT.match(self._text, self._position):
            self._skip(_DOT)
            keys.append(self._read_key())
        self._skip(_BLANK)
        return keys

    def _read_key(self) -> str:
        start = self._position
        self._skip(_KEY)
        key = self._text[start : self._position]
        return next(iter(tomllib.loads(f"{key} = 0"))) if key[0] in "\"'" else key

    def _read_pair(self, table: Path) -> None:
        line = self._line()
        path = table
        for key in self._read_keys():
            path = (*path, key)
            self._lines.setdefault(path, line)
        self._skip(_EQUALS)
        self._read_value(path)

    def _read_value(self, path: Path) -> None:
        opening = self._text[self._position]
        if opening == "[":
            self._read_list(path)
        elif opening == "{":
            self._read_braces(path)
        else:
            self._skip(_STRING if opening in "\"'" else _PLAIN)

    def _read_list(self, path: Path) -> None:
        index = 0
        while self._next_member("]"):
            self._lines[(*path, index)] = self._line()
            self._read_value((*path, index))
            index += 1

    def _read_braces(self, path: Path) -> None:
        while self._next_member("}"):
            self._read_pair(path)

    def _next_member(self, closing: str) -> bool:
        """Step over the opening sign or a comma; say whether a member follows."""
        self._skip(_BLANK)
        if self._text[self._position] in "[{,":
            self._position += 1
        self._skip(_BLANK)
        if self._text[self._position] != closing:
            return True
        self._position += 1
        return False

    def _skip(self, pattern: re.Pattern[str]) -> bool:
        found = pattern.match(self._text, self._position)
        if found is None:
            raise ValueError(f"cannot find the way through line {self._line()}")
        self._position = found.end()
        return True

    def _line(self) -> int:
        return bisect_right(self._starts, self._position) + 1
