"""A record is sound only as the crew signed it: every way to change it leaves a finding."""

import io
import json
import logging
from datetime import timedelta

import pikepdf
import pytest
from cryptography import x509
from pyhanko.sign.fields import MDPPerm
from pyhanko.sign.signers.cms_embedder import SigMDPSetup

from fieldapp.crew import authority
from fieldapp.crew.authority import Revoked, found_authority, new_key
from fieldapp.crew.people import Role
from fieldapp.record.structure import prepare
from fieldapp.record.verification import DAMAGED, UnreadableRecordError, verify
from tests.record import specimen as made

EDITS = {
    "page swapped": made.swap_page,
    "stream rewritten": made.swap_stream,
    "attachment rewritten": made.swap_attachment,
    "catalogue changed": made.open_with_action,
    "loose object added": made.add_loose_object,
    "field moved": made.move_field,
    "font taken away": made.drop_font,
}
NO_USAGE = dict.fromkeys(
    [
        "digital_signature",
        "content_commitment",
        "key_encipherment",
        "data_encipherment",
        "key_cert_sign",
        "crl_sign",
        "encipher_only",
        "decipher_only",
    ],
    False,
)
AGREEMENT_ONLY = x509.KeyUsage(key_agreement=True, **NO_USAGE)
every_edit = pytest.mark.parametrize("edit", EDITS.values(), ids=EDITS)


@pytest.fixture(scope="module")
def roster():
    return made.roster()


def found(pdf, roster):
    """Return the findings, which must not have come from a file that cannot be read at all."""
    findings = verify(pdf, roster).findings
    assert DAMAGED not in findings
    return "\n".join(findings)


def test_record_signed_by_both_is_sound(roster):
    findings = verify(made.closed(), roster)
    assert findings.findings == ()
    assert findings.sound


def test_findings_name_the_signers(roster):
    technician, lead = verify(made.closed(), roster).signers
    assert (technician.name, technician.role, technician.time) == (
        "Ada Moor",
        "technician",
        made.SIGNED,
    )
    assert (lead.name, lead.role, lead.time) == ("Bo Lind", "crew lead", made.CLOSED)
    assert technician.fingerprint == made.technician().person.fingerprint
    assert lead.fingerprint == made.lead().person.fingerprint


def test_findings_carry_the_record_and_the_authority(roster):
    findings = verify(made.closed(), roster)
    assert findings.record == json.loads(made.RECORD)
    assert findings.authority == f"Example grid office, key {roster.fingerprint}"


def test_record_without_the_lead_is_not_closed(roster):
    findings = verify(made.signed(), roster)
    assert findings.findings == (
        "The crew lead has not signed; the record is not closed until the lead signs it.",
    )
    assert findings.awaits_lead
    assert not findings.sound


def test_record_that_nobody_signed_is_not_sound(roster):
    assert found(made.document(), roster).startswith("Nobody has signed")


def test_authority_is_unknown_without_a_trust_folder(roster):
    (finding,) = verify(made.closed()).findings
    assert "authority of the signers is not known here: Example grid office" in finding
    assert roster.fingerprint in finding


@every_edit
def test_edit_in_a_revision_before_the_signatures_is_found(edit, roster):
    pdf = made.forged_lead(made.forged_technician(made.revised(made.document(), edit)))
    assert "The file was changed 3 times, for 2 signatures" in found(pdf, roster)


@every_edit
def test_edit_between_the_signatures_is_found(edit, roster):
    pdf = made.forged_lead(made.revised(made.signed(), edit))
    assert "The file was changed 3 times, for 2 signatures" in found(pdf, roster)


@every_edit
def test_edit_after_the_signatures_is_found(edit, roster):
    pdf = made.revised(made.closed(), edit)
    assert "The file was changed 3 times, for 2 signatures" in found(pdf, roster)


@every_edit
def test_edit_hidden_in_the_technicians_revision_is_found(edit, roster):
    pdf = made.forged_lead(made.forged_technician(made.document(), edit))
    assert "The technician’s revision" in found(pdf, roster)


@every_edit
def test_edit_hidden_in_the_leads_revision_is_found(edit, roster):
    pdf = made.forged_lead(made.signed(), edit)
    assert "The crew lead’s revision" in found(pdf, roster)


@pytest.mark.parametrize("hidden", [made.forged_technician, made.forged_lead])
def test_attachment_swapped_under_a_signature_is_named(hidden, roster):
    if hidden is made.forged_lead:
        pdf = made.forged_lead(made.signed(), made.swap_attachment)
    else:
        pdf = made.forged_lead(made.forged_technician(made.document(), made.swap_attachment))
    assert "The attached record is not the one that was signed" in found(pdf, roster)


def test_figure_changed_in_place_is_found(roster):
    assert made.closed().count(b"0.012 Pa") == 2
    pdf = made.closed().replace(b"0.012 Pa", b"0.002 Pa")
    findings = found(pdf, roster)
    assert "The document was changed after the technician signed it" in findings
    assert "The document was changed after the crew lead signed it" in findings


@pytest.mark.parametrize(
    "rules",
    [SigMDPSetup("sha256"), made.certifying(MDPPerm.ANNOTATE), made.certifying(MDPPerm.NO_CHANGES)],
    ids=["nothing certified", "notes permitted", "no signature permitted"],
)
def test_technician_who_certifies_otherwise_is_found(rules, roster):
    pdf = made.forged_lead(made.forged_technician(made.document(), rules=rules))
    assert "technician’s signature permits other changes than ours do" in found(pdf, roster)


def test_signature_in_the_place_of_another_part_is_found(roster):
    pdf = made.forged_lead(made.forged_technician(made.document(), made.sign_over_font))
    assert "The technician’s revision replaced page 1, page 2 beside" in found(pdf, roster)


def test_rights_granted_beside_the_certification_are_found(roster):
    pdf = made.forged_lead(made.forged_technician(made.document(), made.grant_rights))
    assert "technician’s signature permits other changes than ours do" in found(pdf, roster)


def test_lead_who_locks_nothing_is_found(roster):
    pdf = made.forged_lead(made.signed(), rules=SigMDPSetup("sha256"))
    assert "crew lead’s signature permits other changes than ours do" in found(pdf, roster)


def test_second_attachment_is_found(roster):
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(made.pages())) as pages:
        pages.attachments["other.json"] = b"{}"
        pages.save(written)
    document = prepare(written.getvalue(), made.RECORD, *made.BOXES)
    pdf = made.forged_lead(made.forged_technician(document))
    assert "does not hold exactly one attachment record.json" in found(pdf, roster)


def test_certificate_that_is_not_for_signing_is_found(roster, monkeypatch):
    # The authority's mistake: only the library looks at what a certificate is for.
    monkeypatch.setattr(authority, "_key_usage", lambda *_: AGREEMENT_ONLY)
    other = made.signer("Cy Hale", Role.CREW_LEAD)
    findings = found(made.forged_lead(made.signed(), by=other), roster)
    assert "crew lead’s signature is not acceptable: its certificate was refused" in findings


def test_one_key_for_both_is_found(roster):
    key = new_key()
    first = made.signer("Ada Moor", Role.TECHNICIAN, key=key)
    second = made.signer("Bo Lind", Role.CREW_LEAD, key=key)
    pdf = made.forged_lead(made.forged_technician(made.document(), by=first), by=second)
    assert found(pdf, roster).startswith("Both signatures were made with one key")


def test_one_person_for_both_is_found(roster):
    second = made.signer("ADA MOOR", Role.CREW_LEAD)
    pdf = made.forged_lead(made.signed(), by=second)
    assert found(pdf, roster).startswith("ADA MOOR signed for both")


def test_technicians_certificate_for_both_is_found(roster):
    pdf = made.forged_lead(made.signed(), by=made.technician())
    findings = found(pdf, roster)
    assert "certificate of Ada Moor (technician) is not one of a crew lead" in findings
    assert "one key" in findings


def test_lead_in_the_place_of_the_technician_is_found(roster):
    other = made.signer("Cy Hale", Role.CREW_LEAD)
    pdf = made.forged_lead(made.forged_technician(made.document(), by=other))
    assert "certificate of Cy Hale (crew lead) is not one of a technician" in found(pdf, roster)


def test_signatures_in_the_wrong_order_are_found(roster):
    pdf = made.forged_technician(made.forged_lead(made.document()))
    assert "The signatures are not the technician’s, then the crew lead’s" in found(pdf, roster)


def test_lead_alone_is_found(roster):
    assert "The signatures are not" in found(made.forged_lead(made.document()), roster)


def test_lead_signing_before_the_technician_is_found(roster):
    pdf = made.forged_lead(made.signed(), at=made.SIGNED - timedelta(minutes=1))
    assert "The crew lead signed before the technician" in found(pdf, roster)


@pytest.mark.parametrize("days", [-1, 731], ids=["not yet in force", "expired"])
def test_certificate_used_outside_its_time_is_found(days, roster):
    at = made.FOUNDED + timedelta(days=days)
    pdf = made.forged_lead(made.forged_technician(made.document(), at=at), at=at)
    findings = found(pdf, made.roster(lasts=timedelta(days=3000)))
    assert "certificate of Ada Moor (technician) counts from 2026-03-02 to 2028-03-01" in findings
    assert "certificate of Bo Lind (crew lead) counts from" in findings


def test_other_authority_of_the_same_name_is_found(roster):
    other = found_authority("Example grid office", made.FOUNDED)
    first = made.signer("Ada Moor", Role.TECHNICIAN, by=other)
    second = made.signer("Bo Lind", Role.CREW_LEAD, by=other)
    pdf = made.forged_lead(made.forged_technician(made.document(), by=first), by=second)
    assert verify(pdf, made.roster(by=other)).sound
    findings = found(pdf, roster)
    assert "certificate of Ada Moor (technician) is not from the trusted authority" in findings
    assert "certificate of Bo Lind (crew lead) is not from the trusted authority" in findings


def test_lead_whose_certificate_was_revoked_before_signing_is_found():
    serial = made.lead().person.certificate.serial_number
    revoked = Revoked(serial, made.CLOSED - timedelta(days=1))
    (finding,) = verify(made.closed(), made.roster(revoked)).findings
    assert "certificate of Bo Lind (crew lead) was revoked on 2026-05-03" in finding


def test_signature_of_a_lost_key_does_not_count_whenever_it_was_made():
    # Who holds the key also sets the clock: the time of such a signature proves nothing.
    serial = made.technician().person.certificate.serial_number
    revoked = Revoked(serial, made.CLOSED + timedelta(days=40), key_lost=True)
    (finding,) = verify(made.closed(), made.roster(revoked)).findings
    assert "certificate of Ada Moor (technician) was revoked on 2026-06-13" in finding


def test_person_who_left_later_has_still_signed():
    serial = made.lead().person.certificate.serial_number
    revoked = Revoked(serial, made.CLOSED + timedelta(days=40))
    assert verify(made.closed(), made.roster(revoked)).sound


def test_list_that_ran_out_before_the_signature_is_found():
    findings = verify(made.closed(), made.roster(lasts=timedelta(days=30))).findings
    assert len(findings) == 2
    assert findings[0].startswith(
        "The list of revoked certificates ran out before the signature of Ada Moor"
    )


def test_list_made_after_the_signature_serves(roster):
    later = made.roster(lasts=timedelta(days=3000))
    assert verify(made.closed(), later).sound


def test_cutting_back_to_the_first_signature_is_found(roster):
    assert made.closed().startswith(made.signed())
    assert "The crew lead has not signed" in found(made.closed()[: len(made.signed())], roster)


@pytest.mark.parametrize("tail", [b"\n", b" ", b"\0", b"%%EOF\n", b"%PDF-1.7\n"], ids=repr)
def test_bytes_after_the_end_are_found(tail, roster):
    assert not verify(made.closed() + tail, roster).sound


def test_file_cut_anywhere_is_never_sound(roster):
    pdf = made.closed()
    lengths = [*range(5, len(pdf), 251), len(pdf) - 1]
    assert [length for length in lengths if verify(pdf[:length], roster).sound] == []


@pytest.mark.parametrize("flip", [0x01, 0x20], ids=["another character", "another case"])
def test_byte_changed_anywhere_is_never_sound(flip, roster):
    pdf = made.closed()
    places = range(5, len(pdf), 97)
    assert [place for place in places if verify(changed(pdf, place, flip), roster).sound] == []


def test_filling_of_the_last_signature_cannot_hold_anything(roster):
    # No signature covers its own place in the file: here only our own check sees a change.
    pdf = made.closed()
    end = pdf.index(b">", pdf.rindex(b"/Contents <3082")) - 1
    for place in (end, end - 1, end - 2000):
        findings = found(changed(pdf, place, 0x01), roster)
        assert "crew lead’s signature holds bytes that signing does not write" in findings


def test_case_of_the_last_signature_cannot_be_changed(roster):
    pdf = made.closed()
    begins = pdf.rindex(b"<3082")
    place = next(place for place in range(begins, len(pdf)) if pdf[place] in b"ABCDEF")
    findings = found(changed(pdf, place, 0x20), roster)
    assert "crew lead’s signature holds bytes that signing does not write" in findings


@pytest.mark.parametrize("text", [b"", b"%PDF", b"PK\x03\x04", b"{}"], ids=repr)
def test_file_that_is_no_pdf_is_refused(text, roster):
    with pytest.raises(UnreadableRecordError, match="not a PDF; choose the record"):
        verify(text, roster)


@pytest.mark.parametrize("filling", [b"", b"\0" * 4000], ids=len)
def test_pdf_with_nothing_readable_in_it_is_damaged(filling, roster):
    assert verify(b"%PDF-1.7\n" + filling + b"%%EOF\n", roster).findings == (DAMAGED,)
    (finding,) = verify(b"%PDF-1.7\n" + filling, roster).findings
    assert "it was cut short, or something was added after its end" in finding


def test_library_logs_nothing_and_is_left_as_it_was(roster, caplog):
    logger = logging.getLogger("pyhanko")
    before = logger.level
    verify(made.closed() + b"\n", roster)
    assert caplog.records == []
    assert logger.level == before


def changed(pdf, place, flip):
    return pdf[:place] + bytes([pdf[place] ^ flip]) + pdf[place + 1 :]
