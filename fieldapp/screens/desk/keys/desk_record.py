"""What touches mean at the signed record: two secrets, one after the other, then the file."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from fieldapp.actions.rules import LEAD, TECHNICIAN
from fieldapp.crew.fingerprint import in_groups
from fieldapp.crew.people import Signer
from fieldapp.crew.roster import Roster
from fieldapp.crew.secret import Secret
from fieldapp.crew.unlocking import unlock_signer
from fieldapp.journal.sign_off import as_signed_off
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.desk.state.desk_vouch import look_how_long, roster_here
from fieldapp.screens.desk.state.keys_in_hand import Filed
from fieldapp.screens.place import Place
from fieldapp.screens.signing.record_view import RecordFacts, signers_of

if TYPE_CHECKING:
    from fieldapp.record.filing import JobAsItStands
    from fieldapp.record.findings import Findings

_NEXT = {TECHNICIAN: LEAD}


def to_record(state: DeskState) -> None:
    """Go to the signed record; one that lies here already is verified first."""
    from fieldapp.record.filing import record_place

    state.go(Place("record"))
    path, roster = record_place(state.home, state.job), roster_here(state)
    if path.exists():
        state.begin("the record is being verified", lambda: _verified(path, roster),
                               lambda found: _filed(state, found))  # fmt: skip


def ask_secrets(state: DeskState) -> None:
    """Ask for the technician's secret, then the crew lead's."""
    state.keys.lock()
    _ask(state, TECHNICIAN, state.go)


def unlock(state: DeskState, role: str, secret: Secret) -> None:
    """Unlock the key of who signed off in a role; once both are, make the record."""
    name, roster, now = name_of_signer(state, role), roster_here(state), state.now
    if roster is None:
        return
    keys = state.home / "keys"

    def then(signer: Signer) -> None:
        if state.place != Place("secret", purpose=role):
            return  # whoever it was has walked away: the key stays locked
        state.keys.signers[role] = signer
        if role in _NEXT:
            _ask(state, _NEXT[role], state.turn)
        else:
            state.back()
            _make(state, roster)

    state.begin(
        "the secret is being tried", lambda: unlock_signer(roster, keys, name, secret.text, now),
        then,
    )  # fmt: skip


def write_unsigned(state: DeskState) -> None:
    """Write the record without signatures."""
    from fieldapp.record.filing import file_unsigned

    home, standing, roster = state.home, _standing(state), roster_here(state)

    def then(path: Path) -> None:
        state.keys.unsigned = path

    state.begin("the record is being written", lambda: file_unsigned(home, standing, roster), then)


def facts_of(state: DeskState) -> RecordFacts:
    """Return what is known of the record of the job in hand."""
    from fieldapp.record.chapters.front.heading import earlier_of
    from fieldapp.record.filing import record_place, unsigned_place

    assert state.kept is not None  # noqa: S101 - a record belongs to a job
    path, unsigned = record_place(state.home, state.job), state.keys.unsigned
    filed = state.keys.filed.get(path.name)
    return RecordFacts(
        file=path.name,
        revision=1 + len(earlier_of(state.job)),
        head=_standing(state).head[1],
        filed=filed.path if filed else None,
        sound=filed.sound if filed else False,
        lines=filed.lines if filed else (),
        unsigned=unsigned if unsigned == unsigned_place(state.home, state.job) else None,
    )


def signed_words(state: DeskState) -> str:
    """Return in few words what is signed: the record, its revision, the head of the journal."""
    facts = facts_of(state)
    head = in_groups(facts.head[:16])
    return f"{state.job.number}, revision {facts.revision}, as the journal stands at {head}"


def wait_again(state: DeskState) -> None:
    """Look again how long one has to wait after a wrong secret."""
    if state.place.screen == "secret" and state.place.purpose in (TECHNICIAN, LEAD):
        _ask(state, state.place.purpose, state.turn)


def name_of_signer(state: DeskState, role: str) -> str:
    """Return who signed the job off in a role."""
    event = state.job.state.signature(role)
    assert event is not None  # noqa: S101 - this screen follows the sign-off
    return event.by


def _make(state: DeskState, roster: Roster) -> None:
    from fieldapp.record.filing import file_signed

    home, standing, signers = state.home, _standing(state), state.keys.signers
    both = signers_of(state.job, roster, home / "keys", signers)
    problem = next((one.problem for one in both if one.problem), "")
    pair = [signers[role] for role in (TECHNICIAN, LEAD)]
    state.keys.lock()
    if problem:
        state.refused = problem
        return
    state.begin(
        "the record is being signed and verified",
        lambda: _filed_words(*file_signed(home, standing, pair, roster)),
        lambda found: _filed(state, found),
    )


def _ask(state: DeskState, role: str, go: Callable[[Place], None]) -> None:
    if roster_here(state) is not None:
        look_how_long(state, name_of_signer(state, role))
        go(Place("secret", purpose=role))


def _standing(state: DeskState) -> "JobAsItStands":
    from fieldapp.record.filing import JobAsItStands

    assert state.kept is not None  # noqa: S101 - a record belongs to a job
    folder = state.jobs.folder(state.job.number)
    told = as_signed_off(state.kept, folder)
    return JobAsItStands(told.job, (told.head.sequence, told.head.hash), folder, state.now)


def _verified(path: Path, roster: Roster | None) -> Filed:
    from fieldapp.record.verification import verify

    return _filed_words(path, verify(path.read_bytes(), roster))


def _filed(state: DeskState, filed: Filed) -> None:
    state.keys.filed[filed.path.name] = filed


def _filed_words(path: Path, findings: "Findings") -> Filed:
    """Return a record with what verification says of it, in lines."""
    signed = (
        f"Signed by {one.name}, {one.role}, {one.time:%Y-%m-%d %H:%M}." for one in findings.signers
    )
    lines = findings.findings or tuple(signed)
    return Filed(path, findings.sound, (*lines, *findings.notes))


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("signoff", "make record"): to_record,
    ("record", "unlock"): ask_secrets,
    ("record", "unsigned"): write_unsigned,
}
