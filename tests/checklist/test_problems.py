"""Files that are no TOML, or are made to hurt: one problem, on its line, never a traceback."""

import pytest

from fieldapp.checklist.problems import LARGEST_FILE, Problem, nearest
from fieldapp.checklist.reader import read_checklist
from fieldapp.checklist.reading.document import MOST_PROBLEMS
from tests.checklist.planting import VALID, problems_in

SYNTAX = {
    "word without quotes": (
        "a = 1\nb = yes",
        2,
        "no value of TOML: text goes in quotes, yes and no are true and false",
    ),
    "curly quotes": ("a = 1\nb = “x”", 2, "curly quotes: type the straight ones"),
    "curly quotes in a list": ("b = [ „x“ ]", 1, "curly quotes: type the straight ones"),
    "comma": ("a = 1\nb = 17,5", 2, "a comma in a number: write a point, as in 17.5"),
    "comma in braces": (
        "a = { min = 1, max = 17,5 }",
        1,
        "a comma in a number: write a point, as in 17.5",
    ),
    "unit": (
        "a = 1\nb = 24 h",
        2,
        "a unit outside quotes: put number and unit in quotes, or leave the unit out",
    ),
    "unit in braces": (
        "a = { max = 17.5 kPa g }",
        1,
        "a unit outside quotes: put number and unit in quotes, or leave the unit out",
    ),
    "blank of a page": (
        "a = 1\nb\u00a0= 1",
        2,
        "a blank or a sign that cannot be seen: type the line anew",
    ),
    "blank of a page in quotes": (
        'a = "x\u00a0y" 2',
        1,
        "something stands behind the value: begin a new line",
    ),
    "tenfold": (
        "a = { b = 1e3 c }",
        1,
        "a table in braces is not closed: add “}”, on the same line",
    ),
    "no equals sign": ("a = 1\nb 2\n", 2, "the sign “=” is missing after the key"),
    "key twice": ("a = 1\n\na = 2\n", 3, "the key stands twice in this table: keep one of them"),
    "table twice": (
        "[a]\nx = 1\n[a]\n",
        3,
        "the table in brackets stands twice, or its name is taken by a key",
    ),
    "open quotes": ('a = "x\nb = 1', 1, "a text is not closed on its line: add the closing quote"),
    "open text": (
        'a = """x\nb = 1\n',
        2,
        "a text is opened and never closed: add the closing quotes",
    ),
    "open list": (
        "a = [1,\n 2\nb = 3",
        3,
        "a list is not closed: add “]”, and a comma between its values",
    ),
    "inline table over lines": (
        "a = { b = 1,\n c = 2 }",
        1,
        "a key is missing here (a table in braces stays on one line)",
    ),
    "two values": ("a = 1 2", 1, "something stands behind the value: begin a new line"),
    "open bracket": ("x = 1\n[a\n", 2, "the name of a table is not closed: add the bracket"),
    "open brackets": ("[[a]\n", 1, "the name of a table is not closed: add the bracket"),
    "backslash": ('a = "C:\\x"', 1, "a backslash in double quotes: write it twice"),
    "sign that is none": (
        'a = "\\ud800"',
        1,
        "a backslash with figures that stand for no sign: write the sign itself",
    ),
    "day that is none": ("a = 1\nb = 2031-02-30", 2, "a date that is not in the calendar"),
    "control character": ("a = 1\nb = '\x01'", 2, "a control character: delete it"),
    "NUL in a comment": ("a = 1\n# \0\n", 2, "a control character: delete it"),
    "stray sign": ("a = 1\n= 3", 2, "neither a key nor a table in brackets begins here"),
    "added to braces": (
        "a = { b = 1 }\na.c = 2\n",
        2,
        "a table in braces cannot be added to further down",
    ),
    "braces with a key twice": (
        "a = { b = 1, b = 2 }",
        1,
        "the key stands twice in this table: keep one of them",
    ),
    "open braces": (
        "a = { b = 1 c = 2 }",
        1,
        "a table in braces is not closed: add “}”, on the same line",
    ),
}


@pytest.mark.parametrize(("text", "line", "what"), SYNTAX.values(), ids=SYNTAX)
def test_text_that_is_no_toml(text, line, what):
    assert read_checklist(text) == (Problem(line, "the file", what),)


DEEP = "is nested more than 12 levels deep: flatten it"
LONG = "is longer than 5000 characters: break it into several lines"
HOSTILE = {
    "too large": (
        b"#\n" * LARGEST_FILE,
        1,
        "the file",
        "is larger than 1 MB: this is no checklist or job sheet",
    ),
    "lists in lists": (b"a = " + b"[" * 4000 + b"]" * 4000, 1, "the line", LONG),
    "lists in lists over lines": (b"a = " + b"[\n" * 4000 + b"]\n" * 4000, 1, "the file", DEEP),
    "lists 20 deep": (b"a = " + b"[" * 20 + b"]" * 20, 1, "the file", DEEP),
    "braces in braces": (b"a = " + b"{a=" * 900 + b"1" + b"}" * 900, 1, "the file", DEEP),
    "keys 400 deep": (b"a" + b".a" * 400 + b" = 1", 1, "the file", DEEP),
    "number of 4500 digits": (
        b"a = " + b"9" * 4500,
        1,
        "the file",
        "holds a number of far too many digits: write the figure in full",
    ),
    "lines without end": (b"\n" * 20_001, 1, "the file", "is longer than 20000 lines: split it"),
    "line of 6000": (b"x = 1\n# " + b"x" * 6000, 2, "the line", LONG),
    "not UTF-8": (
        b"a = 1\nb = '\xff'",
        2,
        "the file",
        "a byte that is not UTF-8: save the file as UTF-8 text",
    ),
    "UTF-16": (
        "a = 1".encode("utf-16"),
        1,
        "the file",
        "a byte that is not UTF-8: save the file as UTF-8 text",
    ),
    "a picture": (
        b"\x89PNG\r\n\x1a\n\0\0",
        1,
        "the file",
        "a byte that is not UTF-8: save the file as UTF-8 text",
    ),
}


@pytest.mark.parametrize(("content", "line", "where", "what"), HOSTILE.values(), ids=HOSTILE)
def test_file_made_to_hurt(content, line, where, what):
    assert read_checklist(content) == (Problem(line, where, what),)


def test_more_problems_than_anybody_reads():
    told = problems_in("".join(f"key{number} = 1\n" for number in range(400)))
    assert len(told) == MOST_PROBLEMS + 1
    assert told[-1].what == "holds more than these 300 problems: mend them and look again"
    assert told[-1].line == told[-2].line


def test_list_that_never_ends():
    told = problems_in("[[phase]]\n" * 501)
    assert Problem(1, "the checklist", "phase holds more than 500 members: split it") in told


def test_empty_file_lacks_every_key():
    told = problems_in("")
    assert {problem.line for problem in told} == {1}
    assert [problem.what.split()[0] for problem in told] == [
        "format",
        "id",
        "phase",
        "revision",
        "title",
    ]


@pytest.mark.parametrize(
    ("name", "said"),
    [("lable", ": did you mean “label”?"), ("LABEL", ": did you mean “label”?"), ("zzz", "")],
)
def test_nearest_name(name, said):
    assert nearest(name, ["label", "kind"]) == said


def test_problem_that_quotes_hidden_signs_stays_one_line():
    text = VALID.replace('kind = "number"', 'kind = "x\\n9: all sound\\u001b[2J"', 1)
    (told,) = [str(each) for each in problems_in(text) if "kind" in each.what]
    assert "kind “x\ufffd9: all sound\ufffd[2J” is not known" in told
    assert told.isprintable()
