"""Changes to a sound checklist of which we know on what line the reader must say something."""

import re
import tomllib
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import NamedTuple

from hypothesis import strategies as st

from fieldapp.checklist.model import Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.places import checklists

TESTS = Path(__file__).parent.parent
SMALL = (TESTS / "checklist" / "valid.toml", TESTS / "actions" / "small.toml",
         TESTS / "checklists" / "drum_fill" / "checklist.toml")  # fmt: skip
SHIPPED = tuple(sorted(checklists().glob("*/checklist.toml")))
PAIR = re.compile(r"([a-z_]+) = (.+)")
SCRAPS = ("[[phase]]", "[phase]", "[[phase.step.entry]]", "]", "}", '"""', "=", "\0", "\ufeff",
          "x = inf", "a.b.c = 1", "columns = [{}]", "inputs = 1e9999", 'kind = "alarm"',
          "when = { entry = [] }", 'unless = { entry = "a", is = {} }', "at = [0, []]")  # fmt: skip


class Case(NamedTuple):
    """A mutated file, and the lines on one of which a message must stand (none: anywhere)."""

    kind: str
    content: str | bytes
    lines: frozenset[int]


@cache
def lines_of(path: Path) -> tuple[str, ...]:
    """Return the lines of a sound file."""
    return tuple(path.read_text(encoding="utf-8").splitlines())


@cache
def pairs_of(path: Path) -> tuple[int, ...]:
    """Return the places of the lines that hold one key with its whole value."""
    found, in_text, in_list = [], False, False
    for place, line in enumerate(lines_of(path)):
        if not in_text and not in_list and PAIR.fullmatch(line) and _is_whole(line):
            found.append(place)
        elif line.count('"""') % 2:
            in_text = not in_text
        elif line.endswith("["):
            in_list = True
        elif line.strip() == "]":
            in_list = False
    return tuple(found)


def _is_whole(line: str) -> bool:
    try:
        return len(tomllib.loads(line)) == 1
    except tomllib.TOMLDecodeError:
        return False


def _changed(path: Path, place: int, *new: str) -> str:
    lines = lines_of(path)
    return "\n".join((*lines[:place], *new, *lines[place + 1 :]))


def _pair(path: Path, place: int) -> tuple[str, str]:
    match = PAIR.fullmatch(lines_of(path)[place])
    assert match
    return match[1], match[2]


def wrong_shape(path: Path, place: int, chance: int) -> Case:
    """Put a value of another shape where it stands: told on its own line."""
    key, value = _pair(path, place)
    other = ("true", "[]", "1979-05-27")[chance % 3] if value[0] == '"' else '"zz nobody"'
    return Case("wrong shape", _changed(path, place, f"{key} = {other}"), frozenset({place + 1}))


def unknown_key(path: Path, place: int, chance: int) -> Case:
    """Misspell a key: told on its own line."""
    key, value = _pair(path, place)
    at = chance % (len(key) + 1)
    return Case("unknown key", _changed(path, place, f"{key[:at]}zq{key[at:]} = {value}"),
                frozenset({place + 1}))  # fmt: skip


def twice(path: Path, place: int, chance: int) -> Case:
    """Write a line twice: told on the second."""
    line = lines_of(path)[place]
    return Case("twice", _changed(path, place, line, line), frozenset({place + 2}))


def left_open(path: Path, place: int, chance: int) -> Case:
    """Take the last sign of a text, list or table away: told there, or where the text goes on."""
    line = lines_of(path)[place]
    closed = line[-1] in '"]}'
    new = line[:-1] if closed else f"{line} {chance}"
    lines = {place + 1} if line[-1] != "]" else set(range(place + 1, place + 4))
    return Case("left open", _changed(path, place, new), frozenset(lines))


def unknown_name(path: Path, place: int, chance: int) -> Case:
    """Put a text that names nothing where one of a few words, or a name, belongs."""
    key, value = _pair(path, place)
    named = {"kind", "unit", "waive", "trip", "role", "formula", "step", "equals", "part", "when",
             "unless", "word", "rounding", "value", "lasts", "every"}  # fmt: skip
    if key not in named or value[0] != '"':
        return wrong_shape(path, place, 0)
    text = _changed(path, place, f'{key} = "zz_nobody"')
    return Case("unknown name", text, frozenset({place + 1}))


def scrap(path: Path, place: int, chance: int) -> Case:
    """Put something that may mean anything on a line: told somewhere, if at all."""
    return Case("scrap", _changed(path, place, SCRAPS[chance % len(SCRAPS)]), frozenset())


def torn(path: Path, place: int, chance: int) -> Case:
    """Change bytes anywhere: told somewhere, if at all."""
    content = "\n".join(lines_of(path)).encode()
    at = (place * 37 + chance) % len(content)
    new = bytes((chance % 256, place % 256))
    return Case("torn", content[:at] + new + content[at + 1 + chance % 40 :], frozenset())


def moved(path: Path, place: int, chance: int) -> Case:
    """Put a line somewhere else: told somewhere, if at all."""
    lines = list(lines_of(path))
    line = lines.pop(place)
    lines.insert(chance % len(lines), line)
    return Case("moved", "\n".join(lines), frozenset())


Mutation = Callable[[Path, int, int], Case]
MUTATIONS: tuple[Mutation, ...] = (
    wrong_shape, unknown_key, twice, left_open, unknown_name, scrap, torn, moved,
)  # fmt: skip


def cases(paths: tuple[Path, ...] = SMALL) -> st.SearchStrategy[Case]:
    """Return mutated files: any mutation at any line."""

    def at(path: Path) -> st.SearchStrategy[Case]:
        places = st.sampled_from(pairs_of(path))
        return st.builds(lambda mutation, place, chance: mutation(path, place, chance),
                         st.sampled_from(MUTATIONS), places, st.integers(0, 10_000))  # fmt: skip

    return st.sampled_from(paths).flatmap(at)


def told(case: Case) -> Checklist | tuple[Problem, ...]:
    """Read a mutated file, and hold what is said of it against what must be."""
    found = read_checklist(case.content)
    if isinstance(found, Checklist):
        assert not case.lines, f"{case.kind}: nothing is said of line {sorted(case.lines)}"
        return found
    text = case.content if isinstance(case.content, str) else case.content.decode("latin-1")
    last = text.count("\n") + 1
    assert found
    assert list(found) == sorted(found)
    assert all(1 <= problem.line <= last for problem in found)
    assert all(problem.where and problem.what for problem in found)
    assert not case.lines or {problem.line for problem in found} & case.lines, (
        f"{case.kind}: line {sorted(case.lines)} is not named: {[str(p) for p in found][:5]}"
    )
    return found
