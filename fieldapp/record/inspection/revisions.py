"""What each revision of a signed record changed: nothing but its own signature may be new.

A PDF grows by revisions. A library's check looks at what came *after* a signature; what a signer
slipped in together with a signature passes it. Here each revision is compared with the one before.
"""

from collections.abc import Iterator
from io import BytesIO

from pyhanko.pdf_utils.generic import DictionaryObject, PdfObject
from pyhanko.pdf_utils.reader import HistoricalResolver, PdfFileReader

from fieldapp.record.inspection.naming import Part, called, entries_called

_NEW_RECORD = "ask the crew for the record as it was signed"


def hidden_changes(reader: PdfFileReader, revision: int, field: str, signer: str) -> Iterator[str]:
    """Return a finding for each change of a revision beyond the signature in that field."""
    before = reader.get_historical_resolver(revision - 1)
    after = reader.get_historical_resolver(revision)
    if _written(before.trailer_view, "/Root", "/Info", "/Encrypt") != _written(
        after.trailer_view, "/Root", "/Info", "/Encrypt"
    ):
        yield f"The {signer}’s revision leads to another document; {_NEW_RECORD}."
        return
    beside = _replaced(reader, revision) - _bookkeeping(reader, after, field)
    if beside:
        what = called(before, beside, set())
        yield f"The {signer}’s revision replaced {what} beside the signature; {_NEW_RECORD}."
    changed = _changed_entries(before, after, field, certifies=revision == 1)
    if changed:
        yield (
            f"The {signer}’s revision changed {entries_called(changed)} beside the "
            f"signature; {_NEW_RECORD}."
        )


def unsigned_changes(reader: PdfFileReader, signed: set[int]) -> str:
    """Return what was replaced by the revisions that no signature is in."""
    changed = []
    for revision in sorted(set(range(1, reader.xrefs.total_revisions)) - signed):
        before = reader.get_historical_resolver(revision - 1)
        entries = _difference(before.root, reader.get_historical_resolver(revision).root)
        changed.append(called(before, _replaced(reader, revision), entries))
    return ", ".join(dict.fromkeys(changed))


def _replaced(reader: PdfFileReader, revision: int) -> set[Part]:
    """Return what a revision wrote or dropped: all of it, so an object that is new counts too."""
    references = reader.xrefs.explicit_refs_in_revision(revision)
    references |= reader.xrefs.refs_freed_in_revision(revision)
    return {(reference.idnum, reference.generation) for reference in references}


def _bookkeeping(reader: PdfFileReader, after: HistoricalResolver, field: str) -> set[Part]:
    form = after.root.raw_get("/AcroForm")
    place = _field(after, field)
    parts = (reader.root_ref, form, after.root["/AcroForm"]["/Fields"].raw_get(place))
    known = {(part.idnum, part.generation) for part in parts}
    value = after.root["/AcroForm"]["/Fields"][place].raw_get("/V").reference
    if reader.xrefs.get_introducing_revision(value) == after.revision:
        known.add((value.idnum, value.generation))
    return known


def _field(document: HistoricalResolver, name: str) -> int:
    fields = document.root["/AcroForm"]["/Fields"]
    return [fields[place]["/T"] for place in range(len(fields))].index(name)


def _changed_entries(
    before: HistoricalResolver, after: HistoricalResolver, field: str, *, certifies: bool
) -> set[str]:
    form, form_after = before.root["/AcroForm"], after.root["/AcroForm"]
    place = _field(before, field)
    changed = _difference(before.root, after.root) - ({"/Perms"} if certifies else set())
    changed |= _difference(form, form_after) - {"/SigFlags"}
    changed |= _difference(form["/Fields"][place], form_after["/Fields"][place]) - {"/V"}
    return changed


def _difference(before: DictionaryObject, after: DictionaryObject) -> set[str]:
    keys = set(before) | set(after)
    return {key for key in keys if _written(before, key) != _written(after, key)}


def _written(entries: DictionaryObject, *keys: str) -> list[bytes | None]:
    return [_bytes(entries.raw_get(key)) if key in entries else None for key in keys]


def _bytes(value: PdfObject) -> bytes:
    written = BytesIO()
    value.write_to_stream(written)
    return written.getvalue()
