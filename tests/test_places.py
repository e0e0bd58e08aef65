"""Checks of where the files that come with the program are found."""

import runpy
import shutil
from pathlib import Path

import pytest

from fieldapp import places

ROOT = Path(__file__).parent.parent


def installed_at(folder):
    """The functions as they are after an installation, with the folders inside the package."""
    package = folder / "fieldapp"
    shutil.copytree(ROOT / "assets", package / "assets")
    shutil.copytree(ROOT / "checklists", package / "checklists")
    shutil.copy(places.__file__, package)
    return runpy.run_path(str(package / "places.py"))


@pytest.mark.parametrize("name", ["assets", "checklists"])
def test_folder_of_a_checkout_is_the_one_at_its_top(name):
    assert getattr(places, name)() == ROOT / name


@pytest.mark.parametrize("name", ["assets", "checklists"])
def test_folder_of_an_installation_is_the_one_inside_the_package(name, tmp_path):
    assert installed_at(tmp_path)[name]() == tmp_path / "fieldapp" / name
