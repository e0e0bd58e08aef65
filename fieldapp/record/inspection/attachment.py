"""The data attached to a record: one file, as it was signed, that names those who signed it."""

import hashlib
import json
import re
from collections.abc import Iterator
from datetime import datetime
from typing import Any

from pyhanko.pdf_utils.generic import DictionaryObject
from pyhanko.pdf_utils.reader import PdfFileReader

from fieldapp.record.findings import SignedBy
from fieldapp.record.structure import ATTACHMENT, attachments

_AGAIN = "ask the crew for the record as it was signed"
_HASH = re.compile(r"[0-9a-f]{64}")


def attached(reader: PdfFileReader) -> tuple[bytes, list[str]]:
    """Return the attached data, and what is wrong with how it is attached."""
    held = [
        attachments(reader.get_historical_resolver(revision).root)
        for revision in range(reader.xrefs.total_revisions)
    ]
    if any([name for name, _ in files] != [ATTACHMENT] for files in held):
        return b"", [f"The file does not hold exactly one attachment {ATTACHMENT}; {_AGAIN}."]
    if len({hashlib.sha256(files[0][1]).digest() for files in held}) != 1:
        return b"", [f"The attached record is not the one that was signed; {_AGAIN}."]
    if not _is_one_file(reader.get_historical_resolver(0).root):
        return b"", [f"The attached file leads to more than one content; {_AGAIN}."]
    return held[0][0][1], []


def _is_one_file(catalogue: DictionaryObject) -> bool:
    """Return whether every way to the attachment that a viewer may take ends in the same bytes."""
    files = catalogue["/Names"]["/EmbeddedFiles"]
    listed = files["/Names"]
    file, beside = listed[1], catalogue["/AF"]
    names = {str(file[key]) for key in ("/F", "/UF") if key in file}
    contents = {file["/EF"].raw_get(key).reference for key in file["/EF"]}
    return (
        set(files) == {"/Names"}
        and names == {ATTACHMENT}
        and set(file["/EF"]) <= {"/F", "/UF"}
        and len(contents) == 1
        and "/RF" not in file
        and [one.reference for one in beside] == [listed.raw_get(1).reference]
    )


def record_in(content: bytes) -> dict[str, Any] | None:
    """Return the record in the attached data, or nothing where that is no record."""
    try:
        record = json.loads(content.decode(), object_pairs_hook=_named_once)
    except (ValueError, RecursionError):
        return None
    parts = ("heading", "journal", "signatures")
    if not isinstance(record, dict) or not all(part in record for part in parts):
        return None
    whole = isinstance(record["heading"], dict) and isinstance(record["journal"], dict)
    return record if whole and isinstance(record["signatures"], list) else None


def _named_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Refuse a name that is there twice: one reader takes the first, another the last."""
    found = dict(pairs)
    if len(found) < len(pairs):
        raise ValueError(len(pairs))
    return found


def data_findings(record: dict[str, Any], signers: tuple[SignedBy, ...]) -> Iterator[str]:
    """Check that the data names the people, times and keys of the signatures, and the journal."""
    if not _is_hash(record["journal"].get("hash")):
        yield f"The attached record does not say where the journal ended; {_AGAIN}."
    for signed in signers:
        yield from _of_signer(record["signatures"], signed)
    revision, earlier = record["heading"].get("revision"), record.get("earlier") or []
    if not isinstance(earlier, list) or not _each_named(revision, earlier):
        yield (
            f"The attached record is revision {revision} and does not name each one before it, "
            f"with who sent it back and why; {_AGAIN}."
        )


def _each_named(revision: object, earlier: list[Any]) -> bool:
    """Return whether the revisions before are named in order, each with its head and reason."""
    numbers = [one.get("revision") if isinstance(one, dict) else None for one in earlier]
    return (revision, numbers) == (len(earlier) + 1, [*range(1, len(earlier) + 1)]) and all(
        _is_hash(one.get("head"))
        and _is_said(one.get("sent_back_by"))
        and _is_said(one.get("reason"))
        for one in earlier
    )


def _of_signer(stated: list[Any], signed: SignedBy) -> Iterator[str]:
    found = [one for one in stated if isinstance(one, dict) and one.get("role") == signed.role]
    if len(found) != 1:
        yield f"The attached record does not say who signed off as {signed.role}; {_AGAIN}."
        return
    (one,) = found
    if one.get("name") != signed.name:
        yield (
            f"The attached record says that {one.get('name')} signed off as {signed.role}, the "
            f"signature is {signed.name}’s; {_AGAIN}."
        )
    if not _is_moment(one.get("at"), signed.time):
        yield (
            f"The attached record says that the {signed.role} signed at {one.get('at')}, the "
            f"signature says {signed.time.isoformat()}; {_AGAIN}."
        )
    if one.get("key") not in (None, "", signed.fingerprint):
        yield f"The attached record names another key of the {signed.role}; {_AGAIN}."
    if not _is_hash(one.get("head")):
        yield f"The attached record does not say what the {signed.role} signed; {_AGAIN}."


def _is_hash(value: object) -> bool:
    return isinstance(value, str) and _HASH.fullmatch(value) is not None


def _is_said(value: object) -> bool:
    return isinstance(value, str) and bool(value.strip())


def _is_moment(text: object, moment: datetime) -> bool:
    try:
        return datetime.fromisoformat(str(text)).replace(microsecond=0) == moment
    except (TypeError, ValueError):
        return False
