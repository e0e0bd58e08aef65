"""The policy of verification: everything that must hold before a record counts as sound."""

import hashlib
import json
from collections.abc import Iterator
from io import BytesIO
from typing import Any

from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.fields import FieldMDPAction, MDPPerm
from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature
from pyhanko.sign.validation.status import PdfSignatureStatus, SignatureCoverageLevel

from fieldapp.crew.people import Role, issuer_of, name_of
from fieldapp.crew.roster import Roster
from fieldapp.record.findings import Findings, SignedBy
from fieldapp.record.inspection.proofs import (
    certificate_findings,
    judged,
    signed_by,
    written_as_we_do,
)
from fieldapp.record.inspection.revisions import hidden_changes
from fieldapp.record.structure import ATTACHMENT, LEAD_FIELD, TECHNICIAN_FIELD, attachments

_ORDER = ((TECHNICIAN_FIELD, Role.TECHNICIAN), (LEAD_FIELD, Role.CREW_LEAD))
_AGAIN = "ask the crew for the record as it was signed"
_LEAD_MISSING = "The crew lead has not signed; the record is not closed until the lead signs it."


def examined(pdf: bytes, roster: Roster | None) -> Findings:
    """Return the findings about a PDF; a file that is damaged may raise anything."""
    reader = PdfFileReader(BytesIO(pdf), strict=True)
    signatures = reader.embedded_signatures
    if [one.field_name for one in signatures] != [field for field, _ in _ORDER][: len(signatures)]:
        return Findings(
            (f"The signatures are not the technician’s, then the crew lead’s; {_AGAIN}.",)
        )
    if not signatures:
        return Findings(("Nobody has signed; the technician signs first, then the crew lead.",))
    signers = tuple(signed_by(signature) for signature in signatures)
    findings = [*_of_file(reader, signatures), *_of_people(signers)]
    for signature, signed, (_, role) in zip(signatures, signers, _ORDER, strict=False):
        findings += _of_signature(pdf, signature, signed, role, roster)
    record, problems = _attached(reader)
    findings += problems
    missing = [] if len(signers) == len(_ORDER) else [_LEAD_MISSING]
    unknown = [] if roster else [_unknown(signers)]
    authority = f"{name_of(roster.authority)}, key {roster.fingerprint}" if roster else ""
    return Findings(
        (*findings, *missing, *unknown), signers, record, authority, bool(missing) and not findings
    )


def _of_file(reader: PdfFileReader, signatures: list[EmbeddedPdfSignature]) -> Iterator[str]:
    """Check the revisions: the document, then one for each signature, then nothing."""
    revisions = reader.xrefs.total_revisions
    if revisions != len(signatures) + 1:
        yield (
            f"The file was changed {revisions - 1} times, for {len(signatures)} signatures; "
            f"{_AGAIN}."
        )
        return
    for number, (field, role) in enumerate(_ORDER[: len(signatures)], start=1):
        yield from hidden_changes(reader, number, field, role)
    if signatures[-1].evaluate_signature_coverage() is not SignatureCoverageLevel.ENTIRE_FILE:
        yield f"The last signature does not cover the whole file; {_AGAIN}."


def _of_people(signers: tuple[SignedBy, ...]) -> Iterator[str]:
    """Check that two people signed, with two keys, one after the other."""
    if len(signers) < len(_ORDER):
        return
    technician, lead = signers
    if technician.fingerprint == lead.fingerprint:
        yield "Both signatures were made with one key; the crew lead must sign with their own."
    if technician.name.casefold() == lead.name.casefold():
        yield f"{lead.name} signed for both; the crew lead must be another person."
    if lead.time < technician.time:
        yield "The crew lead signed before the technician; check the tablet’s clock and sign again."


def _of_signature(
    pdf: bytes, signature: EmbeddedPdfSignature, signed: SignedBy, role: Role, roster: Roster | None
) -> Iterator[str]:
    """Check one signature: its bytes, what it permits, its certificate."""
    status = judged(signature, signed, roster)
    if not (status.intact and status.valid):
        yield f"The document was changed after the {role} signed it; {_AGAIN}."
        return
    if not written_as_we_do(signature, pdf):
        yield f"The {role}’s signature holds bytes that signing does not write; {_AGAIN}."
    if not _permits_what_it_should(signature):
        yield f"The {role}’s signature permits other changes than ours do; {_AGAIN}."
    problems = list(certificate_findings(signed, role, roster))
    yield from problems
    if not status.bottom_line and not problems:
        yield f"The {role}’s signature is not acceptable: {_reason(status)}; {_AGAIN}."


def _permits_what_it_should(signature: EmbeddedPdfSignature) -> bool:
    """Return whether the technician certifies for one more signature, and the lead for nothing."""
    if signature.field_name == LEAD_FIELD:
        lock = signature.fieldmdp
        return lock is not None and lock.action is FieldMDPAction.ALL
    permits = signature.reader.root.get("/Perms", {})
    certified = [permits.raw_get(key) for key in permits if key == "/DocMDP"]
    return (
        signature.docmdp_level is MDPPerm.FILL_FORMS
        and len(permits) == 1
        and certified == [signature.sig_field.raw_get("/V")]
    )


def _reason(status: PdfSignatureStatus) -> str:
    if not status.trusted:
        return f"its certificate was refused ({status.trust_problem_indic})"
    return "later changes break its rules"


def _attached(reader: PdfFileReader) -> tuple[dict[str, Any] | None, list[str]]:
    """Return the attached record, and what is wrong with it."""
    last = reader.xrefs.total_revisions - 1
    held = [
        attachments(reader.get_historical_resolver(revision).root) for revision in range(last + 1)
    ]
    if any([name for name, _ in files] != [ATTACHMENT] for files in held):
        return None, [f"The file does not hold exactly one attachment {ATTACHMENT}; {_AGAIN}."]
    if len({hashlib.sha256(files[0][1]).digest() for files in held}) != 1:
        return None, [f"The attached record is not the one that was signed; {_AGAIN}."]
    record = json.loads(held[0][0][1])
    return record, []


def _unknown(signers: tuple[SignedBy, ...]) -> str:
    name, fingerprint = issuer_of(signers[0].certificate)
    return (
        f"The authority of the signers is not known here: {name}, key {fingerprint}; "
        "give the trust folder of your office."
    )
