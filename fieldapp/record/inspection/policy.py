"""The policy of verification: everything that must hold before a record counts as sound."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from io import BytesIO
from typing import Any

from pyhanko.pdf_utils.decode_limits import DecodeLimits, StreamDecodeLimits
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.fields import FieldMDPAction, MDPPerm
from pyhanko.sign.validation.errors import SignatureValidationError
from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature
from pyhanko.sign.validation.status import PdfSignatureStatus, SignatureCoverageLevel

from fieldapp.crew.people import Role, issuer_of, name_of
from fieldapp.crew.roster import Roster
from fieldapp.record.findings import Findings, Pages, SignedBy
from fieldapp.record.inspection.attachment import attached, data_findings, record_in
from fieldapp.record.inspection.certificates import certificate_findings, judged, time_notes
from fieldapp.record.inspection.document import document_findings
from fieldapp.record.inspection.layout import end_findings, listing_findings
from fieldapp.record.inspection.pages import Result, compared
from fieldapp.record.inspection.parts import part_findings
from fieldapp.record.inspection.proofs import coverage_findings, proof_findings, signed_by
from fieldapp.record.inspection.revisions import hidden_changes, unsigned_changes
from fieldapp.record.structure import LEAD_FIELD, TECHNICIAN_FIELD

_ORDER = ((TECHNICIAN_FIELD, Role.TECHNICIAN), (LEAD_FIELD, Role.CREW_LEAD))
_AGAIN = "ask the crew for the record as it was signed"
_LEAD_MISSING = "The crew lead has not signed; the record is not closed until the lead signs it."
_NOBODY = "Nobody has signed; the technician signs first, then the crew lead."
_OTHERS = f"The signatures are not the technician’s, then the crew lead’s; {_AGAIN}."
_UNREADABLE = (
    f"A signature cannot be read, or lacks the time or the certificate of who made it; {_AGAIN}."
)
_FIELDS_BELOW = f"The fields of the document have fields below them; {_AGAIN}."
_LARGEST_PART = 64 * 2**20  # of a part unpacked; the longest records stay below a tenth of it
_NO_RECORD = f"The attached file is no record of this program; {_AGAIN}."


def examined(
    pdf: bytes,
    roster: Roster | None,
    now: datetime | None,
    found: list[str],
    *,
    compares_pages: bool,
) -> Findings:
    """Return the findings about a PDF.

    A file that is damaged may raise anything; `found` holds what was found until then.
    """
    found += end_findings(pdf)
    limits = DecodeLimits(per_stream=StreamDecodeLimits(max_output_size=_LARGEST_PART))
    reader = PdfFileReader(BytesIO(pdf), strict=True, decode_limits=limits)
    found += listing_findings(pdf, reader)
    if reader.encrypted:
        return Findings(tuple(found))
    if _has_fields_below(reader):
        return Findings((*found, _FIELDS_BELOW))
    try:
        signatures = reader.embedded_signatures
        signers = tuple(signed_by(signature) for signature in signatures)
    except (SignatureValidationError, ValueError, TypeError):
        return Findings((*found, _UNREADABLE))
    if problem := _who_signed(signatures):
        return Findings((*found, problem))
    found += document_findings(reader)
    found += part_findings(reader) if compares_pages else ()
    found += _of_file(reader, signatures)
    found += _of_people(signers)
    for signature, signed, (_, role) in zip(signatures, signers, _ORDER, strict=False):
        found += _of_signature(pdf, signature, signed, role, roster)
    content, record = _data(reader, signers, found)
    pages = Result(Pages.NOT_COMPARED)
    if record is not None and compares_pages and not found:
        pages = compared(pdf, reader, content, record)
        found += [pages.finding] if pages.finding else []
    notes = (*([pages.note] if pages.note else []), *time_notes(signers, roster, now))
    seen = Findings(tuple(found), signers, record, notes=notes, pages=pages.pages)
    return _concluded(seen, roster)


def _has_fields_below(reader: PdfFileReader) -> bool:
    """Return whether a field has others below it: a few can list each other millions of times."""
    try:
        fields = reader.root["/AcroForm"]["/Fields"]
    except KeyError:
        return False
    return any("/Kids" in fields[place] for place in range(len(fields)))


def _who_signed(signatures: list[EmbeddedPdfSignature]) -> str:
    """Return what is wrong with who signed, or nothing."""
    if not signatures:
        return _NOBODY
    expected = [field for field, _ in _ORDER][: len(signatures)]
    return "" if [one.field_name for one in signatures] == expected else _OTHERS


def _of_file(reader: PdfFileReader, signatures: list[EmbeddedPdfSignature]) -> Iterator[str]:
    """Check the revisions: the document, then one for each signature, then nothing."""
    revisions = reader.xrefs.total_revisions
    if revisions != len(signatures) + 1:
        unsigned = unsigned_changes(reader, {one.signed_revision for one in signatures})
        yield (
            f"The file was changed {revisions - 1} times, for {len(signatures)} signatures; what "
            f"nobody signed replaced {unsigned}; {_AGAIN}."
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
    yield from coverage_findings(signature, role)
    status = judged(signature, signed, roster)
    if not (status.intact and status.valid):
        yield f"The document was changed after the {role} signed it; {_AGAIN}."
        return
    yield from proof_findings(signature, signed, role, pdf)
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
    return "its field asks for another one"


def _data(
    reader: PdfFileReader, signers: tuple[SignedBy, ...], found: list[str]
) -> tuple[bytes, dict[str, Any] | None]:
    """Return the attached data, as it is and as a record, adding what is wrong with it."""
    content, problems = attached(reader)
    found += problems
    record = record_in(content)
    if record is not None:
        found += data_findings(record, signers)
    elif not problems:
        found.append(_NO_RECORD)
    return content, record


def _concluded(found: Findings, roster: Roster | None) -> Findings:
    """Return the findings with whose word was taken, and with what is still to come."""
    missing = len(found.signers) < len(_ORDER)
    authority = f"{name_of(roster.authority)}, key {roster.fingerprint}" if roster else ""
    return replace(
        found,
        findings=(
            *found.findings,
            *([_LEAD_MISSING] if missing else []),
            *([] if roster else [_unknown(found.signers)]),
        ),
        authority=authority,
        awaits_lead=missing and found.sound,
    )


def _unknown(signers: tuple[SignedBy, ...]) -> str:
    name, fingerprint = issuer_of(signers[0].certificate)
    return (
        f"The authority of the signers is not known here: {name}, key {fingerprint}; "
        "give the trust folder of your office."
    )
