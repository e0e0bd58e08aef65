"""Issuing a record: its revision and file, the keys and photos around it, the paper."""

import io
import json
from base64 import b64decode
from dataclasses import replace

import pikepdf
import pytest
from PIL import Image

from fieldapp.actions.sign_off import see, send_back, sign, to_see
from fieldapp.crew.authority import Revoked
from fieldapp.crew.people import Role
from fieldapp.journal import pictures
from fieldapp.record.issuing import (
    Surroundings,
    file_name,
    issued_whole,
    keys_by_name,
    small_pictures,
)
from fieldapp.record.pages.kit.paper import LETTER
from fieldapp.record.rendering import drawn_with, libraries, rebuilt
from tests.checklists.playing import Playing
from tests.record import small_job, specimen
from tests.record.test_pdf import pages_of, without_spaces


def issued(crew, around=None):
    record_json, pdf = issued_whole(crew.job, small_job.HEAD, crew.now, around)
    return json.loads(record_json), pdf


def sent_back_and_signed_again():
    crew = small_job.signed_by_technician()
    crew.does(send_back, "Weigh the cartridges again.", who=small_job.LEAD)
    crew.does(sign, "technician", "12" * 32, strokes=small_job.STROKES)
    for event in to_see(crew.job):
        crew.does(see, event.sequence, who=small_job.LEAD)
    crew.does(sign, "crew lead", "34" * 32, who=small_job.LEAD, strokes=small_job.STROKES)
    return crew


def test_first_revision_names_none_before_it():
    crew = small_job.signed_off()
    record, pdf = issued(crew)
    assert (record["heading"]["revision"], record["earlier"]) == (1, [])
    assert "Replaces" not in pages_of(pdf)[0]
    assert file_name(crew.job) == "SP-T2-2026-01.pdf"


def test_second_revision_names_the_first_in_data_on_the_front_and_in_the_file_s_name():
    crew = sent_back_and_signed_again()
    record, pdf = issued(crew)
    (first,) = record["earlier"]
    assert record["heading"]["revision"] == 2
    assert (first["revision"], first["head"]) == (1, "cd" * 32)
    assert (first["signed_by"], first["sent_back_by"]) == (small_job.TECHNICIAN, small_job.LEAD)
    assert first["reason"] == "Weigh the cartridges again."
    front, *_, last = pages_of(pdf)
    assert "record, revision 2" in front
    assert "revision 1, journal cdcd cdcd cdcd cdcd; sent back by Ruth Calderon" in front
    assert "Weigh the cartridges again." in front
    assert without_spaces("cd" * 32) in without_spaces(last)
    assert file_name(crew.job) == "SP-T2-2026-01-r2.pdf"


def test_sending_back_what_nobody_signed_makes_no_revision():
    crew = small_job.evacuated()
    assert file_name(crew.job) == "SP-T2-2026-01.pdf"
    crew = small_job.sent_back()
    assert file_name(crew.job) == "SP-T2-2026-01-r2.pdf"


def test_signature_boxes_show_the_keys_of_the_roster():
    people = [specimen.signer(name, role).person for name, role in (
        (small_job.TECHNICIAN, Role.TECHNICIAN), (small_job.LEAD, Role.CREW_LEAD))]  # fmt: skip
    trust = specimen.roster()
    trust = replace(trust, people=tuple(people))
    record, pdf = issued(small_job.signed_off(), Surroundings(roster=trust))
    assert [one["key"] for one in record["signatures"]] == [one.fingerprint for one in people]
    for one in people:
        assert one.fingerprint in without_spaces(pages_of(pdf)[0])


def test_name_with_several_keys_has_none_shown():
    twice = [specimen.signer("Ada Moor", Role.TECHNICIAN).person for _ in range(2)]
    assert keys_by_name(replace(specimen.roster(), people=tuple(twice))) == {}


def test_new_key_of_a_person_is_shown_once_the_lost_one_is_withdrawn():
    lost, new = (specimen.signer("Ada Moor", Role.TECHNICIAN).person for _ in range(2))
    revoked = Revoked(lost.certificate.serial_number, specimen.SIGNED, key_lost=True)
    roster = replace(specimen.roster(revoked), people=(lost, new))
    assert keys_by_name(roster) == {"Ada Moor": new.fingerprint}


def test_without_a_roster_the_boxes_say_that_the_key_is_not_known():
    _, pdf = issued(small_job.signed_off())
    assert pages_of(pdf)[0].count("not known where it was issued") == 2


class Photographing(Playing):
    """A job in the making whose every photo is one that is kept."""

    def __init__(self, name, kept):
        super().__init__(name)
        self.kept = kept

    def fields(self, entry):
        if entry.kind == "photo":
            return {"photo": self.kept.name, "sha256": self.kept.sha256}
        return super().fields(entry)


@pytest.fixture(scope="module")
def photographed(tmp_path_factory):
    """Return a visit whose only photo is kept in the folder of the job."""
    folder = tmp_path_factory.mktemp("job")
    taken = folder / "sleeve.png"
    Image.linear_gradient("L").convert("RGB").resize((1600, 900)).save(taken)
    kept = pictures.keep(folder, taken)
    return Photographing("visit", kept).through(), folder, kept


def test_photos_are_printed_small_with_name_and_hash(photographed):
    playing, folder, kept = photographed
    around = Surroundings(folder=folder)
    record_json, pdf = issued_whole(playing.job, small_job.HEAD, playing.now, around)
    (photo,) = json.loads(record_json)["photos"]
    assert (photo["name"], photo["sha256"], photo["missing"]) == ("sleeve.png", kept.sha256, "")
    with Image.open(io.BytesIO(b64decode(photo["jpeg"]))) as small:
        assert max(small.size) == 640
    text = without_spaces(" ".join(pages_of(pdf)))
    assert kept.sha256 in text
    assert "filesleeve.png" in text
    with pikepdf.open(io.BytesIO(pdf)) as document:
        kinds = [part.get("/Subtype") for part in document.objects
                 if isinstance(part, pikepdf.Stream)]  # fmt: skip
    assert kinds.count(pikepdf.Name.Image) == 1
    assert rebuilt(record_json) == pdf


@pytest.mark.parametrize("harm", ["gone", "changed"])
def test_photo_that_is_not_there_is_said_and_stops_nothing(photographed, tmp_path, harm):
    playing, _, kept = photographed
    if harm == "changed":
        path = tmp_path / "pictures" / f"{kept.sha256}.png"
        path.parent.mkdir()
        path.write_bytes(kept.path.read_bytes()[:-40])
    around = Surroundings(folder=tmp_path)
    record_json, pdf = issued_whole(playing.job, small_job.HEAD, playing.now, around)
    (photo,) = json.loads(record_json)["photos"]
    assert photo["jpeg"] == ""
    text = " ".join(pages_of(pdf))
    assert "The picture as it was taken was not on this tablet" in text
    assert kept.sha256 in without_spaces(text)
    assert small_pictures(playing.job, tmp_path) == {}


def test_paper_is_letter_where_asked_for():
    record, pdf = issued(small_job.signed_off(), Surroundings(sheet=LETTER))
    assert record["heading"]["paper"] == "Letter"
    with pikepdf.open(io.BytesIO(pdf)) as document:
        assert {tuple(map(float, page.mediabox[2:])) for page in document.pages} == {(612, 792)}


def test_data_says_what_drew_the_pages():
    crew = small_job.begun()
    record_json, _ = issued_whole(crew.job, small_job.HEAD, crew.now)
    program, *others = drawn_with(record_json)
    assert program.startswith("fieldapp ")
    assert tuple(others) == libraries()
    assert [one.split(" ")[0] for one in others] == ["pikepdf", "pyHanko", "reportlab", "zlib"]
