"""What a hand-over file says of itself: the job, its journals with their heads, and who signs."""

from datetime import datetime
from typing import Annotated, TypeVar

from msgspec import DecodeError, Meta, Struct
from msgspec.json import decode, encode

from fieldapp.crew.people import Signer
from fieldapp.crew.roster import Roster
from fieldapp.crew.statement import Statement, StatementRefusedError, signed
from fieldapp.handover.errors import HandOverRefusedError
from fieldapp.handover.vouching import UNSIGNED, vouched
from fieldapp.journal.folders import is_name

FORMAT = 1
_PURPOSE = "hand-over, format 1"

_Kind = TypeVar("_Kind")
Name = Annotated[str, Meta(pattern=r"\A[A-Za-z0-9][A-Za-z0-9._-]{0,63}\Z")]
Number = Annotated[str, Meta(pattern=r"\A[A-Za-z0-9][A-Za-z0-9._-]{0,119}\Z")]
Hash = Annotated[str, Meta(pattern=r"\A[0-9a-f]{64}\Z")]
Picture = Annotated[str, Meta(pattern=r"\A[0-9a-f]{64}\.(jpg|png)\Z")]
Count = Annotated[int, Meta(ge=1, le=2**53 - 1)]


class Part(Struct, frozen=True, forbid_unknown_fields=True):
    """One journal, and the entry it ends with."""

    device: Name
    sequence: Count
    hash: Hash


class Manifest(Struct, frozen=True, forbid_unknown_fields=True):
    """The job, the heads of its journals and the names of its pictures: this is what is signed."""

    format: int
    job: Number
    made: Annotated[str, Meta(max_length=40)]
    journals: Annotated[tuple[Part, ...], Meta(min_length=1, max_length=20)]
    pictures: Annotated[tuple[Picture, ...], Meta(max_length=2000)] = ()


class Signature(Struct, frozen=True, forbid_unknown_fields=True):
    """A person's signature over the manifest, with their certificate."""

    certificate: Annotated[str, Meta(max_length=20_000)]
    signature: Annotated[bytes, Meta(max_length=200)]


def manifest_in(text: bytes) -> Manifest:
    """Return what the manifest says."""
    manifest = _decoded(text, Manifest, "its list of journals cannot be read")
    if manifest.format != FORMAT:
        raise HandOverRefusedError(
            f"it is of format {manifest.format}, this version reads format {FORMAT}"
        )
    devices = [part.device for part in manifest.journals]
    for name in (manifest.job, *devices):
        if not is_name(name):
            raise HandOverRefusedError(f"{name} in it cannot be the name of a folder or a file")
    if len(devices) != len({device.casefold() for device in devices}):
        raise HandOverRefusedError("it names a journal twice")
    if len(manifest.pictures) != len({*manifest.pictures}):
        raise HandOverRefusedError("it names a picture twice")
    return manifest


def signature_over(manifest: bytes, signer: Signer) -> bytes:
    """Return a person's signature over a manifest."""
    statement = signed(manifest, signer, purpose=_PURPOSE)
    return encode(Signature(statement.certificate, statement.signature))


def signer_words(manifest: bytes, text: bytes | None, roster: Roster | None) -> str:
    """Return who signed a manifest, as far as the trust folder vouches for them."""
    if text is None:
        return UNSIGNED
    found = _decoded(text, Signature, "its signature cannot be read")
    statement = Statement(manifest, found.certificate, found.signature)
    try:
        made = datetime.fromisoformat(manifest_in(manifest).made).astimezone()
        return vouched(statement, roster, purpose=_PURPOSE, at=made)
    except StatementRefusedError as reason:
        raise HandOverRefusedError(str(reason)) from reason
    except (ValueError, OverflowError) as reason:
        raise HandOverRefusedError("it does not say when it was made") from reason


def _decoded(text: bytes, kind: type[_Kind], otherwise: str) -> _Kind:
    try:
        return decode(text, type=kind)
    except (DecodeError, UnicodeDecodeError, RecursionError) as reason:
        raise HandOverRefusedError(otherwise) from reason
