"""The two signatures of a record: the technician's certifies it, the crew lead's closes it.

Both are PAdES B-B (ETSI EN 319 142-1) with ECDSA on P-256 and SHA-256. The way of a record::

    roster = read_roster(folder)
    technician = unlock_signer(roster, keys, "Ada Moor", secret, now)
    lead = unlock_signer(roster, keys, "Bo Lind", other_secret, now)
    document = prepare(pages, record_json, Box(-1, 60, 100, 200, 50), Box(-1, 300, 100, 200, 50))
    signed = sign_as_technician(document, technician, at=now)
    closed = sign_as_lead(signed, lead, at=later)
    findings = verify(closed, roster)
    findings.sound, findings.findings, findings.signers, findings.record, findings.authority

`prepare` and `Box` are in `record.structure`, `verify` in `record.verification`, `read_roster` in
`crew.roster`, `unlock_signer` in `crew.unlocking`; `crew.enrolment.enrol_crew` makes a crew.
"""

from datetime import datetime

from cryptography import x509

from fieldapp.crew.people import Person, Role, Signer, issued_by, key_fingerprint
from fieldapp.errors import FieldAppError
from fieldapp.record.findings import Findings
from fieldapp.record.structure import (
    LEAD_FIELD,
    LEAD_MEANING,
    TECHNICIAN_FIELD,
    TECHNICIAN_MEANING,
)
from fieldapp.record.verification import verify


class CannotSignError(FieldAppError):
    """A person may not sign a record, or not now."""

    def __init__(self, name: str, problem: str) -> None:
        super().__init__(f"{name} cannot sign: {problem}")
        self.name = name
        self.problem = problem


def sign_as_technician(document: bytes, signer: Signer, at: datetime) -> bytes:
    """Return the prepared document with the technician's signature; only the lead may add one."""
    from pyhanko.sign.fields import MDPPerm
    from pyhanko.sign.signers.cms_embedder import SigMDPSetup

    from fieldapp.record.sealing import DIGEST, sealed
    from fieldapp.record.writers import RevisionWriter

    _check_person(signer, Role.TECHNICIAN, at)
    if verify(document, compares_pages=False).signers:
        raise CannotSignError(signer.person.name, "the record is signed already; make a new one")
    rules = SigMDPSetup(DIGEST, certify=True, docmdp_perms=MDPPerm.FILL_FORMS)
    return sealed(RevisionWriter(document), TECHNICIAN_FIELD, signer, at, TECHNICIAN_MEANING, rules)


def sign_as_lead(document: bytes, signer: Signer, at: datetime) -> bytes:
    """Return the technician's signed record with the crew lead's signature; nothing may follow."""
    from pyhanko.sign.fields import FieldMDPAction, FieldMDPSpec, MDPPerm
    from pyhanko.sign.signers.cms_embedder import SigMDPSetup

    from fieldapp.record.sealing import DIGEST, sealed
    from fieldapp.record.writers import RevisionWriter

    _check_person(signer, Role.CREW_LEAD, at)
    _check_ready(verify(document, compares_pages=False), signer.person, signer.authority, at)
    lock = FieldMDPSpec(FieldMDPAction.ALL)
    rules = SigMDPSetup(DIGEST, field_lock=lock, docmdp_perms=MDPPerm.NO_CHANGES)
    return sealed(RevisionWriter(document), LEAD_FIELD, signer, at, LEAD_MEANING, rules)


def _check_person(signer: Signer, role: Role, at: datetime) -> None:
    person = signer.person
    if person.role is not role:
        problem = f"the certificate says {person.role}, this signature is the {role}’s"
        raise CannotSignError(person.name, problem)
    if key_fingerprint(signer.key.public_key()) != person.fingerprint:
        problem = "the key is not the one of the certificate; choose the right key file"
        raise CannotSignError(person.name, problem)
    begins, ends = person.certificate.not_valid_before_utc, person.certificate.not_valid_after_utc
    if not begins <= at <= ends:
        problem = (
            f"the certificate counts from {begins:%Y-%m-%d} to {ends:%Y-%m-%d}; "
            "check the tablet's clock, or ask the office for a new certificate"
        )
        raise CannotSignError(person.name, problem)


def _check_ready(
    findings: Findings, lead: Person, authority: x509.Certificate, at: datetime
) -> None:
    if not findings.signers:
        raise CannotSignError(lead.name, "the technician has not signed yet")
    if len(findings.signers) > 1:
        raise CannotSignError(lead.name, "the record is signed off already; make a new one")
    if not findings.awaits_lead:
        problem = f"the record is not as the technician signed it: {findings.findings[0]}"
        raise CannotSignError(lead.name, problem)
    first = findings.signers[0]
    if lead.fingerprint == first.fingerprint or lead.name.casefold() == first.name.casefold():
        raise CannotSignError(lead.name, "the technician’s signature is theirs; ask another lead")
    if not issued_by(first.certificate, authority):
        problem = "the technician's certificate is from another office; ask both offices"
        raise CannotSignError(lead.name, problem)
    if at < first.time:
        problem = "the technician signed at a later time; check the tablet's clock"
        raise CannotSignError(lead.name, problem)
