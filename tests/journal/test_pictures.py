"""Tests of the pictures of a job: kept whole or refused in one line, found, checked, scaled."""

import errno
import hashlib
from datetime import UTC, datetime
from io import BytesIO

import pytest
from PIL import Image

from fieldapp.job.events import Closed, Entered, Event
from fieldapp.journal import pictures
from fieldapp.journal.pictures import PictureRefusedError, check, keep, named_in, path_of, scaled


def picture(kind="JPEG", size=(120, 80), mode="RGB", colour="teal", **more):
    out = BytesIO()
    Image.new(mode, size, colour).save(out, kind, **more)
    return out.getvalue()


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "jobs" / "HK-1"


@pytest.fixture
def camera(tmp_path):
    (tmp_path / "DCIM").mkdir()
    return tmp_path / "DCIM"


@pytest.mark.parametrize(("kind", "ending"), [("JPEG", "jpg"), ("PNG", "png")])
def test_picture_is_kept_byte_for_byte_under_its_hash(folder, camera, kind, ending):
    content = picture(kind)
    (camera / "bond.jpg").write_bytes(content)
    kept = keep(folder, camera / "bond.jpg")
    digest = hashlib.sha256(content).hexdigest()
    assert (kept.name, kept.sha256) == ("bond.jpg", digest)
    assert kept.path == folder / "pictures" / f"{digest}.{ending}"
    assert kept.path.read_bytes() == content
    assert [*kept.path.parent.iterdir()] == [kept.path]
    assert path_of(folder, digest) == kept.path


def test_same_picture_twice_lies_there_once(folder, camera):
    for name in ("a.jpg", "b.jpg"):
        (camera / name).write_bytes(picture())
    first, second = keep(folder, camera / "a.jpg"), keep(folder, camera / "b.jpg")
    assert first.path == second.path
    assert len([*first.path.parent.iterdir()]) == 1


def test_damaged_picture_is_made_whole_when_it_is_taken_again(folder, camera):
    (camera / "a.jpg").write_bytes(picture())
    kept = keep(folder, camera / "a.jpg")
    kept.path.write_bytes(b"damaged")
    assert keep(folder, camera / "a.jpg").path.read_bytes() == picture()


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "no JPEG or PNG picture"),
        (b"a note, not a picture", "no JPEG or PNG picture"),
        (picture("GIF", mode="P", colour=3), "no JPEG or PNG picture"),
        (picture("JPEG", (400, 300))[:-700], "damaged"),
        (picture("PNG", (400, 300))[:-60], "damaged"),
    ],
    ids=["empty", "text", "other kind", "torn JPEG", "torn PNG"],
)
def test_what_is_no_whole_picture_is_refused_in_one_line(folder, camera, content, words):
    (camera / "bond.jpg").write_bytes(content)
    with pytest.raises(PictureRefusedError, match=words) as refused:
        keep(folder, camera / "bond.jpg")
    assert str(refused.value).startswith("bond.jpg: NOT SAVED, ")
    assert "\n" not in str(refused.value)
    assert not (folder / "pictures").exists()


def test_file_that_is_too_large_is_refused_with_the_limit(folder, camera, monkeypatch):
    monkeypatch.setattr(pictures, "MOST_BYTES", 2**20)
    (camera / "film.jpg").write_bytes(picture() + bytes(2**20))
    with pytest.raises(PictureRefusedError, match="larger than 1 MB: take it with fewer points"):
        keep(folder, camera / "film.jpg")


@pytest.mark.parametrize("size", [(9_000, 9_000), (12_000, 8_000), (30_000, 30_000)], ids=str)
def test_picture_of_too_many_points_is_refused_before_it_is_unpacked(folder, camera, size):
    out = BytesIO()
    Image.new("1", size).save(out, "PNG")
    (camera / "wide.png").write_bytes(out.getvalue())
    with pytest.raises(PictureRefusedError, match="more than 80 million points"):
        keep(folder, camera / "wide.png")


def test_missing_file_and_folder_in_its_place_are_refused(folder, camera):
    with pytest.raises(PictureRefusedError, match="cannot be read"):
        keep(folder, camera / "gone.jpg")
    with pytest.raises(PictureRefusedError, match="cannot be read"):
        keep(folder, camera)


@pytest.mark.parametrize(
    ("number", "words"),
    [(errno.ENOSPC, "no space left: remove files"), (errno.EIO, "does not take it")],
    ids=["disk full", "failing disk"],
)
def test_disk_that_does_not_take_it_is_told_and_nothing_half_is_left(
    folder, camera, monkeypatch, number, words
):
    def fails(_):
        raise OSError(number, "said by the system")

    (camera / "bond.jpg").write_bytes(picture())
    monkeypatch.setattr("fieldapp.whole.os.fsync", fails)
    with pytest.raises(PictureRefusedError, match=words):
        keep(folder, camera / "bond.jpg")
    assert [*(folder / "pictures").iterdir()] == []


def event(sequence, what):
    return Event(sequence, datetime(2026, 6, 16, 8, tzinfo=UTC), "M. Sample", what)


def test_pictures_that_events_name_are_checked(folder, camera):
    for name, colour in (("a.jpg", "red"), ("b.jpg", "blue"), ("c.jpg", "green")):
        (camera / name).write_bytes(picture(colour=colour))
    kept = [keep(folder, camera / name) for name in ("a.jpg", "b.jpg", "c.jpg")]
    wanted = named_in([
        event(0, Closed("V1")),
        *(event(1 + at, Entered(f"p{at}", {"photo": one.name, "sha256": one.sha256}))
          for at, one in enumerate(kept)),
        event(9, Entered("serial", {"value": "12"})),
    ])  # fmt: skip
    assert wanted == {one.sha256: one.name for one in kept}
    assert check(folder, wanted) == ()
    kept[0].path.unlink()
    kept[1].path.write_bytes(picture(colour="black"))
    assert check(folder, wanted) == (
        f"picture a.jpg ({kept[0].sha256[:12]}) is missing",
        f"picture b.jpg ({kept[1].sha256[:12]}) is not the one that was kept",
    )


def test_job_without_pictures_has_nothing_to_check(folder):
    assert check(folder, {}) == ()


@pytest.mark.parametrize(
    ("size", "points", "wanted"),
    [
        ((1200, 800), 300, (300, 200)),
        ((800, 1200), 300, (200, 300)),
        ((120, 80), 300, (120, 80)),
    ],
    ids=["landscape", "upright", "small stays"],
)
def test_scaled_picture_fits_and_is_always_the_same(folder, camera, size, points, wanted):
    (camera / "a.jpg").write_bytes(picture(size=size))
    path = keep(folder, camera / "a.jpg").path
    once = scaled(path, points)
    assert once == scaled(path, points)
    assert Image.open(BytesIO(once)).size == wanted


def test_scaled_picture_stands_upright_and_says_nothing_of_the_camera(camera):
    turned = Image.Exif()
    turned[0x0112], turned[0x010F] = 6, "maker"  # to be turned by a quarter
    (camera / "a.jpg").write_bytes(picture(size=(120, 80), exif=turned))
    shown = Image.open(BytesIO(scaled(camera / "a.jpg", 300)))
    assert shown.size == (80, 120)
    assert not shown.getexif()


@pytest.mark.parametrize(
    ("content", "words"),
    [(b"no picture", "no JPEG or PNG"), (picture("JPEG", (400, 300))[:900], "damaged"),
     (None, "not there")],
    ids=["other", "torn", "gone"],
)  # fmt: skip
def test_picture_that_cannot_be_shown_is_told_in_one_line(camera, content, words):
    if content is not None:
        (camera / "a.jpg").write_bytes(content)
    with pytest.raises(PictureRefusedError, match=words):
        scaled(camera / "a.jpg", 300)


@pytest.mark.parametrize(
    ("mode", "colour", "wanted"),
    [("RGBA", (0, 0, 0, 0), 255), ("L", 90, 90), ("P", 0, 0), ("LA", (0, 0), 255)],
    ids=["clear", "grey", "palette", "clear grey"],
)
def test_every_kind_of_png_is_scaled_on_white(camera, mode, colour, wanted):
    (camera / "a.png").write_bytes(picture("PNG", mode=mode, colour=colour))
    shown = Image.open(BytesIO(scaled(camera / "a.png", 300)))
    assert all(abs(each - wanted) <= 2 for each in shown.convert("RGB").tobytes())
