"""Finding the line of a key in TOML text, whatever way it is written."""

import tomllib

import pytest

from fieldapp.checklist.reading.locate import Lines

CASES = {
    "key": ("a = 1\nb = 2", ("b",), 2),
    "comment": ("# [x]\n\n  # b = 1\nb = 2", ("b",), 4),
    "table": ("[a]\nx = 1\n[b]\nx = 2", ("b", "x"), 4),
    "dotted table": ("[a.b]\nx = 1\n[a.c]\nx = 2", ("a", "c", "x"), 4),
    "parent of a dotted table": ("\n[a.b]\nx = 1", ("a",), 2),
    "spaces in brackets": ("[ a . b ]\nx = 1", ("a", "b", "x"), 2),
    "dotted key": ("a.b = 1\na.c = 2", ("a", "c"), 2),
    "quoted key": ("\"a.b\" = 1\n'c d' = 2", ("c d",), 2),
    "key with a sign by number": ('x = 1\n"\\u00e4" = 1', ("ä",), 2),
    "array of tables": ("[[a]]\nx = 1\n[[a]]\nx = 2", ("a", 1, "x"), 4),
    "array below an array": (
        "[[a]]\n[[a.b]]\n[[a.b]]\nx = 1\n[[a]]\n[[a.b]]\nx = 2",
        ("a", 0, "b", 1, "x"),
        4,
    ),
    "array below the second": (
        "[[a]]\n[[a.b]]\n[[a.b]]\nx = 1\n[[a]]\n[[a.b]]\nx = 2",
        ("a", 1, "b", 0, "x"),
        7,
    ),
    "table below an array": ("[[a]]\n[[a]]\n[a.c]\nx = 1", ("a", 1, "c", "x"), 4),
    "inline table": ("a = 1\nb = { c = 1, d = { e = 2 } }\nf = 3", ("b", "d", "e"), 2),
    "behind an inline table": ("b = { c = 1, d = { e = 2 } }\nf = 3", ("f",), 2),
    "list over lines": ("a = [\n  1,\n  2, # two\n  3,\n]\nb = 1", ("a", 2), 4),
    "behind a list over lines": ("a = [\n  1,\n  2, # two ]\n  3,\n]\nb = 1", ("b",), 6),
    "list of lists": ("a = [[1], [2,\n3]]", ("a", 1, 1), 2),
    "tables in a list": ('a = [\n { b = "]" },\n { b = "}" }\n]', ("a", 1, "b"), 3),
    "text over lines": ('a = """\nb = 1\n[c]\n"""\nd = 1', ("d",), 5),
    "text that ends in quotes": ('a = """x"""""\nd = 1', ("d",), 2),
    "raw text over lines": ("a = '''\nb = \\\n'''\nd = 1", ("d",), 4),
    "empty texts": ('a = ""\nb = \'\'\nc = """"""\nd = 1', ("d",), 4),
    "quote in a text": ('a = "x\\"y # = ["\nb = 1', ("b",), 2),
    "date and time": ("a = 2031-01-01 10:00:00\nb = 1", ("b",), 2),
    "key that is not there": ("[a]\n\n[b]\nx = 1", ("b", "y", "z"), 3),
    "nothing there": ("", ("a",), 1),
}


@pytest.mark.parametrize(("text", "path", "line"), CASES.values(), ids=CASES)
@pytest.mark.parametrize("ending", ["\n", "\r\n"], ids=["Unix", "Windows"])
def test_line_is_found(text, path, line, ending):
    text = text.replace("\n", ending)
    tomllib.loads(text)
    assert Lines(text).line_of(path) == line
