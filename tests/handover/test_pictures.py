"""Pictures go with their job, each under its hash; a file that hides something in them is refused.

The size bomb is that of a PNG header (W3C, Portable Network Graphics, third edition, 11.2.1).
"""

import hashlib
import json
import stat
import struct
import zlib
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

import pytest
import rfc8785
from PIL import Image

from fieldapp.handover import archive
from fieldapp.handover.archive import MANIFEST, pictures_listed, unpacked, write_packed
from fieldapp.handover.backup import copy_all
from fieldapp.handover.copying import CopyDiffersError
from fieldapp.handover.errors import HandOverRefusedError
from fieldapp.handover.pictures import copy_picture
from fieldapp.handover.receiving import receive
from fieldapp.handover.sending import hand_over, write_hand_over
from fieldapp.job.events import Entered, Event
from fieldapp.journal.jobs import Jobs
from fieldapp.journal.pictures import check, keep
from tests.actions.play import BEGIN, TECHNICIAN
from tests.handover.conftest import NUMBER
from tests.handover.test_hand_over import AT


def photographed(kind="JPEG", size=(60, 40), colour="teal"):
    out = BytesIO()
    Image.new("RGB", size, colour).save(out, kind)
    return out.getvalue()


def png_header(width, height):
    """The beginning of a picture that says how large it is, and holds next to nothing."""
    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    parts = ((b"IHDR", header), (b"IDAT", zlib.compress(b"")), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(held)) + kind + held + struct.pack(">I", zlib.crc32(kind + held))
        for kind, held in parts
    )


def name_of(content, ending="jpg"):
    return f"{hashlib.sha256(content).hexdigest()}.{ending}"


def named(tablet, *contents):
    """Keep an event for each picture, whether it is a picture or not."""
    jobs = Jobs(tablet.home, lambda: BEGIN)
    kept = jobs.open(NUMBER)
    for content in contents:
        fields = {"photo": "bond.jpg", "sha256": hashlib.sha256(content).hexdigest()}
        number = kept.job.state.next_sequence
        event = Event(number, BEGIN, TECHNICIAN, Entered("bond_photo", fields))
        assert kept.keep((event,)) is None
    jobs.close()


@pytest.fixture
def pictures():
    return [photographed(colour="teal"), photographed("PNG", colour="navy")]


@pytest.fixture
def one(tablet, pictures, tmp_path):
    """A tablet with a job of two pictures."""
    made = tablet("one", begun=True)
    named(made, *pictures)
    for number, content in enumerate(pictures):
        source = tmp_path / f"{number}.jpg"
        source.write_bytes(content)
        keep(made.home / "jobs" / NUMBER, source)
    return made


@pytest.fixture
def folder(one):
    return one.home / "jobs" / NUMBER / "pictures"


@pytest.fixture
def two(tablet):
    return tablet("two")


def wanted(*contents):
    return {hashlib.sha256(content).hexdigest(): "bond.jpg" for content in contents}


def test_pictures_arrive_as_they_were_kept(one, two, pictures, folder):
    receive(hand_over(one.home, NUMBER, AT), two.home, "two", None)
    there = two.home / "jobs" / NUMBER
    assert check(there, wanted(*pictures)) == ()
    assert {path.name: path.read_bytes() for path in (there / "pictures").iterdir()} == {
        path.name: path.read_bytes() for path in folder.iterdir()
    }


def test_file_on_a_card_is_taken_in_without_reading_it_whole(one, two, pictures, tmp_path):
    file = tmp_path / "job.zip"
    with file.open("wb") as written:
        assert write_hand_over(written, one.home, NUMBER, AT) == ()
    receive(file, two.home, "two", None)
    assert check(two.home / "jobs" / NUMBER, wanted(*pictures)) == ()


def test_same_job_gives_the_same_file(one):
    assert hand_over(one.home, NUMBER, AT) == hand_over(one.home, NUMBER, AT)


def test_missing_or_changed_picture_stays_behind_and_is_named(one, two, folder):
    first, second = sorted(folder.iterdir())
    first.unlink()
    second.write_bytes(b"changed")
    written = BytesIO()
    left = write_hand_over(written, one.home, NUMBER, AT)
    assert [words.rpartition(") ")[2] for words in left] == [
        "is missing", "is not the one that was kept",
    ]  # fmt: skip
    assert pictures_listed(written.getvalue()) == ()
    receive(written.getvalue(), two.home, "two", None)
    assert not (two.home / "jobs" / NUMBER / "pictures").exists()


def test_picture_that_no_event_names_stays_behind(one, folder):
    stray = photographed(colour="red")
    (folder / name_of(stray)).write_bytes(stray)
    assert name_of(stray) not in pictures_listed(hand_over(one.home, NUMBER, AT))


def test_damaged_picture_is_made_whole_by_a_hand_over(one, two, pictures):
    content = hand_over(one.home, NUMBER, AT)
    receive(content, two.home, "two", None)
    for path in (two.home / "jobs" / NUMBER / "pictures").iterdir():
        path.write_bytes(b"damaged")
    receive(content, two.home, "two", None)
    assert check(two.home / "jobs" / NUMBER, wanted(*pictures)) == ()


@pytest.fixture
def refused(two):
    """Takes a file in and returns why it was refused, once nothing was written."""
    before = two.files()

    def taking(content):
        with pytest.raises(HandOverRefusedError, match="Nothing was written") as caught:
            receive(content, two.home, "two", None)
        assert two.files() == before
        return caught.value.why

    return taking


def with_pictures(one, *pictures, listed=None, kind=ZIP_STORED):
    """The tablet's file with other pictures, given as (name, content), and a list to match."""
    members = unpacked(hand_over(one.home, NUMBER, AT))
    names = [name.removeprefix("pictures/") for name, _ in pictures] if listed is None else listed
    manifest = json.loads(members[MANIFEST]) | {"pictures": names}
    written = BytesIO()
    write_packed(written, members | {MANIFEST: rfc8785.dumps(manifest)})
    with ZipFile(written, "a") as file:
        for name, content in pictures:
            info = name if isinstance(name, ZipInfo) else ZipInfo(name)
            file.writestr(info, content, kind)
    return written.getvalue()


@pytest.mark.parametrize(
    "name",
    [
        "pictures/../../evil.jpg", "pictures/bond.jpg", "pictures/", "../pictures/a.jpg",
        "pictures/" + "a" * 64 + ".exe", "pictures/" + "A" * 64 + ".jpg",
        "pictures/x/" + "a" * 64 + ".jpg", "pictures/" + "a" * 64 + ".jpg\\x",
    ],
)  # fmt: skip
def test_name_that_is_no_picture_is_refused(one, refused, name):
    assert "not of a hand-over" in refused(with_pictures(one, (name, b"x"), listed=[]))


def test_picture_under_another_hash_is_refused(one, refused, pictures):
    name = f"pictures/{name_of(pictures[0])}"
    assert "not the one that was kept" in refused(with_pictures(one, (name, pictures[1])))


def test_picture_that_no_event_names_is_refused(one, refused):
    stray = photographed(colour="red")
    why = refused(with_pictures(one, (f"pictures/{name_of(stray)}", stray)))
    assert "no event of the job names picture" in why


@pytest.mark.parametrize("listed", [[], ["a" * 64 + ".jpg"]], ids=["not listed", "not there"])
def test_pictures_and_list_must_agree(one, refused, pictures, listed):
    picture = (f"pictures/{name_of(pictures[0])}", pictures[0])
    why = refused(with_pictures(one, *([] if listed else [picture]), listed=listed))
    assert "not those on its list" in why


def test_picture_twice_is_refused(one, refused, pictures):
    name = f"pictures/{name_of(pictures[0])}"
    with pytest.warns(UserWarning, match="Duplicate name"):
        twice = with_pictures(one, (name, pictures[0]), (name, pictures[0]), listed=[])
    assert "two parts of the same name" in refused(twice)
    listed = [name.removeprefix("pictures/")] * 2
    assert "names a picture twice" in refused(with_pictures(one, (name, b""), listed=listed))


@pytest.mark.parametrize("kind", [stat.S_IFLNK, stat.S_IFDIR, stat.S_IFIFO])
def test_picture_that_is_a_link_or_no_file_is_refused(one, refused, pictures, kind):
    info = ZipInfo(f"pictures/{name_of(pictures[0])}")
    info.external_attr = (kind | 0o777) << 16
    assert "not a plain file" in refused(with_pictures(one, (info, b"/etc/passwd"), listed=[]))


def test_picture_that_swells_is_refused(one, refused):
    bomb = bytes(5_000_000)
    why = refused(with_pictures(one, (f"pictures/{name_of(bomb)}", bomb), kind=ZIP_DEFLATED))
    assert "not of the size it says" in why


def test_pictures_too_large_or_too_many_are_refused(one, refused, pictures, monkeypatch):
    each = [(f"pictures/{name_of(content)}", content) for content in pictures]
    file = with_pictures(one, *each)
    monkeypatch.setattr(archive, "LARGEST_PICTURES", 100)
    assert "its pictures are larger than" in refused(file)
    monkeypatch.setattr(archive, "MOST_BYTES", 100)
    assert "is too large" in refused(file)
    monkeypatch.setattr(archive, "MOST_PICTURES", 1)
    assert "more than" in refused(file)


@pytest.mark.parametrize(
    ("content", "ending", "words"),
    [
        (b"MZ not a picture", "jpg", "no JPEG or PNG picture"),
        (b"", "png", "no JPEG or PNG picture"),
        (png_header(60_000, 60_000), "png", "too many points"),
        (png_header(9_500, 9_000), "png", "too many points"),
        (photographed("PNG"), "jpg", "of another kind than it says"),
        (photographed("GIF"), "png", "no JPEG or PNG picture"),
    ],
    ids=["program", "nothing", "bomb", "large", "other kind", "other format"],
)
def test_picture_that_is_none_or_too_large_to_look_at_is_refused(
    one, refused, content, ending, words
):
    named(one, content)
    picture = (f"pictures/{name_of(content, ending)}", content)
    assert words in refused(with_pictures(one, picture))


def test_backup_carries_pictures_there_and_back(one, folder, tmp_path, pictures):
    card = tmp_path / "card"
    assert [each.refused for each in copy_all(one.home, card)] == [""] * 3
    for path in folder.iterdir():
        path.write_bytes(b"damaged")
    refusals = [each.refused for each in copy_all(one.home, card)]
    assert sum("it is not the one kept" in each for each in refusals) == 2
    assert [each.refused for each in copy_all(card, one.home)] == [""] * 3
    assert check(folder.parent, wanted(*pictures)) == ()


def test_copy_that_reads_back_otherwise_is_told(folder, tmp_path, monkeypatch):
    monkeypatch.setattr(
        "fieldapp.handover.pictures.write_whole",
        lambda path, content: path.write_bytes(content[:-1] + b"?"),
    )
    with pytest.raises(CopyDiffersError, match="not what was written"):
        copy_picture(next(folder.iterdir()), tmp_path / "card" / "a.jpg")
