"""The command line: the window by default, and one plain line for whatever goes wrong."""

import os
import subprocess
import sys

import pytest


def test_no_command_opens_the_window_on_the_home(fieldapp, tmp_path):
    assert fieldapp()[0] == 0
    assert fieldapp("--home", tmp_path / "other")[0] == 0
    assert fieldapp.opened == [tmp_path / "home", tmp_path / "other"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["evacuate"], "No such command 'evacuate'"),
        (["check"], "Missing argument"),
        (["demo"], "Missing option '--out'"),
        (["record", "X", "--json", "--sign"], "--json prints the data alone"),
        (["record", "X", "--paper", "a3"], "'a3' is not one of 'a4', 'letter'"),
        (["record", "X", "--out", "x.pdf"], "job X: not found in"),
        (["record", "../X", "--out", "x.pdf"], "job ../X: not found in"),
        (["--nonsense"], "No such option"),
    ],
)
def test_wrong_arguments_give_one_line(fieldapp, arguments, words):
    code, output, complaint = fieldapp(*arguments)
    assert code == 2
    assert output == ""
    assert words in complaint
    assert complaint.count("\n") == 1


def test_program_starts_as_a_module_and_says_its_version():
    done = subprocess.run(
        [sys.executable, "-m", "fieldapp", "--version"],
        capture_output=True, text=True, check=True, env={**os.environ, "LANG": "C.UTF-8"},
    )  # fmt: skip
    assert done.stdout.startswith("fieldapp, version ")


def test_command_line_starts_without_the_slow_libraries():
    code = (
        "import sys, fieldapp.__main__; "
        "print([m for m in ('kivy', 'reportlab', 'pyhanko', 'numpy') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
