"""The rules of the house that no tool checks by itself."""

import ast
import re
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "fieldapp"
MODULES = sorted(PACKAGE.rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))
OPENINGS = [module for module in MODULES + TESTS if module.name == "__init__.py"]

TOP_LEVEL = {
    "DEVELOPERS.md",
    "README.md",
    "assets",
    "checklists",
    "fieldapp",
    "pyproject.toml",
    "tests",
}
MADE_BY_TOOLS = re.compile(r"build|dist|__pycache__|.*\.egg-info")
VAGUE_NAMES = {"common", "data", "helper", "helpers", "info", "manager", "misc", "util", "utils"}
LEFT_FOR_LATER = re.compile(r"\b(T[O]DO|F[I]XME|X[X]X|H[A]CK)\b")
LONGEST_MODULE = 300


def name_of(path):
    return path.relative_to(ROOT).as_posix()


def outline(module):
    return ast.parse(module.read_text("utf-8"))


def names_at_the_top():
    """What is committed; without git or outside a checkout, what is there."""
    if shutil.which("git") and (ROOT / ".git").exists():
        listed = subprocess.run(
            ["git", "-c", f"safe.directory={ROOT}", "ls-files"],
            cwd=ROOT,
            check=True,
            capture_output=True,
            text=True,
        )
        return {line.partition("/")[0].strip('"') for line in listed.stdout.splitlines()}
    return {path.name for path in ROOT.iterdir() if not MADE_BY_TOOLS.fullmatch(path.name)}


def test_there_are_modules_to_check():
    assert PACKAGE / "errors.py" in MODULES


@pytest.mark.parametrize("module", MODULES, ids=name_of)
def test_module_is_short(module):
    assert len(module.read_text("utf-8").splitlines()) <= LONGEST_MODULE


@pytest.mark.parametrize("module", MODULES + TESTS, ids=name_of)
def test_module_opens_with_a_sentence(module):
    sentence = ast.get_docstring(outline(module))
    assert sentence
    assert sentence.split("\n\n")[0].endswith((".", ":"))


@pytest.mark.parametrize("opening", OPENINGS, ids=name_of)
def test_opening_of_a_package_holds_one_sentence_and_nothing_else(opening):
    body = outline(opening).body
    assert len(body) == 1
    assert ast.get_docstring(outline(opening))


@pytest.mark.parametrize("module", MODULES, ids=name_of)
def test_name_of_a_module_says_what_it_holds(module):
    parts = module.relative_to(ROOT).with_suffix("").parts
    assert not VAGUE_NAMES.intersection(word for part in parts for word in part.split("_"))


@pytest.mark.parametrize("module", MODULES + TESTS, ids=name_of)
def test_nothing_is_left_for_later(module):
    assert not LEFT_FOR_LATER.search(module.read_text("utf-8"))


def test_top_level_holds_nothing_new():
    assert {name for name in names_at_the_top() if not name.startswith(".")} <= TOP_LEVEL
