"""What we call a good record, three other programs call good too.

pdfsig of poppler, qpdf's check of the structure, and pyHanko's own validator with its own ways of
asking for revocation.
"""

import json
import shutil
import subprocess
from importlib.metadata import version
from io import BytesIO

import pikepdf
import pypdf
import pytest
from asn1crypto.crl import CertificateList
from asn1crypto.x509 import Certificate
from cryptography.hazmat.primitives.serialization import Encoding
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko.sign.validation.status import SignatureCoverageLevel
from pyhanko_certvalidator import ValidationContext

from fieldapp.record.rendering import record_of
from fieldapp.record.verification import verify
from tests.record import small_job
from tests.record import specimen as made

SOUND_FOR_QPDF = 0


@pytest.fixture(scope="module")
def record():
    """Return the signed record of a small job, and its data."""
    crew = small_job.signed_off()
    data, pages = record_of(crew.job, crew.now, small_job.HEAD, version("fieldapp"))
    return made.closed_by_crew(pages, crew.job), data


@pytest.fixture(scope="module")
def path(record, tmp_path_factory):
    kept = tmp_path_factory.mktemp("good") / "record.pdf"
    kept.write_bytes(record[0])
    return kept


def said_by(*command):
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return done.returncode, done.stdout + done.stderr


def test_we_call_it_sound(record, roster):
    assert verify(record[0], roster).findings == ()


def test_poppler_finds_two_valid_signatures_the_last_over_everything(path):
    # pdfsig exits 0 even on a mismatch, so its words are what counts.
    _, words = said_by("pdfsig", str(path))
    first, second = words.split("Signature #2:")
    for part, name in ((first, small_job.TECHNICIAN), (second, small_job.LEAD)):
        assert "Signature Validation: Signature is Valid." in part
        assert f"Signer Certificate Common Name: {name}" in part
        assert "Signing Hash Algorithm: SHA-256" in part
        assert "Signature Type: ETSI.CAdES.detached" in part
    assert "Not total document signed" in first
    assert "- Total document signed" in second


def test_qpdf_finds_no_fault_in_the_structure(path):
    code, words = said_by("qpdf", "--check", str(path))
    assert (code, "WARNING" in words) == (SOUND_FOR_QPDF, False), words
    assert "No syntax or stream encoding errors found" in words


@pytest.mark.parametrize("mode", ["require", "hard-fail", "soft-fail"])
def test_validator_of_pyhanko_finds_both_signatures_good(record, roster, mode):
    context = {
        "trust_roots": [Certificate.load(roster.authority.public_bytes(Encoding.DER))],
        "crls": [CertificateList.load(roster.revocation_list.public_bytes(Encoding.DER))],
        "allow_fetching": False,
        "revocation_mode": mode,
        "retroactive_revinfo": True,
    }
    signatures = PdfFileReader(BytesIO(record[0]), strict=True).embedded_signatures
    assert len(signatures) == 2
    for signature in signatures:
        moment = signature.self_reported_timestamp
        status = validate_pdf_signature(signature, ValidationContext(**context, moment=moment))
        assert status.bottom_line, status.pretty_print_details()
        assert status.docmdp_ok
    assert signatures[-1].coverage is SignatureCoverageLevel.ENTIRE_FILE


def test_three_programs_take_the_same_data_out_of_it(record, path, tmp_path):
    pdf, data = record
    with pikepdf.open(BytesIO(pdf)) as opened:
        assert opened.attachments["record.json"].get_file().read_bytes() == data
    assert pypdf.PdfReader(BytesIO(pdf)).attachments["record.json"] == [data]
    said_by("pdfdetach", "-saveall", "-o", str(tmp_path), str(path))
    assert (tmp_path / "record.json").read_bytes() == data
    assert json.loads(data)["heading"]["program"] == f"fieldapp {version('fieldapp')}"


@pytest.mark.parametrize("program", ["pdfsig", "qpdf", "pdfdetach"])
def test_the_other_programs_are_there(program):
    assert shutil.which(program), f"install what tests/run lists: {program} is missing"
