"""The zip of a hand-over: written plainly, and read as if somebody wished us harm."""

import re
import stat
import struct
import zlib
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from hashlib import sha256
from io import SEEK_END, BytesIO
from pathlib import Path
from typing import IO, TypeAlias
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, LargeZipFile, ZipFile, ZipInfo

from fieldapp.handover.errors import HandOverRefusedError
from fieldapp.journal.pictures import MOST_BYTES

MANIFEST, SIGNATURE = "handover.json", "signature.json"
LARGEST = 64 * 1024 * 1024
"""Bytes of all journals that are unpacked; a long job has about a tenth."""
MOST = 24
MOST_PICTURES = 2000
LARGEST_PICTURES = 2 * 1024**3
"""Bytes of all pictures, and what the file may have beside its journals."""
_TOO_MANY = f"it holds more than {MOST} parts or {MOST_PICTURES} pictures"
_SMALL = 64 * 1024
_PICTURE = "pictures/"
_NAME = re.compile(
    r"handover\.json|signature\.json|journals/[A-Za-z0-9][A-Za-z0-9._-]{0,63}\.journal"
    r"|pictures/[0-9a-f]{64}\.(jpg|png)"
)
_LARGEST_LIST = MOST_PICTURES * 512
"""Bytes of the list at the end of a zip: it is read at once, long before its parts are counted."""
_LONGEST_END = 66_000
_SIZE_OF_LIST = re.compile(rb"PK(?=\x05\x06.{8}(.{4}))|PK(?=\x06\x06.{36}(.{8}))", re.DOTALL)
_UNREADABLE = (
    BadZipFile, LargeZipFile, NotImplementedError, RuntimeError, EOFError, OSError, ValueError,
    OverflowError, struct.error, zlib.error,
)  # fmt: skip

Source: TypeAlias = bytes | Path


def journal_name(device: str) -> str:
    """Return the name of a device's journal in the file."""
    return f"journals/{device}.journal"


def picture_name(name: str) -> str:
    """Return the name of a picture in the file."""
    return f"{_PICTURE}{name}"


def packed(members: Mapping[str, bytes]) -> bytes:
    """Return a zip of named contents; the same contents always give the same bytes."""
    written = BytesIO()
    write_packed(written, members)
    return written.getvalue()


def write_packed(
    target: IO[bytes], members: Mapping[str, bytes], pictures: Iterable[Path] = ()
) -> None:
    """Write a zip of named contents and pictures; a picture is taken as it is, one at a time."""
    with ZipFile(target, "w") as archive:
        for name, content in members.items():
            archive.writestr(ZipInfo(name), content, ZIP_DEFLATED)
        for path in pictures:
            archive.writestr(ZipInfo(picture_name(path.name)), path.read_bytes(), ZIP_STORED)


def unpacked(source: Source) -> dict[str, bytes]:
    """Return the named contents of a zip but for its pictures, if it has only what it may have."""
    if _size(source) > LARGEST + LARGEST_PICTURES:
        raise HandOverRefusedError(f"it is larger than {LARGEST + LARGEST_PICTURES} bytes")
    with _opened(source) as archive:
        members = archive.infolist()
        _demand_plain(members)
        return _read(archive, [member for member in members if not _is_picture(member)])


def picture_in(source: Source, name: str) -> bytes:
    """Return one picture of a zip that was unpacked before."""
    with _opened(source) as archive, archive.open(picture_name(name)) as part:
        content = part.read(MOST_BYTES + 1)
    if sha256(content).hexdigest() != name.partition(".")[0]:
        raise HandOverRefusedError(f"picture {name} in it is not the one that was kept")
    return content


def pictures_listed(source: Source) -> tuple[str, ...]:
    """Return the names of the pictures in a zip."""
    with _opened(source) as archive:
        found = (member.filename for member in archive.infolist() if _is_picture(member))
        return tuple(name.removeprefix(_PICTURE) for name in found)


@contextmanager
def _opened(source: Source) -> Iterator[ZipFile]:
    try:
        with _bytes_of(source) as content:
            _demand_short_list(content)
            with ZipFile(content) as archive:
                yield archive
    except _UNREADABLE as reason:
        raise HandOverRefusedError("it is not a hand-over file, or is damaged") from reason


def _size(source: Source) -> int:
    return len(source) if isinstance(source, bytes) else source.stat().st_size


def _bytes_of(source: Source) -> IO[bytes]:
    return BytesIO(source) if isinstance(source, bytes) else source.open("rb")


def _demand_short_list(content: IO[bytes]) -> None:
    """Refuse a zip with a list of parts that alone would fill the memory."""
    content.seek(max(0, content.seek(0, SEEK_END) - _LONGEST_END))
    for found in _SIZE_OF_LIST.finditer(content.read()):
        if int.from_bytes(found[1] or found[2], "little") > _LARGEST_LIST:
            raise HandOverRefusedError(_TOO_MANY)


def _is_picture(member: ZipInfo) -> bool:
    return member.filename.startswith(_PICTURE)


def _demand_plain(members: list[ZipInfo]) -> None:
    names = [member.filename for member in members]
    pictures = [member for member in members if _is_picture(member)]
    if len(names) - len(pictures) > MOST or len(pictures) > MOST_PICTURES:
        raise HandOverRefusedError(_TOO_MANY)
    for member in members:
        if not _NAME.fullmatch(member.filename) or member.orig_filename != member.filename:
            raise HandOverRefusedError(
                f"it holds {member.orig_filename!a}, which is not of a hand-over"
            )
        if not _is_plain_file(member):
            raise HandOverRefusedError(f"{member.filename} in it is not a plain file")
    if len({name.casefold() for name in names}) != len(names):
        raise HandOverRefusedError("it holds two parts of the same name")
    if MANIFEST not in names:
        raise HandOverRefusedError("it does not say what it holds")
    _demand_pictures_not_too_large(pictures)


def _demand_pictures_not_too_large(pictures: list[ZipInfo]) -> None:
    """A picture is as large in the file as it is outside: it cannot swell."""
    for member in pictures:
        if member.file_size > MOST_BYTES:
            raise HandOverRefusedError(f"{member.filename} in it is too large")
        if member.compress_type != ZIP_STORED or member.compress_size != member.file_size:
            raise HandOverRefusedError(f"{member.filename} in it is not of the size it says")
    if sum(member.file_size for member in pictures) > LARGEST_PICTURES:
        raise HandOverRefusedError(f"its pictures are larger than {LARGEST_PICTURES} bytes")


def _is_plain_file(member: ZipInfo) -> bool:
    kind = stat.S_IFMT(member.external_attr >> 16)
    encrypted = member.flag_bits & 0x1
    known = member.compress_type in (ZIP_STORED, ZIP_DEFLATED)
    return kind in (0, stat.S_IFREG) and not encrypted and known


def _read(archive: ZipFile, members: list[ZipInfo]) -> dict[str, bytes]:
    contents: dict[str, bytes] = {}
    left = LARGEST
    for member in members:
        most = left if member.filename.startswith("journals/") else _SMALL
        with archive.open(member) as part:
            content = part.read(most + 1)
        if len(content) > most:
            raise HandOverRefusedError(f"{member.filename} in it is too large")
        if len(content) != member.file_size:
            raise HandOverRefusedError(f"{member.filename} in it is not of the size it says")
        contents[member.filename] = content
        left -= len(content)
    return contents
