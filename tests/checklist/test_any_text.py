"""Whatever a file holds, reading it gives a checklist or problems on lines of that file."""

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.checklist.model import Checklist
from fieldapp.checklist.reader import read_checklist
from tests.checklist.planting import VALID

LINES = VALID.splitlines()
SCRAPS = (
    "[[phase]]",
    "[phase]",
    "[[phase.step]]",
    "[[phase.step.entry]]",
    "[[computed]]",
    "[x.y]",
    'id = "hold"',
    "id = 3",
    'kind = "hold"',
    'kind = "choice"',
    'kind = "alarm"',
    "columns = [{}]",
    "limits = { min = 1, max = [] }",
    "limits = []",
    'inputs = { a = "b" }',
    "inputs = 1e9999",
    "sets = { bond = true }",
    'needs = [1, "a"]',
    "at = []",
    "checks = [[]]",
    "options = [{}, {}]",
    'every = "1e5 s"',
    "phase = 1",
    "step = []",
    "entry = {}",
    "format = 7",
    "ahead = { min = 3 }",
    '"""',
    "}",
    "=",
    "a.b.c = 1",
    "x = inf",
    "x = 1979-05-27",
    "\0",
    "\ufeff",
    "decimals = -1",
)
PLACES = st.integers(0, len(LINES) - 1)
CHANGES = st.lists(
    st.tuples(
        st.sampled_from(["delete", "double", "swap", "put", "cut"]),
        PLACES,
        PLACES,
        st.sampled_from(SCRAPS),
    ),
    min_size=1,
    max_size=8,
)


def changed(changes):
    lines = list(LINES)
    for change, first, second, scrap in changes:
        place, other = first % len(lines), second % len(lines)
        match change:
            case "delete":
                lines[place : place + 1] = lines[place : place + 1] if len(lines) == 1 else []
            case "double":
                lines.insert(place, lines[other])
            case "swap":
                lines[place], lines[other] = lines[other], lines[place]
            case "put":
                lines[place] = scrap
            case "cut":
                lines[place] = lines[place][: len(lines[place]) // 2]
    return "\n".join(lines)


def check(content):
    told = read_checklist(content)
    if isinstance(told, Checklist):
        return
    text = content if isinstance(content, str) else content.decode("latin-1")
    assert told
    assert list(told) == sorted(told)
    assert all(1 <= problem.line <= text.count("\n") + 1 for problem in told)
    assert all(problem.where and problem.what for problem in told)


@settings(max_examples=300)
@given(CHANGES)
def test_changed_lines(changes):
    check(changed(changes))


@settings(max_examples=300)
@given(st.integers(0, len(VALID.encode())), st.binary(max_size=8), st.integers(0, 40))
def test_changed_bytes(place, new, gone):
    content = VALID.encode()
    check(content[:place] + new + content[place + gone :])


@settings(max_examples=300)
@given(st.text() | st.binary())
def test_any_text(content):
    check(content)


def test_every_line_left_out():
    for place in range(len(LINES)):
        check("\n".join(LINES[:place] + LINES[place + 1 :]))


def test_values_of_the_wrong_shape():
    shapes = ["1", '"x"', "true", "[]", "{}", "[1]", '["x"]', "[{}]", "1e99", "-1", "2031-01-01"]
    chance = random.Random(7)
    for place, line in enumerate(LINES):
        key, sign, _ = line.partition(" = ")
        if sign:
            put = [*LINES[:place], f"{key} = {chance.choice(shapes)}", *LINES[place + 1 :]]
            check("\n".join(put))
