"""What touches mean for a job that cannot be opened: a named person settles or states why."""

from collections.abc import Callable, Mapping
from pathlib import Path

from fieldapp.crew.secret import Secret
from fieldapp.crew.unlocking import unlock_signer
from fieldapp.errors import FieldAppError, said_at_tablet
from fieldapp.handover.vouching import gap_signer
from fieldapp.job.sheet import JobSheet, Person
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.journal.folders import journals_in
from fieldapp.journal.lines.reading import inspect
from fieldapp.journal.settling import conflict_in, settle
from fieldapp.journal.tablets.gap import Gap, Sign, gap_in, state_gap
from fieldapp.journal.tablets.story import Conflict
from fieldapp.journal.tablets.union import events_of
from fieldapp.screens.copies.hurt_view import GAP, SETTLE
from fieldapp.screens.desk.copies.desk_handing import signers_here
from fieldapp.screens.desk.desk_jobs import open_job
from fieldapp.screens.desk.state.desk_state import JOBS, DeskState
from fieldapp.screens.desk.state.desk_vouch import ask_secret, roster_here
from fieldapp.screens.place import Place

WHY = "why it goes on"


def to_hurt(state: DeskState, number: str) -> None:
    """Go to a job that cannot be opened; no other is in hand there."""
    state.kept = None
    state.copies.cause = _cause(state, number)
    try:
        state.copies.crew = _crew(state, number)
    except FieldAppError as failure:
        state.refused = said_at_tablet(failure)
    state.go(Place("hurt", entry=number))


def to_sides(state: DeskState) -> None:
    """Look at both sides."""
    state.go(Place("sides", entry=state.place.entry))


def keep_side(state: DeskState, device: str) -> None:
    """Let one side go on: ask who says so."""
    state.go(Place("who", entry=state.place.entry, part=device, purpose=SETTLE))


def to_gap(state: DeskState) -> None:
    """State what the disk lost: ask who says so."""
    state.go(Place("who", entry=state.place.entry, purpose=GAP))


def by(state: DeskState, name: str) -> None:
    """Hold who says so; ask why."""
    state.forget(WHY)
    place = state.place
    state.go(Place("why", name, place.entry, place.part, place.purpose))


def typed(state: DeskState, text: str) -> None:
    """Hold the reason as far as it is typed."""
    state.type(WHY, text)


def kept(state: DeskState, text: str) -> None:
    """Keep the statement, signed where the key of who states a gap is on this tablet."""
    state.type(WHY, text)
    place = state.place
    if not text.strip():
        state.refused = "Say why, in your own words or by touching one of them"
    elif place.purpose == SETTLE:
        _settle(state)
    elif any(one.name == place.step for one in signers_here(state)):
        ask_secret(state, Place("secret", place.step, place.entry, place.step, GAP))
    else:
        _state_gap(state, None)


def state_signed(state: DeskState, secret: Secret) -> None:
    """Unlock the key of who states the gap, then keep the statement."""
    name, roster, now = state.place.part, roster_here(state), state.now
    if roster is None:
        return
    keys, here = state.home / "keys", state.place
    state.begin(
        "the secret is being tried",
        lambda: gap_signer(unlock_signer(roster, keys, name, secret.text, now)),
        lambda sign: _state_gap(state, sign) if state.place == here else None,
    )


def _cause(state: DeskState, number: str) -> Conflict | Gap | None:
    """Return what a person can put right: two sides, or entries that the disk lost."""
    folder = state.jobs.folder(number)
    try:
        return gap_in(_own_journal(state, number))
    except (FieldAppError, OSError):
        pass
    try:
        return conflict_in(folder)
    except (FieldAppError, OSError):
        return None


def _crew(state: DeskState, number: str) -> tuple[Person, ...]:
    """Return the people of the job sheet that a job began with."""
    for path in journals_in(state.jobs.folder(number)):
        for document in events_of(inspect(path).bodies)[:1]:
            found = read_sheet(str(document["what"].get("sheet", "")), state.now.date())
            if isinstance(found, JobSheet):
                return found.crew
    return ()


def _settle(state: DeskState) -> None:
    place = state.place
    state.let_go_of_jobs()
    try:
        settle(state.jobs.folder(place.entry), device=state.jobs.device, who=place.step,
               keep=place.part, reason=state.text(WHY), clock=state.clock)  # fmt: skip
    except (FieldAppError, OSError) as failure:
        state.refused = said_at_tablet(failure)
        return
    _open(state, place.entry)


def _state_gap(state: DeskState, sign: Sign | None) -> None:
    place = state.place
    state.let_go_of_jobs()
    try:
        state_gap(_own_journal(state, place.entry), device=state.jobs.device, who=place.step,
                  reason=state.text(WHY), clock=state.clock, sign=sign)  # fmt: skip
    except (FieldAppError, OSError) as failure:
        state.refused = said_at_tablet(failure)
        return
    _open(state, place.entry)


def _open(state: DeskState, number: str) -> None:
    state.forget(WHY)
    state.not_open.clear()
    state.way.clear()
    state.place = JOBS
    open_job(state, number)


def _own_journal(state: DeskState, number: str) -> Path:
    return state.jobs.folder(number) / f"{state.jobs.device}.journal"


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("jobs", "hurt"): to_hurt,
    ("hurt", "sides"): to_sides,
    ("hurt", "gap"): to_gap,
    ("sides", "keep"): keep_side,
    ("who", "by"): by,
    ("why", "typed"): typed,
    ("why", "kept"): kept,
    ("why", "left"): lambda state: state.back(),
}
