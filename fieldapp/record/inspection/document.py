"""What the document may hold that the technician signs: pages to read, and two fields to sign in.

It must read the same to everybody and do nothing by itself. These rules hold for records of every
version; whether the pages show the attached data is looked at in `pages`.
"""

from collections.abc import Iterator

from pyhanko.pdf_utils.generic import DictionaryObject, IndirectObject
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


def document_findings(reader: PdfFileReader) -> Iterator[str]:
    """Return a finding for each thing in the first revision that no record holds."""
    catalogue = reader.get_historical_resolver(0).root
    form = catalogue["/AcroForm"]
    for entries, unwanted in (
        (catalogue, _CATALOGUE),
        (catalogue["/Names"], _NAMES),
        (form, _FORM),
    ):
        yield from (f"{unwanted[key]}; {_AGAIN}." for key in entries if key in unwanted)
    yield from _of_fields([form["/Fields"][place] for place in range(len(form["/Fields"]))])
    for number, (_, page) in enumerate(pages_of(catalogue["/Pages"]), start=1):
        yield from _of_page(page, number)


def pages_of(branch: DictionaryObject) -> Iterator[tuple[IndirectObject, DictionaryObject]]:
    """Return the pages below a branch of the page tree, in order, and what refers to each."""
    for place in range(len(branch["/Kids"])):
        kid = branch["/Kids"][place]
        if "/Kids" in kid:
            yield from pages_of(kid)
        else:
            yield branch["/Kids"].raw_get(place), kid


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


def _draws(field: DictionaryObject) -> bool:
    looks = field.get("/AP", {})
    return set(looks) > {"/N"} or ("/N" in looks and bool(looks["/N"].data.strip()))


def _of_page(page: DictionaryObject, number: int) -> Iterator[str]:
    if "/AA" in page:
        yield f"Page {number} does something by itself when it is shown; {_AGAIN}."
    if "/AF" in page:
        yield f"Page {number} carries a file of its own; {_AGAIN}."
    marks = page.get("/Annots", ())
    for mark in (marks[place] for place in range(len(marks))):
        kind = mark["/Subtype"]
        if kind == _LINK:
            if "/Dest" not in mark and mark["/A"]["/S"] != _GO_TO:
                yield f"Page {number} leads out of the document; {_AGAIN}."
        elif kind != _WIDGET or mark.get("/T") not in _FIELDS:
            yield f"Something lies over page {number} that is no part of a record; {_AGAIN}."
