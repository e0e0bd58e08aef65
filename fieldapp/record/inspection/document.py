"""What the document may hold that the technician signs: pages to read, and two fields to sign in.

It must read the same to everybody and do nothing by itself. These rules hold for records of every
version; whether the pages show the attached data is looked at in `pages`.
"""

from collections.abc import Iterator

from pyhanko.pdf_utils.generic import DictionaryObject, IndirectObject, Reference, StreamObject
from pyhanko.pdf_utils.reader import PdfFileReader

from fieldapp.record.structure import LEAD_FIELD, TECHNICIAN_FIELD

_AGAIN = "ask the crew for the record as the tablet made it"
_OF_ITSELF = "The document does something by itself when it is opened"
_FIELDS = [TECHNICIAN_FIELD, LEAD_FIELD]
_CATALOGUE = {
    "/OpenAction": _OF_ITSELF,
    "/AA": _OF_ITSELF,
    "/OCProperties": "The document has layers, so that not everybody sees the same",
    "/Collection": "The document is a cover with other documents in it",
    "/NeedsRendering": "The document lets the viewer draw its pages",
    "/DSS": "The document carries certificates of its own",
    "/Legal": "The document speaks for itself in law",
    "/Perms": "The document grants rights before anybody signed",
    "/Requirements": "The document asks for a certain viewer",
    "/Threads": "The document has an order of reading beside its pages",
    "/URI": "The document leads to an address",
}
_NAMES = {
    "/JavaScript": "The document carries a program (JavaScript)",
    "/AlternatePresentations": "The document can show itself in another way",
    "/Pages": "The document carries pages that are not shown",
    "/Renditions": "The document carries sound or film",
    "/Templates": "The document carries pages that are not shown",
}
_FORM = {
    "/XFA": "The document carries a second form beside its pages (XFA)",
    "/NeedAppearances": "The document lets the viewer draw its fields",
    "/CO": "The document has fields that work themselves out",
}
_LINK, _WIDGET, _GO_TO = "/Link", "/Widget", "/GoTo"
# What records of every version are made of; anything else may look one way here, another there.
_OF_CATALOGUE = {
    *("/AF", "/AcroForm", "/Extensions", "/Lang", "/MarkInfo", "/Metadata", "/Names", "/Outlines"),
    *("/OutputIntents", "/PageMode", "/Pages", "/StructTreeRoot", "/Type", "/ViewerPreferences"),
}
_OF_PAGE = {
    *("/Annots", "/Contents", "/MediaBox", "/Parent", "/Resources", "/Rotate", "/StructParents"),
    *("/Tabs", "/Trans", "/Type"),
}
_OF_FIELD = {
    *("/AP", "/F", "/FT", "/Lock", "/P", "/Rect", "/Subtype", "/T", "/TU", "/Type"),
}
_OF_LINK = {"/A", "/Border", "/C", "/Dest", "/F", "/H", "/Rect", "/Subtype", "/Type"}


def document_findings(reader: PdfFileReader) -> Iterator[str]:
    """Return a finding for each thing in the first revision that no record holds."""
    catalogue = reader.get_historical_resolver(0).root
    form = catalogue["/AcroForm"]
    for entries, unwanted, usual in (
        (catalogue, _CATALOGUE, _OF_CATALOGUE),
        (catalogue["/Names"], _NAMES, {"/EmbeddedFiles"}),
        (form, _FORM, {"/Fields", "/SigFlags"}),
    ):
        yield from (f"{unwanted[key]}; {_AGAIN}." for key in entries if key in unwanted)
        yield from _beyond(set(entries) - set(unwanted), usual, "The document")
    fields = form["/Fields"]
    yield from _of_fields([fields[place] for place in range(len(fields))])
    if any(again for _, _, again in _tree(catalogue["/Pages"], set())):
        yield f"The document shows a page twice; {_AGAIN}."
    own = {field.reference for field in fields if isinstance(field, IndirectObject)}
    for number, (_, page) in enumerate(pages_of(catalogue["/Pages"]), start=1):
        yield from _of_page(page, number, own)


def pages_of(branch: DictionaryObject) -> Iterator[tuple[IndirectObject, DictionaryObject]]:
    """Return the pages below a branch of the page tree, in order, and what refers to each.

    A page or a branch that is listed again is left out: a few branches can list each other
    millions of times.
    """
    for own, kid, again in _tree(branch, set()):
        if not again and "/Kids" not in kid:
            yield own, kid


def _tree(
    branch: DictionaryObject, known: set[Reference]
) -> Iterator[tuple[IndirectObject, DictionaryObject, bool]]:
    for place in range(len(branch["/Kids"])):
        own, kid = branch["/Kids"].raw_get(place), branch["/Kids"][place]
        again = own.reference in known
        known.add(own.reference)
        yield own, kid, again
        if not again and "/Kids" in kid:
            yield from _tree(kid, known)


def _beyond(entries: set[str], usual: set[str], what: str) -> Iterator[str]:
    if more := sorted(entries - usual):
        yield f"{what} holds more than a record does ({', '.join(more)}); {_AGAIN}."


def _of_fields(fields: list[DictionaryObject]) -> Iterator[str]:
    names = [str(field.get("/T", "")) for field in fields]
    if names != _FIELDS:
        yield (
            "The document’s fields are not the technician’s, then the crew lead’s, and no more; "
            f"{_AGAIN}."
        )
        return
    for field in fields:
        if field.get("/FT") != "/Sig":
            yield f"The field {field['/T']} is not one to sign in; {_AGAIN}."
        if "/V" in field:
            yield f"The field {field['/T']} was filled before anybody signed; {_AGAIN}."
        if "/AA" in field or "/A" in field:
            yield f"The field {field['/T']} does something when it is touched; {_AGAIN}."
        if _draws(field):
            yield f"The field {field['/T']} draws something over the page; {_AGAIN}."
        yield from _beyond(set(field) - {"/A", "/AA", "/V"}, _OF_FIELD, f"The field {field['/T']}")


def _draws(field: DictionaryObject) -> bool:
    """Return whether a field looks like anything; ours lie over what the page draws."""
    looks = field.get("/AP", {})
    return bool(set(looks) - {"/N"}) or ("/N" in looks and not _is_empty(looks["/N"]))


def _is_empty(look: DictionaryObject) -> bool:
    return isinstance(look, StreamObject) and not look.encoded_data.strip()


def _of_page(page: DictionaryObject, number: int, fields: set[Reference]) -> Iterator[str]:
    if "/AA" in page:
        yield f"Page {number} does something by itself when it is shown; {_AGAIN}."
    if "/AF" in page:
        yield f"Page {number} carries a file of its own; {_AGAIN}."
    yield from _beyond(set(page) - {"/AA", "/AF"}, _OF_PAGE, f"Page {number}")
    marks = page.get("/Annots", ())
    for place in range(len(marks)):
        own, mark = marks.raw_get(place), marks[place]
        is_field = isinstance(own, IndirectObject) and own.reference in fields
        if mark["/Subtype"] == _LINK:
            yield from _of_link(mark, number)
        elif mark["/Subtype"] != _WIDGET or not is_field:
            yield f"Something lies over page {number} that is no part of a record; {_AGAIN}."


def _of_link(link: DictionaryObject, number: int) -> Iterator[str]:
    if "/A" in link and link["/A"]["/S"] != _GO_TO:
        yield f"Page {number} leads out of the document; {_AGAIN}."
    yield from _beyond(set(link), _OF_LINK, f"A link on page {number}")
