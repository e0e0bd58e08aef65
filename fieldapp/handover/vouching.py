"""Who vouches for a statement, in words: as far as this tablet's trust folder can say."""

from datetime import datetime

from fieldapp.crew.people import Signer, name_of, role_of
from fieldapp.crew.roster import Roster
from fieldapp.crew.standing import why_not
from fieldapp.crew.statement import Statement, StatementRefusedError, certificate_of, signed
from fieldapp.job.events import Event, GapStated
from fieldapp.journal.tablets.gap import PURPOSE, Sign, text_of

UNSIGNED = "unsigned: nobody vouches for it"


def vouched(statement: Statement, roster: Roster | None, *, purpose: str, at: datetime) -> str:
    """Return who signed a statement made at a time; a signature over other words is refused."""
    certificate = certificate_of(statement, purpose=purpose)
    who = f"{name_of(certificate)}, {role_of(certificate)}"
    if roster is None:
        return f"signed by someone who says they are {who}; there is no trust folder to ask"
    problem = why_not(roster, certificate, at)
    if problem:
        return f"signed by someone who says they are {who}; this does not count: {problem}"
    return f"signed by {who}"


def gap_signer(signer: Signer) -> Sign:
    """Return what signs the statement of a gap with a person's key."""

    def sign(text: bytes) -> tuple[str, str]:
        statement = signed(text, signer, purpose=PURPOSE)
        return statement.certificate, statement.signature.hex()

    return sign


def gap_vouched(event: Event, roster: Roster | None) -> str:
    """Return who vouches for the statement of a gap; never more than its signature covers."""
    what = event.what
    assert isinstance(what, GapStated)  # noqa: S101 - the caller looks for these
    if not what.certificate:
        return UNSIGNED
    try:
        signature = bytes.fromhex(what.signature)
        statement = Statement(text_of(event), what.certificate, signature)
        return vouched(statement, roster, purpose=PURPOSE, at=event.at)
    except (StatementRefusedError, ValueError) as problem:
        return f"not signed by anybody: {problem}"
