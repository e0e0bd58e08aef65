"""Both signatures hold before readers that know nothing of this program; the rest is refused."""

import io
import subprocess
import sys
from dataclasses import replace
from datetime import timedelta

import pikepdf
import pytest
from asn1crypto.cms import ContentInfo
from cryptography.hazmat.primitives.serialization import Encoding
from pyhanko.keys import load_certs_from_pemder_data
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.diff_analysis import ModificationLevel
from pyhanko.sign.fields import FieldMDPAction, MDPPerm, SigSeedSubFilter
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko.sign.validation.status import SignatureCoverageLevel
from pyhanko_certvalidator import ValidationContext

from fieldapp.crew.authority import found_authority, new_key
from fieldapp.crew.people import Role
from fieldapp.record.signing import CannotSignError, sign_as_lead, sign_as_technician
from tests.record import specimen as made


@pytest.fixture(scope="module")
def signatures():
    return PdfFileReader(io.BytesIO(made.closed())).embedded_signatures


@pytest.fixture(scope="module")
def verdicts(signatures):
    (root,) = load_certs_from_pemder_data(made.office().certificate.public_bytes(Encoding.PEM))
    return [
        validate_pdf_signature(signature, ValidationContext(trust_roots=[root], moment=made.CLOSED))
        for signature in signatures
    ]


def poppler_on(pdf, folder):
    path = folder / "record.pdf"
    path.write_bytes(pdf)
    shown = subprocess.run(["pdfsig", path], check=True, capture_output=True, text=True)
    return shown.stdout


def test_poppler_finds_both_signatures_and_the_last_over_all(tmp_path):
    shown = poppler_on(made.closed(), tmp_path)
    assert shown.count("Signature Validation: Signature is Valid.") == 2
    first, second = shown.split("Signature #")[1:]
    assert "Signature Field Name: Technician" in first
    assert "Not total document signed" in first
    assert "Signature Field Name: CrewLead" in second
    assert "  - Total document signed" in second


def test_poppler_reads_who_signed_when_and_how(tmp_path, monkeypatch):
    monkeypatch.setenv("TZ", "UTC")
    first, second = poppler_on(made.closed(), tmp_path).split("Signature #")[1:]
    assert "Certificate Common Name: Ada Moor" in first
    assert "Signing Time: May 04 2026 12:00:00" in first
    assert "Certificate Common Name: Bo Lind" in second
    assert "Signing Time: May 04 2026 12:09:00" in second
    for signature in (first, second):
        assert "Signing Hash Algorithm: SHA-256" in signature
        assert "Signature Type: ETSI.CAdES.detached" in signature


def test_poppler_knows_what_the_certificates_are_for(tmp_path):
    # Without e-mail protection among the purposes it reports an unknown issue instead.
    shown = poppler_on(made.closed(), tmp_path)
    assert shown.count("Certificate Validation: Certificate issuer is unknown.") == 2


def test_poppler_sees_a_changed_figure(tmp_path):
    shown = poppler_on(made.closed().replace(b"0.012 Pa", b"0.002 Pa"), tmp_path)
    assert shown.count("Digest Mismatch") == 2


def test_library_finds_both_signatures_good(verdicts):
    assert [verdict.bottom_line for verdict in verdicts] == [True, True]
    assert [verdict.trusted for verdict in verdicts] == [True, True]


def test_library_sees_nothing_but_form_filling_after_the_technician(verdicts):
    technician, lead = verdicts
    assert technician.coverage is SignatureCoverageLevel.ENTIRE_REVISION
    assert technician.modification_level is ModificationLevel.FORM_FILLING
    assert lead.coverage is SignatureCoverageLevel.ENTIRE_FILE
    assert lead.modification_level is ModificationLevel.NONE


def test_technician_certifies_and_lead_locks_everything(signatures):
    technician, lead = signatures
    assert technician.docmdp_level is MDPPerm.FILL_FORMS
    assert lead.docmdp_level is MDPPerm.NO_CHANGES
    assert lead.fieldmdp.action is FieldMDPAction.ALL


def test_signatures_are_pades_baseline(signatures):
    # ETSI EN 319 142-1 V1.2.1 (2024), 6.3: the certificate is bound by a signed attribute,
    # and the time stands in the dictionary, not among the signed attributes.
    for signature in signatures:
        assert signature.sig_object["/SubFilter"] == SigSeedSubFilter.PADES.value
        signer = ContentInfo.load(signature.pkcs7_content)["content"]["signer_infos"][0]
        names = {attribute["type"].native for attribute in signer["signed_attrs"]}
        assert {"content_type", "message_digest", "signing_certificate_v2"} <= names
        assert "signing_time" not in names
        assert signer["signature_algorithm"].native["algorithm"] == "sha256_ecdsa"
        assert "/M" in signature.sig_object


def test_signature_says_what_it_means(signatures):
    # 21 CFR 11.50(a): the printed name, the date and time, and the meaning.
    technician, lead = (signature.sig_object for signature in signatures)
    assert (technician["/Name"], technician["/Reason"]) == (
        "Ada Moor",
        "Carried out and recorded as written",
    )
    assert (lead["/Name"], lead["/Reason"]) == ("Bo Lind", "Reviewed and signed off")


def test_signing_leaves_what_is_there_byte_for_byte():
    assert made.signed().startswith(made.document())
    assert made.closed().startswith(made.signed())


def test_signed_record_has_no_fault_in_its_structure():
    with pikepdf.open(io.BytesIO(made.closed())) as pdf:
        assert pdf.check_pdf_syntax() == []


def test_longest_names_fit_into_a_signature():
    office = found_authority("Ö" * 32, made.FOUNDED)
    technician = made.signer("Ä" * 32, Role.TECHNICIAN, by=office)
    assert sign_as_technician(made.document(), technician, made.SIGNED)


def refused(sign, document, signer, at):
    with pytest.raises(CannotSignError) as refusal:
        sign(document, signer, at)
    return str(refusal.value)


def test_lead_cannot_sign_in_the_place_of_the_technician():
    assert refused(sign_as_technician, made.document(), made.lead(), made.SIGNED) == (
        "Bo Lind cannot sign: the certificate says crew lead, this signature is the technician’s"
    )


def test_technician_cannot_sign_in_the_place_of_the_lead():
    assert "this signature is the crew lead’s" in refused(
        sign_as_lead, made.signed(), made.technician(), made.CLOSED
    )


def test_lead_cannot_sign_before_the_technician():
    assert "the technician has not signed yet" in refused(
        sign_as_lead, made.document(), made.lead(), made.CLOSED
    )


@pytest.mark.parametrize("pdf", [made.signed, made.closed])
def test_technician_cannot_sign_twice(pdf):
    assert "signed already" in refused(sign_as_technician, pdf(), made.technician(), made.CLOSED)


def test_lead_cannot_sign_twice():
    assert "signed off already" in refused(sign_as_lead, made.closed(), made.lead(), made.CLOSED)


def test_one_key_cannot_sign_for_both():
    lead = made.signer("Bo Lind", Role.CREW_LEAD, key=made.technician().key)
    assert "ask another lead" in refused(sign_as_lead, made.signed(), lead, made.CLOSED)


def test_one_person_cannot_sign_for_both():
    lead = made.signer("Ada Moor", Role.CREW_LEAD)
    assert "ask another lead" in refused(sign_as_lead, made.signed(), lead, made.CLOSED)


def test_lead_of_another_office_cannot_sign():
    lead = made.signer("Bo Lind", Role.CREW_LEAD, by=found_authority("Other", made.FOUNDED))
    assert "from another office" in refused(sign_as_lead, made.signed(), lead, made.CLOSED)


def test_lead_cannot_sign_a_record_changed_since_the_technician_signed():
    pdf = made.revised(made.signed(), made.swap_page)
    assert "not as the technician signed it: The file was changed" in refused(
        sign_as_lead, pdf, made.lead(), made.CLOSED
    )


def test_lead_cannot_sign_at_an_earlier_time():
    at = made.SIGNED - timedelta(seconds=1)
    assert "technician signed at a later time" in refused(
        sign_as_lead, made.signed(), made.lead(), at
    )


@pytest.mark.parametrize("days", [-1, 731])
def test_certificate_out_of_its_time_cannot_sign(days):
    at = made.FOUNDED + timedelta(days=days)
    assert "the certificate counts from 2026-03-02 to 2028-03-01; check the tablet's clock" in (
        refused(sign_as_technician, made.document(), made.technician(), at)
    )


def test_key_of_somebody_else_cannot_sign():
    signer = replace(made.technician(), key=new_key())
    assert "choose the right key file" in refused(
        sign_as_technician, made.document(), signer, made.SIGNED
    )


def test_signing_library_is_loaded_only_when_somebody_signs():
    started = "import sys, fieldapp.record.signing; sys.exit('pyhanko' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", started], check=False).returncode == 0
