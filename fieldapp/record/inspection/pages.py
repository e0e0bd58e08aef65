"""Whether the pages show the attached data: they are made again from it and compared."""

from dataclasses import dataclass
from importlib.metadata import version
from io import BytesIO
from typing import Any

from pyhanko.pdf_utils.generic import PdfObject, StreamObject
from pyhanko.pdf_utils.reader import HistoricalResolver, PdfFileReader

from fieldapp.record.findings import Pages
from fieldapp.record.rendering import libraries, rebuilt


@dataclass(frozen=True, slots=True)
class Result:
    """What comparing gave: how the pages stand, and a finding or a note, if any."""

    pages: Pages
    finding: str = ""
    note: str = ""


DIFFERENT = (
    "The pages do not show the attached data: the program makes other pages from it; believe "
    "neither, and ask the crew for the record as the tablet made it."
)
IMPOSSIBLE = (
    "No pages can be made from the attached data, so nobody knows whether these show it; ask the "
    "crew for the record as the tablet made it."
)


def compared(pdf: bytes, reader: PdfFileReader, content: bytes, record: dict[str, Any]) -> Result:
    """Return whether the first revision is what this program makes from the attached data."""
    if builder_of(record) != this_program():
        built = builder_of(record).removeprefix("fieldapp ") or "unknown"
        return Result(Pages.NOT_COMPARED, note=f"built by version {built}: pages not compared")
    try:
        ours = rebuilt(content)
    except Exception:  # noqa: BLE001 - drawing may fail anywhere on data that no job ever gave
        return Result(Pages.NOT_COMPARED, finding=IMPOSSIBLE)
    if pdf.startswith(ours) or _same(reader.get_historical_resolver(0), ours):
        return Result(Pages.SHOW_THE_DATA)
    if drawn_by(record) != libraries():
        note = (
            f"drawn with {', '.join(drawn_by(record))}, not with what is here: pages not compared"
        )
        return Result(Pages.NOT_COMPARED, note=note)
    return Result(Pages.DO_NOT_SHOW_THE_DATA, finding=DIFFERENT)


def builder_of(record: dict[str, Any]) -> str:
    """Return which program and version made the pages, by the attached data."""
    return str(record["heading"].get("program", ""))


def drawn_by(record: dict[str, Any]) -> tuple[str, ...]:
    """Return the libraries that drew the pages, by the attached data."""
    return tuple(map(str, record["heading"].get("libraries") or ["other libraries"]))


def this_program() -> str:
    """Return this program and its version, as a record names them."""
    return f"fieldapp {version('fieldapp')}"


def _same(first: HistoricalResolver, made: bytes) -> bool:
    """Return whether two documents hold the same, part by part, once unpacked.

    Another build of the compressing library packs equal pages into other bytes.
    """
    other = PdfFileReader(BytesIO(made), strict=True)
    parts = first.reader.xrefs.explicit_refs_in_revision(0)
    if {(one.idnum, one.generation) for one in parts} != {
        (one.idnum, one.generation) for one in other.xrefs.explicit_refs_in_revision(0)
    }:
        return False
    leads_alike = all(
        _bytes(first.trailer_view.raw_get(key)) == _bytes(other.trailer.raw_get(key))
        for key in ("/Root", "/Info")
    )
    return leads_alike and all(
        _unpacked(first.get_object(one)) == _unpacked(other.get_object(one)) for one in parts
    )


def _unpacked(part: PdfObject) -> tuple[bytes, bytes]:
    if not isinstance(part, StreamObject):
        return _bytes(part), b""
    entries = {key: _bytes(part.raw_get(key)) for key in part if key != "/Length"}
    return repr(sorted(entries.items())).encode(), part.data


def _bytes(part: PdfObject) -> bytes:
    written = BytesIO()
    part.write_to_stream(written)
    return written.getvalue()
