"""The zip of a hand-over: written plainly, and read as if somebody wished us harm."""

import re
import stat
import struct
import zlib
from collections.abc import Mapping
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, LargeZipFile, ZipFile, ZipInfo

from fieldapp.handover.errors import HandOverRefusedError

MANIFEST, SIGNATURE = "handover.json", "signature.json"
LARGEST = 64 * 1024 * 1024
"""Bytes of a file, and of all that is unpacked from it; a long job has about a tenth."""
MOST = 24
_SMALL = 64 * 1024
_NAME = re.compile(
    r"handover\.json|signature\.json|journals/[A-Za-z0-9][A-Za-z0-9._-]{0,63}\.journal"
)
_UNREADABLE = (
    BadZipFile, LargeZipFile, NotImplementedError, RuntimeError, EOFError, OSError, ValueError,
    OverflowError, struct.error, zlib.error,
)  # fmt: skip


def journal_name(device: str) -> str:
    """Return the name of a device's journal in the file."""
    return f"journals/{device}.journal"


def packed(members: Mapping[str, bytes]) -> bytes:
    """Return a zip of named contents; the same contents always give the same bytes."""
    written = BytesIO()
    with ZipFile(written, "w") as archive:
        for name, content in members.items():
            archive.writestr(ZipInfo(name), content, ZIP_DEFLATED)
    return written.getvalue()


def unpacked(content: bytes) -> dict[str, bytes]:
    """Return the named contents of a zip, if it has only what a hand-over has."""
    if len(content) > LARGEST:
        raise HandOverRefusedError(f"it is larger than {LARGEST} bytes")
    try:
        with ZipFile(BytesIO(content)) as archive:
            members = archive.infolist()
            _demand_plain(members)
            return _read(archive, members)
    except _UNREADABLE as reason:
        raise HandOverRefusedError("it is not a hand-over file, or is damaged") from reason


def _demand_plain(members: list[ZipInfo]) -> None:
    names = [member.filename for member in members]
    if len(names) > MOST:
        raise HandOverRefusedError(f"it holds more than {MOST} parts")
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
