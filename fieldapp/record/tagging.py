"""Tells programs what the parts of the pages are, what its colours mean, and what it is about.

The tree of tags is ISO 32000-1, 14.7; the output intent is 14.11.5, the metadata 14.3.2. No tag
leads to a signature field: a reader would take the field's later signature for a change of the
tagged pages.
"""

from collections.abc import Iterator, Sequence
from io import BytesIO
from itertools import groupby

import pikepdf
from pikepdf import Array, Dictionary, Name, Pdf, String

from fieldapp.places import assets
from fieldapp.record.pages.kit.tags import Tag

COLOURS = "sRGB IEC61966-2.1"
CHAPTER = "H1"


def tagged(pdf: bytes, tags: Sequence[Tag]) -> bytes:
    """Return the document with tags, output intent and metadata; equal input, equal bytes."""
    written = BytesIO()
    with pikepdf.open(BytesIO(pdf)) as document:
        _add_tags(document, tags)
        _add_intent(document)
        _describe(document)
        document.save(
            written,
            deterministic_id=True,
            compress_streams=False,
            stream_decode_level=pikepdf.StreamDecodeLevel.none,
            object_stream_mode=pikepdf.ObjectStreamMode.disable,
        )
    return written.getvalue()


def _describe(document: Pdf) -> None:
    """Say title, dates and maker once more as metadata; for "not trapped" it has no words."""
    if "/Trapped" in document.docinfo:
        del document.docinfo["/Trapped"]
    with document.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as facts:
        facts.load_from_docinfo(document.docinfo)


def _add_tags(document: Pdf, tags: Sequence[Tag]) -> None:
    pages = [page.obj for page in document.pages]
    for place, page in enumerate(pages):
        page.StructParents = place
        page.Tabs = Name.S
    tree = document.make_indirect(Dictionary(Type=Name.StructTreeRoot))
    whole = document.make_indirect(_element("Document", tree))
    parts = [Array() for _ in pages]
    whole.K = Array()
    for chapter in _chapters(tags):
        section = document.make_indirect(_element("Sect", whole))
        section.K = Array()
        whole.K.append(section)
        for tag in chapter:
            part = _part(document, tag, section, pages[tag.page - 1])
            section.K.append(part)
            parts[tag.page - 1].append(part)  # in the order of their numbers
    tree.K = whole
    numbers = [item for place, found in enumerate(parts) for item in (place, found)]
    tree.ParentTree = document.make_indirect(Dictionary(Nums=Array(numbers)))
    tree.ParentTreeNextKey = len(pages)
    document.Root.StructTreeRoot = tree
    document.Root.MarkInfo = Dictionary(Marked=True)


def _chapters(tags: Sequence[Tag]) -> Iterator[list[Tag]]:
    """Yield the tags of each chapter, its title first."""
    count = 0

    def chapter_of(tag: Tag) -> int:
        nonlocal count
        count += tag.kind == CHAPTER
        return count

    for _, found in groupby(tags, key=chapter_of):
        yield list(found)


def _part(document: Pdf, tag: Tag, parent: pikepdf.Object, page: pikepdf.Object) -> pikepdf.Object:
    element = _element(tag.kind, parent)
    element.Pg, element.K = page, tag.number
    if tag.words:
        element.Alt = String(tag.words)
    return document.make_indirect(element)


def _element(kind: str, parent: pikepdf.Object) -> Dictionary:
    return Dictionary(S=Name(f"/{kind}"), P=parent)


def _add_intent(document: Pdf) -> None:
    profile = document.make_stream((assets() / "colour" / "sRGB.icc").read_bytes())
    profile.N = 3
    intent = Dictionary(
        Type=Name.OutputIntent,
        S=Name.GTS_PDFA1,
        OutputConditionIdentifier=String(COLOURS),
        Info=String(COLOURS),
        DestOutputProfile=profile,
    )
    document.Root.OutputIntents = Array([document.make_indirect(intent)])
