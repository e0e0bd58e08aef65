"""What a document may not hold, since one viewer would show this and another that, or act.

The pages of a record of another version are not made again, so here only these rules stand.
"""

import zlib
from io import BytesIO

import pytest
from pyhanko.pdf_utils.generic import (
    ArrayObject,
    BooleanObject,
    NumberObject,
    StreamObject,
    TextStringObject,
)
from pyhanko.pdf_utils.reader import PdfFileReader

from fieldapp.record.inspection.document import document_findings, pages_of
from tests.record import specimen as made
from tests.record.inspection.edits import (
    FIGURES,
    entries,
    first_page,
    lay,
    made_with,
    name,
    numbers,
    script,
)

PLACE = (60, 690, 360, 710)
DEEP = 40  # branches that each list the one below twice: 2 to the 40th ways
HUGE = 80_000_000


def signed_with(edit):
    return made.forged_lead(made.forged_technician(made_with(edit)))


def drawn(writer):
    look = entries(Type=name("/XObject"), Subtype=name("/Form"), BBox=numbers(0, 0, 300, 20))
    return entries(N=writer.add_object(StreamObject(look, stream_data=FIGURES)))


def second_page(writer):
    return ArrayObject([writer.root["/Pages"]["/Kids"].raw_get(1), name("/Fit")])


def link(writer, **more):
    given = {"Dest": second_page(writer), **more}
    lay(writer, entries(Subtype=name("/Link"), Rect=numbers(*PLACE), **given))


def link_that_draws(writer):
    link(writer, AP=drawn(writer))


def link_that_also_acts(writer):
    link(writer, A=script())


def link_that_acts_afterwards(writer):
    to = entries(S=name("/GoTo"), D=second_page(writer), Next=script())
    lay(writer, entries(Subtype=name("/Link"), Rect=numbers(*PLACE), A=to))


def second_field_of_a_name(writer):
    field = entries(
        Subtype=name("/Widget"), FT=name("/Sig"), T=TextStringObject("Technician"),
        Rect=numbers(*PLACE), AP=drawn(writer),
    )  # fmt: skip
    lay(writer, field)


def field_drawn_when_pressed(writer):
    field = writer.root["/AcroForm"]["/Fields"][0]
    field["/AP"] = entries(D=drawn(writer).raw_get("/N"))
    writer.update_container(field)


def field_drawn_in_states(writer):
    field = writer.root["/AcroForm"]["/Fields"][0]
    field["/AP"] = entries(N=entries(On=drawn(writer).raw_get("/N")))
    writer.update_container(field)


def field_of_two_places(writer):
    field = writer.root["/AcroForm"]["/Fields"][0]
    other = entries(
        Subtype=name("/Widget"), T=TextStringObject("Technician"), Rect=numbers(*PLACE),
        AP=drawn(writer),
    )  # fmt: skip
    field["/Kids"] = ArrayObject([writer.add_object(other)])
    writer.update_container(field)


def fields_without_end(writer):
    below = writer.add_object(entries(FT=name("/Sig"), T=TextStringObject("x")))
    for _ in range(DEEP):
        kids = ArrayObject([below, below])
        below = writer.add_object(entries(T=TextStringObject("x"), Kids=kids))
    fields = writer.root["/AcroForm"]["/Fields"]
    fields.append(below)
    writer.update_container(writer.root["/AcroForm"])
    writer.update_container(fields)


def other_record(writer):
    return writer.add_object(StreamObject(stream_data=made.RECORD.replace(b"0.012", b"0.002")))


def attachment_listed_below(writer):
    files = writer.root["/Names"]["/EmbeddedFiles"]
    called = TextStringObject("record.json")
    held = entries(F=called, UF=called, EF=entries(F=other_record(writer)))
    below = entries(
        Names=ArrayObject([called, writer.add_object(held)]), Limits=ArrayObject([called, called])
    )
    files["/Kids"] = ArrayObject([writer.add_object(below)])
    writer.update_container(files)
    writer.update_root()


def attachment_from_elsewhere(writer):
    content = writer.root["/Names"]["/EmbeddedFiles"]["/Names"][1]["/EF"]["/F"]
    content["/F"] = TextStringObject("other.json")
    writer.update_container(content)


def page_from_elsewhere(writer):
    content = first_page(writer)["/Contents"]
    content["/F"] = TextStringObject("other.txt")
    writer.update_container(content)


def contents_that_act(writer):
    line = writer.add_object(entries(Title=TextStringObject("Front page"), A=script()))
    writer.root["/Outlines"] = writer.add_object(
        entries(Type=name("/Outlines"), First=line, Last=line, Count=NumberObject(1))
    )
    writer.update_root()


def picture(value):
    shape = entries(
        Type=name("/XObject"), Subtype=name("/Image"), Width=NumberObject(1),
        Height=NumberObject(1), ColorSpace=name("/DeviceGray"), BitsPerComponent=NumberObject(8),
    )  # fmt: skip
    return StreamObject(shape, stream_data=bytes([value]))


def other_picture_on_paper(writer):
    shown = picture(0)
    printed = entries(Image=writer.add_object(picture(255)), DefaultForPrinting=BooleanObject(True))
    shown["/Alternates"] = ArrayObject([printed])
    page = first_page(writer)
    page["/Resources"]["/XObject"] = entries(I=writer.add_object(shown))
    writer.update_container(page["/Resources"])
    writer.update_container(page)


def other_page_numbers(writer):
    label = entries(P=TextStringObject("1 of 1, "))
    writer.root["/PageLabels"] = entries(Nums=ArrayObject([NumberObject(0), label]))
    writer.update_root()


def part_of_a_page(writer):
    page = first_page(writer)
    page["/CropBox"] = numbers(0, 0, 300, 300)
    writer.update_container(page)


def page_that_turns_itself(writer):
    page = first_page(writer)
    page["/Dur"] = NumberObject(1)
    writer.update_container(page)


def attachment_that_unpacks_huge(writer):
    held = writer.root["/Names"]["/EmbeddedFiles"]["/Names"][1]["/EF"].raw_get("/F")
    packed = zlib.compress(b" " * HUGE)
    writer.objects[(held.generation, held.idnum)] = StreamObject(
        entries(Filter=name("/FlateDecode")), encoded_data=packed
    )


ACTS = "The document holds something that acts when it is touched or opened"
ELSEWHERE = "A part of the document is taken from another file"
FOUND = {
    link_that_draws: "A link on page 1 holds more than a record does (/AP)",
    link_that_also_acts: "Page 1 leads out of the document",
    link_that_acts_afterwards: ACTS,
    second_field_of_a_name: "Something lies over page 1 that is no part of a record",
    field_drawn_when_pressed: "The field Technician draws something over the page",
    field_drawn_in_states: "The field Technician draws something over the page",
    field_of_two_places: "The fields of the document have fields below them",
    fields_without_end: "The fields of the document have fields below them",
    attachment_listed_below: "The attached file leads to more than one content",
    attachment_from_elsewhere: ELSEWHERE,
    page_from_elsewhere: ELSEWHERE,
    contents_that_act: ACTS,
    other_picture_on_paper: "A part of the document can show itself in another way",
    other_page_numbers: "The document holds more than a record does (/PageLabels)",
    part_of_a_page: "Page 1 holds more than a record does (/CropBox)",
    page_that_turns_itself: "Page 1 holds more than a record does (/Dur)",
    attachment_that_unpacks_huge: "A part of the file unpacks to far more than a record holds",
}


@pytest.mark.filterwarnings("ignore:This document has 1 form widget")  # said by who writes it anew
@pytest.mark.parametrize("edit", FOUND, ids=lambda edit: edit.__name__)
def test_document_that_does_not_read_the_same_to_everybody_is_found(edit, found):
    assert FOUND[edit] in found(signed_with(edit))


def list_twice(writer):
    """List the first page once more."""
    kids = writer.root["/Pages"]["/Kids"]
    kids.append(kids.raw_get(0))
    writer.update_container(writer.root["/Pages"])


def list_without_end(writer):
    """Let few branches list each other so often that nobody could follow them."""
    pages = writer.root["/Pages"]
    below = pages["/Kids"].raw_get(0)
    for _ in range(DEEP):
        kids = ArrayObject([below, below])
        below = writer.add_object(entries(Kids=kids, Count=NumberObject(2)))
    pages["/Kids"] = ArrayObject([below])
    writer.update_container(pages)


@pytest.mark.parametrize(("edit", "pages"), [(list_twice, 2), (list_without_end, 1)])
def test_page_listed_again_is_gone_to_once(edit, pages):
    reader = PdfFileReader(BytesIO(made.revised(made.document(), edit)))
    assert len(list(pages_of(reader.root["/Pages"]))) == pages


def test_page_shown_twice_is_found():
    # Written anew by hand: the library that the other edits use would give the page a number more.
    whole = made.document()
    kids = whole.index(b"/Kids [")
    first = whole[kids + 7 : whole.index(b" R", kids) + 2].strip()
    second = whole[whole.index(b" R", kids) + 2 : whole.index(b"]", kids)].strip()
    changed = whole[:kids] + whole[kids:].replace(second, first, 1)
    assert len(changed) == len(whole)
    findings = "\n".join(document_findings(PdfFileReader(BytesIO(changed))))
    assert "The document shows a page twice" in findings
