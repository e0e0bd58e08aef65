"""A signature says what its certificate says, covers everything, and is made as ours are."""

from dataclasses import replace

import pytest
from asn1crypto.cms import CertificateChoices, ContentInfo, SignerIdentifier
from asn1crypto.x509 import Certificate
from cryptography.hazmat.primitives.serialization import Encoding
from pyhanko.sign.fields import FieldMDPAction, FieldMDPSpec, MDPPerm
from pyhanko.sign.signers.cms_embedder import SigMDPSetup
from pyhanko.sign.signers.pdf_cms import PdfCMSSignedAttributes

from fieldapp.crew.authority import new_key
from fieldapp.crew.people import Role
from fieldapp.record.sealing import sealed
from fieldapp.record.structure import LEAD_FIELD
from fieldapp.record.verification import verify
from fieldapp.record.writers import RevisionWriter
from tests.record import specimen as made
from tests.record.inspection.resigning import (
    last_place,
    proof_in,
    resigned,
    with_proof,
    with_ranges,
)

REASON = b"/Reason (Reviewed and signed off)"
LOCKS = SigMDPSetup(
    "sha256", field_lock=FieldMDPSpec(FieldMDPAction.ALL), docmdp_perms=MDPPerm.NO_CHANGES
)
ALSO_IN_THE_PROOF = PdfCMSSignedAttributes(signing_time=made.CLOSED)


def changed(old, new):
    """Return the record with words of the lead's signature changed, and signed again."""
    assert made.closed().count(old) == 1
    return resigned(made.closed().replace(old, new.ljust(len(old))), made.lead())


def test_making_a_signature_again_gives_a_sound_record(found):
    assert found(resigned(made.closed(), made.lead())) == ""


def test_other_name_than_the_certificates_is_found(found):
    other = replace(made.lead(), person=replace(made.lead().person, name="Cy Hale"))
    pdf = made.forged_lead(made.signed(), by=other)
    assert "signature shows the name Cy Hale, its certificate says Bo Lind" in found(pdf)


def test_no_name_is_found(found):
    assert "signature shows the name None" in found(changed(b"/Name (Bo Lind)", b""))


def test_other_meaning_is_found(found):
    pdf = sealed(
        RevisionWriter(made.signed()), LEAD_FIELD, made.lead(), made.CLOSED, "Seen only", LOCKS
    )
    assert "crew lead’s signature says “Seen only”, which ours never does" in found(pdf)


@pytest.mark.parametrize("key", [b"/Location", b"/ContactInfo", b"/Prop_Build"])
def test_more_words_beside_a_signature_are_found(key, found):
    findings = found(changed(REASON, key + b" (Sorrel Pass)"))
    assert f"crew lead’s signature shows more than ours do ({key.decode()})" in findings


@pytest.mark.parametrize("digest", ["sha224", "sha384", "sha512", "sha3_256"])
def test_other_method_is_found(digest, found):
    pdf = resigned(made.closed(), made.lead(), digest=digest)
    said = f"crew lead’s signature was made by another method than ours ({digest}"
    assert said in found(pdf)


def test_time_told_twice_is_found(found):
    # One in the file's words, one in the proof: viewers show the one or the other.
    pdf = resigned(
        made.closed(), made.lead(), use_pades=False, signed_attr_settings=ALSO_IN_THE_PROOF
    )
    assert "crew lead’s signature holds bytes that signing does not write" in found(pdf)


@pytest.mark.parametrize(
    "ranges",
    [
        lambda begins, ends, size: (0, begins, ends + 40, size - ends - 40),
        lambda begins, ends, size: (0, begins - 40, ends, size - ends),
        lambda begins, ends, size: (0, begins, ends, size - ends - 40),
        lambda begins, ends, size: (9, begins - 9, ends, size - ends),
        lambda begins, ends, size: (0, begins, ends, size - ends, size, 0),
        lambda begins, ends, size: (0, 40, 90, begins - 90, ends, size - ends),
    ],
    ids=[
        "hole behind",
        "hole before",
        "end left out",
        "beginning left out",
        "six",
        "hole in pages",
    ],
)
def test_part_that_a_signature_leaves_out_is_found(ranges, found):
    whole = made.closed()
    begins, ends = last_place(whole)
    told = with_ranges(whole, *ranges(begins, ends, len(whole)))
    pdf = resigned(told, made.lead(), place=(begins, ends))
    assert "crew lead’s signature leaves out a part of the file" in found(pdf)


def test_signature_moved_from_another_record_is_found(found):
    other = made.forged_lead(made.forged_technician(made.document_of(leak_rate="0.002")))
    pdf = with_proof(made.closed(), proof_in(other))
    assert "The document was changed after the crew lead signed it" in found(pdf)


def test_revision_moved_from_another_record_is_found(roster):
    other = made.forged_technician(made.document_of(leak_rate="0.002"))
    closed = made.forged_lead(other)
    assert not verify(made.signed() + closed[len(other) :], roster).sound


def test_certificate_of_another_role_put_in_is_found(found):
    key = new_key()
    technician = made.signer("Bo Lind", Role.TECHNICIAN, key=key)
    lead = made.signer("Bo Lind", Role.CREW_LEAD, key=key)
    signed = made.forged_lead(made.signed(), by=technician)
    proof = proof_in(signed)
    certificate = Certificate.load(lead.person.certificate.public_bytes(Encoding.DER))
    choice = CertificateChoices(name="certificate", value=certificate)
    proof["content"]["certificates"] = [choice]
    named = {"issuer": certificate.issuer, "serial_number": certificate.serial_number}
    for made_by in proof["content"]["signer_infos"]:
        made_by["sid"] = SignerIdentifier({"issuer_and_serial_number": named})
    assert "lacks the time or the certificate of who made it" in found(with_proof(signed, proof))


def test_signature_without_its_certificate_is_found(found):
    proof = proof_in(made.closed())
    proof["content"]["certificates"] = []
    assert "cannot be read, or lacks the time or the certificate" in found(
        with_proof(made.closed(), proof)
    )


def test_signature_that_is_no_signature_is_found(found):
    proof = ContentInfo({"content_type": "data", "content": b"Bo Lind"})
    assert "cannot be read, or lacks the time or the certificate" in found(
        with_proof(made.closed(), proof)
    )


def test_filling_beside_a_signature_is_found(found):
    pdf = with_proof(made.closed(), proof_in(made.closed()), fill=b"F")
    assert "crew lead’s signature holds bytes that signing does not write" in found(pdf)


def test_lead_who_certifies_in_place_of_approving_is_found(found):
    pdf = made.forged_lead(made.signed(), rules=made.certifying(MDPPerm.NO_CHANGES))
    assert "crew lead’s signature permits other changes than ours do" in found(pdf)


def test_lead_who_locks_one_field_only_is_found(found):
    lock = FieldMDPSpec(FieldMDPAction.INCLUDE, fields=["Technician"])
    pdf = made.forged_lead(made.signed(), rules=SigMDPSetup("sha256", field_lock=lock))
    assert "crew lead’s signature permits other changes than ours do" in found(pdf)


def test_certification_taken_away_by_the_lead_is_found(found):
    def take_away(writer):
        del writer.root["/Perms"]
        writer.update_root()

    findings = found(made.forged_lead(made.signed(), take_away))
    assert "The crew lead’s revision changed what the document permits" in findings


def test_signature_without_a_time_is_found(found):
    begins = made.closed().rindex(b"/M (")
    changed = made.closed()[:begins] + b"/X (" + made.closed()[begins + 4 :]
    assert "lacks the time" in found(resigned(changed, made.lead()))


def test_other_properties_that_the_lead_leads_to_are_found(found):
    begins = made.closed().rindex(b"/Info ")
    ends = made.closed().index(b" 0 R", begins)
    other = b"/Info 1".ljust(ends - begins)
    changed = made.closed()[:begins] + other + made.closed()[ends:]
    findings = found(resigned(changed, made.lead()))
    assert "The crew lead’s revision leads to another document" in findings
