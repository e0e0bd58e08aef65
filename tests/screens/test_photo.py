"""A photo: chosen from the tablet's pictures, looked at, kept with the job, corrected, refused."""

import hashlib
import os
from datetime import timedelta
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from fieldapp.screens import theme
from fieldapp.screens.body_view import PicturesBody
from fieldapp.screens.desk.state.desk_state import NIGHT
from fieldapp.screens.entry.tablet_pictures import MOST, newest_pictures
from tests.actions.play import BEGIN, HERE
from tests.screens.findings import false_grounds, findings
from tests.screens.sitting import Sitting

EVERY_KIND = (HERE / "every_kind.toml").read_text(encoding="utf-8")


def take(folder, name, minutes=0, colour="teal", size=(600, 450)):
    """Put a picture on the tablet, as if taken so many minutes before the job began."""
    folder.mkdir(parents=True, exist_ok=True)
    out = BytesIO()
    Image.new("RGB", size, colour).save(out, "PNG" if name.endswith("png") else "JPEG")
    (folder / name).write_bytes(out.getvalue())
    at = (BEGIN - timedelta(minutes=minutes)).timestamp()
    os.utime(folder / name, (at, at))
    return folder / name


@pytest.fixture
def sitting(tmp_path):
    for place in range(8):
        take(tmp_path / "pictures", f"p{place}.jpg", 10 * place)
    made = Sitting(tmp_path, checklist=EVERY_KIND)
    made.begin()
    made.touch("go", "s_photo")
    yield made
    made.desk.close()


def body(sitting):
    shown = sitting.view().body
    assert isinstance(shown, PicturesBody)
    return shown


def names(sitting):
    return [Path(one.path).name for one in body(sitting).pictures]


def given(sitting):
    return [one.fields for one in sitting.job.state.given.get("e_photo", ())]


def test_newest_pictures_stand_first_and_older_ones_on_further_pages(sitting):
    assert names(sitting) == ["p0.jpg", "p1.jpg", "p2.jpg", "p3.jpg", "p4.jpg"]
    (older,) = body(sitting).pages
    sitting.touch("page", *older.details)
    assert names(sitting) == ["p5.jpg", "p6.jpg", "p7.jpg"]
    (newer,) = body(sitting).pages
    sitting.touch("page", *newer.details)
    assert names(sitting)[0] == "p0.jpg"


def test_picture_is_looked_at_before_it_is_kept_with_the_job(sitting, tmp_path):
    chosen = body(sitting).pictures[1].path
    sitting.touch("picture", chosen)
    assert body(sitting).large.path == chosen
    assert given(sitting) == []
    sitting.touch("keep")
    sha256 = hashlib.sha256(Path(chosen).read_bytes()).hexdigest()
    assert given(sitting) == [{"photo": "p1.jpg", "sha256": sha256}]
    kept = sitting.state.jobs.folder(sitting.job.number) / "pictures" / f"{sha256}.jpg"
    assert kept.read_bytes() == Path(chosen).read_bytes()
    sitting.touch("entry", "e_photo")
    assert body(sitting).large.path == str(kept)
    assert f"{sha256[:4]} {sha256[4:8]}" in body(sitting).words


def test_another_picture_corrects_and_both_stay(sitting):
    for place, last in ((0, "keep"), (2, "correct")):
        if given(sitting):
            sitting.touch("entry", "e_photo")
            sitting.touch("another")
        sitting.touch("picture", body(sitting).pictures[place].path)
        sitting.touch(last)
    sitting.touch("kept", "wrong picture")
    assert [fields["photo"] for fields in given(sitting)] == ["p0.jpg", "p2.jpg"]
    assert sitting.job.state.latest("e_photo").reason == "wrong picture"
    pictures = sitting.state.jobs.folder(sitting.job.number) / "pictures"
    assert {path.stem for path in pictures.iterdir()} == {f["sha256"] for f in given(sitting)}


def test_file_that_is_no_picture_is_refused_in_one_line(sitting, tmp_path):
    chosen = body(sitting).pictures[0].path
    Path(chosen).write_bytes(b"no picture")
    sitting.touch("picture", chosen)
    view = sitting.touch("keep")
    assert view.frame.refused == (
        "p0.jpg: NOT SAVED, it is no JPEG or PNG picture: take another."
    )  # fmt: skip
    assert given(sitting) == []
    assert sitting.place.screen == "entry"


def test_picture_that_vanished_from_the_tablet_is_said_of_the_kept_one(sitting):
    sitting.touch("picture", body(sitting).pictures[0].path)
    sitting.touch("keep")
    folder = sitting.state.jobs.folder(sitting.job.number) / "pictures"
    for path in folder.iterdir():
        path.unlink()
    sitting.touch("entry", "e_photo")
    assert body(sitting).large is None
    assert body(sitting).verdict.sentence == "The picture is not on this tablet."


def test_without_pictures_it_says_so_and_offers_the_way_out(tmp_path):
    sitting = Sitting(tmp_path, checklist=EVERY_KIND).begin()
    sitting.touch("go", "s_photo")
    assert body(sitting).limit.startswith("No picture lies on this tablet.")
    sitting.touch("missing")
    sitting.touch("kept", "no camera on site")
    assert given(sitting) == [{"missing": "no camera on site"}]
    sitting.touch("entry", "e_photo")
    assert body(sitting).verdict.sentence == "Not taken: no camera on site."
    sitting.desk.close()


def test_pictures_are_found_one_folder_down_and_hidden_ones_are_not(tmp_path):
    take(tmp_path / "DCIM" / "Camera", "a.JPG", 5)
    take(tmp_path / "DCIM", "b.png", 3)
    take(tmp_path / "DCIM" / ".thumbs", "c.jpg")
    take(tmp_path / "DCIM", ".d.jpg")
    (tmp_path / "DCIM" / "film.mp4").write_bytes(b"")
    found = newest_pictures((tmp_path / "DCIM", tmp_path / "nowhere"), BEGIN)
    assert [one.path.name for one in found] == ["b.png", "a.JPG"]
    assert found[0].at == BEGIN - timedelta(minutes=3)


def test_only_the_newest_of_very_many_are_offered(tmp_path):
    for place in range(MOST + 5):
        take(tmp_path, f"{place:03}.jpg", place, size=(8, 8))
    found = newest_pictures((tmp_path,), BEGIN)
    assert len(found) == MOST
    assert found[0].path.name == "000.jpg"


@pytest.mark.parametrize("look", ["sun", "night"])
def test_gloves_can_choose_a_picture(driver, sitting, look, tmp_path):
    from fieldapp.screens.shell import Shell

    take(tmp_path / "pictures", "IMG_20310504_075912345_HDR.jpg")
    (tmp_path / "pictures" / "p3.jpg").write_bytes(b"cannot be shown")
    sitting.state.look = look
    theme.switch_look(theme.NIGHT if look == NIGHT else theme.SUN)
    shell = driver.show(Shell(sitting.desk))
    for tid in ("page", "picture 0", "another", "picture 1", "keep", "entry e_photo"):
        assert findings(shell) == []
        assert list(false_grounds(shell, driver.picture())) == []
        driver.tap(tid)
        driver.frames(3)
    assert findings(shell) == []
    assert sitting.job.state.latest("e_photo").fields["photo"].startswith("IMG_2031")
