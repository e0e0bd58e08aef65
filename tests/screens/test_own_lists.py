"""An owner's own lists, in the home of the tablet: offered when sound, named when not."""

from datetime import timedelta

import pytest

from fieldapp.places import checklists
from fieldapp.screens.app import checklists_here, desk_at
from fieldapp.screens.desk.desk_lists import own_lists
from tests.record.small_job import BEGAN
from tests.screens.signed_jobs import all_words

OWN = (checklists().parent / "tests" / "checklists" / "drum_fill" / "checklist.toml").read_text(
    encoding="utf-8"
)


@pytest.fixture
def home(tmp_path):
    return tmp_path / "home"


def put(home, name, text):
    folder = home / "checklists" / name
    folder.mkdir(parents=True)
    (folder / "checklist.toml").write_text(text, encoding="utf-8")


def opened(home):
    return desk_at(home, lambda: BEGAN + timedelta(days=1), checklists_here())


def test_sound_list_of_the_owner_is_offered_for_a_new_job(home):
    put(home, "drums", OWN)
    desk = opened(home)
    desk.touched("new")
    desk.touched("lists")
    rows = desk.view().rows
    assert [row.details for row in rows] == [("hookup",), ("vacuum_treatment",), ("drum_fill",)]
    desk.touched("list", "drum_fill")
    assert desk.state.checklist == OWN
    desk.close()


def test_list_of_a_shipped_id_replaces_the_shipped_one(home):
    shipped = checklists_here()["visit"]
    changed = shipped.replace("revision = 1\n", "revision = 7\n", 1)
    put(home, "our visit", changed)
    desk = opened(home)
    assert desk.state.checklists["visit"] == changed
    assert next(iter(desk.state.checklists)) == "hookup"
    desk.close()


def test_list_that_is_not_sound_is_named_with_its_line_and_not_offered(home):
    put(home, "drums", OWN.replace("revision = 1", 'revision = "one"', 1))
    desk = opened(home)
    desk.touched("new")
    assert any(plate.name == "lists" for plate in desk.view().rail)
    desk.touched("lists")
    words = all_words(desk.view())
    assert "checklists/drums" in words
    assert "line 4" in words
    assert "drum_fill" not in desk.state.checklists
    desk.close()


def test_bytes_that_are_no_text_are_named(home):
    folder = home / "checklists" / "broken"
    folder.mkdir(parents=True)
    (folder / "checklist.toml").write_bytes(b"\xff\xfe\x00")
    (home / "checklists" / "folder" / "checklist.toml").mkdir(parents=True)
    found = own_lists(home)
    assert set(found.faulty) == {"broken", "folder"}
    assert found.texts == {}


def test_home_without_lists_has_none(home):
    found = own_lists(home)
    assert (dict(found.texts), dict(found.faulty)) == ({}, {})
