"""What a forger may write into a document, as changes of a writer."""

from io import BytesIO

import pikepdf
from pyhanko.pdf_utils.generic import (
    ArrayObject,
    BooleanObject,
    DictionaryObject,
    NameObject,
    NumberObject,
    StreamObject,
    TextStringObject,
)

from tests.record import specimen as made

FIGURES = b"BT /F1 12 Tf 60 700 Td (leak rate 0.002 Pa m3/s) Tj ET"


def name(text):
    return NameObject(text)


def entries(**given):
    return DictionaryObject({name(f"/{key}"): value for key, value in given.items()})


def numbers(*given):
    return ArrayObject(NumberObject(one) for one in given)


def script():
    return entries(S=name("/JavaScript"), JS=TextStringObject("this.getField('x').value = 2;"))


def first_page(writer):
    return writer.root["/Pages"]["/Kids"][0]


def shadow_page(writer):
    """Put a page of the forger's own in the place of the first page."""
    pages = writer.root["/Pages"]
    shown = entries(
        Type=name("/Page"),
        Parent=writer.root.raw_get("/Pages"),
        MediaBox=first_page(writer)["/MediaBox"],
        Resources=first_page(writer)["/Resources"],
        Contents=writer.add_object(made.other_figures()),
    )
    pages["/Kids"][0] = writer.add_object(shown)
    writer.update_container(pages)


def hide_layer(writer):
    """Give the document a layer that one viewer shows and another does not."""
    layer = writer.add_object(entries(Type=name("/OCG"), Name=TextStringObject("Figures")))
    shown = entries(OFF=ArrayObject([layer]))
    writer.root["/OCProperties"] = entries(OCGs=ArrayObject([layer]), D=shown)
    writer.update_root()


def cover_figures(writer):
    """Lay a note with other figures over the first page."""
    look = StreamObject(
        entries(Type=name("/XObject"), Subtype=name("/Form"), BBox=numbers(0, 0, 300, 20)),
        stream_data=FIGURES,
    )
    note = entries(
        Type=name("/Annot"),
        Subtype=name("/FreeText"),
        Rect=numbers(60, 690, 360, 710),
        AP=entries(N=writer.add_object(look)),
    )
    lay(writer, note)


def lead_out(writer):
    """Lay a link to another place over the first page."""
    to = entries(S=name("/URI"), URI=TextStringObject("https://example.invalid/record"))
    lay(writer, entries(Subtype=name("/Link"), Rect=numbers(60, 690, 360, 710), A=to))


def add_field(writer):
    """Add a field that shows a figure of the forger's."""
    field = entries(
        FT=name("/Tx"),
        T=TextStringObject("leak_rate"),
        V=TextStringObject("0.002"),
        Subtype=name("/Widget"),
        Rect=numbers(60, 690, 360, 710),
    )
    form = writer.root["/AcroForm"]
    form["/Fields"].append(writer.add_object(field))
    writer.update_container(form)


def lay(writer, mark):
    page = first_page(writer)
    if "/Annots" not in page:
        page["/Annots"] = ArrayObject()
    page["/Annots"].append(writer.add_object(mark))
    writer.update_container(page)
    writer.update_container(page["/Annots"])


def draw_in_field(writer):
    """Let the technician's field draw figures of its own."""
    field = writer.root["/AcroForm"]["/Fields"][0]
    look = StreamObject(entries(Subtype=name("/Form"), BBox=numbers(0, 0, 9, 9)), None, FIGURES)
    field["/AP"] = entries(N=writer.add_object(look))
    writer.update_container(field)


def swap_fields(writer):
    """Put the lead's field before the technician's."""
    form = writer.root["/AcroForm"]
    form["/Fields"].reverse()
    writer.update_container(form)
    writer.update_container(form["/Fields"])


def rename_fields(writer):
    """Give each field the name of the other."""
    fields = writer.root["/AcroForm"]["/Fields"]
    for place, called in enumerate(("CrewLead", "Technician")):
        fields[place]["/T"] = TextStringObject(called)
        writer.update_container(fields[place])


def change_title(writer):
    """Give the document another title."""
    info = writer.trailer_view["/Info"]
    info["/Title"] = TextStringObject("Record R-0999")
    writer.update_container(info)


def add_metadata(writer):
    """Give the document other properties in XML."""
    told = StreamObject(
        entries(Type=name("/Metadata"), Subtype=name("/XML")), stream_data=b"<x:xmpmeta/>"
    )
    writer.root["/Metadata"] = writer.add_object(told)
    writer.update_root()


def open_with_script(writer):
    """Run a program when the document is opened."""
    writer.root["/OpenAction"] = script()
    writer.update_root()


def close_with_script(writer):
    """Run a program when the document is printed or closed."""
    writer.root["/AA"] = entries(WP=script())
    writer.update_root()


def carry_script(writer):
    """Carry a program by name."""
    named = entries(Names=ArrayObject([TextStringObject("run"), writer.add_object(script())]))
    writer.root["/Names"]["/JavaScript"] = named
    writer.update_container(writer.root["/Names"])
    writer.update_root()


def script_on_page(writer):
    """Run a program when the first page is shown."""
    page = first_page(writer)
    page["/AA"] = entries(O=script())
    writer.update_container(page)


def script_in_field(writer):
    """Run a program when the technician's field is touched."""
    field = writer.root["/AcroForm"]["/Fields"][0]
    field["/AA"] = entries(E=script())
    writer.update_container(field)


def carry_second_form(writer):
    """Carry a second form, which some viewers show in the place of the pages."""
    form = writer.root["/AcroForm"]
    form["/XFA"] = writer.add_object(StreamObject(stream_data=b"<xdp:xdp/>"))
    writer.update_container(form)


def let_fields_be_drawn(writer):
    """Ask the viewer to draw the fields itself."""
    form = writer.root["/AcroForm"]
    form["/NeedAppearances"] = BooleanObject(True)
    writer.update_container(form)


def be_a_cover(writer):
    """Be the cover of other documents."""
    writer.root["/Collection"] = entries(Type=name("/Collection"))
    writer.update_root()


def attach_beside(writer):
    """Attach another file of the same name."""
    listed = writer.root["/Names"]["/EmbeddedFiles"]["/Names"]
    other = StreamObject(stream_data=made.RECORD.replace(b"0.012", b"0.002"))
    held = entries(F=TextStringObject("record.json"), EF=entries(F=writer.add_object(other)))
    listed.extend([TextStringObject("record.json"), writer.add_object(held)])
    writer.update_container(listed)
    writer.update_root()


def attach_under_another_name(writer):
    """Give the attached file another name."""
    listed = writer.root["/Names"]["/EmbeddedFiles"]["/Names"]
    listed[0] = TextStringObject("figures.json")
    writer.update_container(listed)
    writer.update_root()


def attach_two_contents(writer):
    """Let the attached file lead to one content by its older name and to another by its newer."""
    file = writer.root["/Names"]["/EmbeddedFiles"]["/Names"][1]
    other = StreamObject(stream_data=made.RECORD.replace(b"0.012", b"0.002"))
    file["/EF"]["/UF"] = writer.add_object(other)
    writer.update_container(file["/EF"])


def attach_to_the_whole(writer):
    """Name another file as the one that the whole document is about."""
    other = StreamObject(stream_data=made.RECORD.replace(b"0.012", b"0.002"))
    held = entries(F=TextStringObject("record.json"), EF=entries(F=writer.add_object(other)))
    writer.root["/AF"] = ArrayObject([writer.add_object(held)])
    writer.update_root()


def attach_to_page(writer):
    """Attach another file to the first page."""
    page = first_page(writer)
    other = StreamObject(stream_data=made.RECORD.replace(b"0.012", b"0.002"))
    held = entries(F=TextStringObject("record.json"), EF=entries(F=writer.add_object(other)))
    page["/AF"] = ArrayObject([writer.add_object(held)])
    writer.update_container(page)


def hide_page(writer):
    """Carry a page that is not among the pages."""
    hidden = ArrayObject(
        [TextStringObject("other"), writer.add_object(entries(Type=name("/Page")))]
    )
    writer.root["/Names"]["/Templates"] = entries(Names=hidden)
    writer.update_container(writer.root["/Names"])
    writer.update_root()


def carry_certificates(writer):
    """Carry certificates for viewers to believe."""
    writer.root["/DSS"] = entries(Certs=ArrayObject())
    writer.update_root()


def reorder_pages(writer):
    """Turn the order of the pages."""
    pages = writer.root["/Pages"]
    pages["/Kids"].reverse()
    writer.update_container(pages)


def drop_page(writer):
    """Leave out the last page but its signatures."""
    pages = writer.root["/Pages"]
    del pages["/Kids"][0]
    pages["/Count"] = NumberObject(1)
    writer.update_container(pages)


EDITS = {
    "page swapped": made.swap_page,
    "stream rewritten": made.swap_stream,
    "font taken away": made.drop_font,
    "shadow page": shadow_page,
    "pages turned": reorder_pages,
    "page left out": drop_page,
    "hidden layer": hide_layer,
    "note over figures": cover_figures,
    "link out": lead_out,
    "field added": add_field,
    "field draws": draw_in_field,
    "field moved": made.move_field,
    "fields swapped": swap_fields,
    "fields renamed": rename_fields,
    "title changed": change_title,
    "metadata changed": add_metadata,
    "program at opening": open_with_script,
    "program at closing": close_with_script,
    "program carried": carry_script,
    "program on a page": script_on_page,
    "program in a field": script_in_field,
    "second form": carry_second_form,
    "fields drawn by the viewer": let_fields_be_drawn,
    "cover of others": be_a_cover,
    "attachment rewritten": made.swap_attachment,
    "second attachment": attach_beside,
    "attachment renamed": attach_under_another_name,
    "attachment of two contents": attach_two_contents,
    "attachment of the whole": attach_to_the_whole,
    "attachment of a page": attach_to_page,
    "page hidden": hide_page,
    "certificates carried": carry_certificates,
    "loose object": made.add_loose_object,
}


def made_with(edit, pdf=None):
    """Return a document, as if it had been made with an edit in it: one revision only."""
    written = BytesIO()
    with pikepdf.open(BytesIO(made.revised(pdf or made.document(), edit))) as whole:
        whole.save(written, object_stream_mode=pikepdf.ObjectStreamMode.disable)
    return written.getvalue()
