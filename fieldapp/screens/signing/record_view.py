"""What is shown before and after the signed record is made: what is signed, by whom, and where.

Touches passed on:
    "unlock"       the technician's secret is asked, then the crew lead's
    "unsigned"     write the record without signatures
"""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from fieldapp.actions.rules import LEAD, TECHNICIAN
from fieldapp.crew.fingerprint import in_groups
from fieldapp.crew.people import Role, Signer
from fieldapp.crew.roster import NotOnRosterError, Roster
from fieldapp.crew.unlocking import why_not_ready
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.screens.crew.crew_view import BACK, SAFE
from fieldapp.screens.crew.told import path_words, said_rows, told_rows
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView

ROLES = {TECHNICIAN: Role.TECHNICIAN, LEAD: Role.CREW_LEAD}
NO_TRUST = (
    "There is no trust folder on this tablet: touch “People and keys” on the list of jobs, make "
    "keys, and take in what the office sends. The unsigned record can be written now."
)


@dataclass(frozen=True, slots=True)
class SignerView:
    """One of the two: name and role as signed off, and why they cannot sign here, if so."""

    role: str
    name: str
    at: datetime
    fingerprint: str
    problem: str
    unlocked: bool


@dataclass(frozen=True, slots=True)
class RecordFacts:
    """What is known of a record: its name, revision, the journal's head, where it lies if made."""

    file: str
    revision: int
    head: str
    filed: Path | None = None
    sound: bool = False
    lines: tuple[str, ...] = ()
    unsigned: Path | None = None


def signers_of(
    job: Job, roster: Roster | None, keys: Path, unlocked: dict[str, Signer]
) -> tuple[SignerView, ...]:
    """Return both who signed the job off, and whether their keys can sign here."""
    views = tuple(_signer(job, role, roster, keys, unlocked) for role in ROLES)
    first, second = views
    if first.fingerprint and first.fingerprint == second.fingerprint:
        same = f"the key of {second.name} is {first.name}'s too: two people sign with two keys"
        return (first, SignerView(second.role, second.name, second.at, second.fingerprint, same,
                                  unlocked=False))  # fmt: skip
    return views


def record_view(
    job: Job, evaluation: Evaluation, facts: RecordFacts, signers: tuple[SignerView, ...],
    start: int, told: tuple[str, bool], *, trust: bool, working: str,
) -> ListView:  # fmt: skip
    """Return what is signed, who signs, and where the record lies once it is made."""
    return ListView(
        title="The signed record",
        under=(f"{working} …",) if working else (),
        rail=_rail(facts, signers, trust=trust, working=working),
        rows=(
            *told_rows(told),
            *_filed_rows(facts),
            *(() if trust else said_rows("failed", "no trust", "No keys here", NO_TRUST)),
            *_what_rows(job, evaluation, facts),
            *(_signer_row(one) for one in signers if facts.filed is None),
            *_unsigned_rows(facts),
        ),
        start=start,
    )


def _rail(
    facts: RecordFacts, signers: tuple[SignerView, ...], *, trust: bool, working: str
) -> tuple[PlateView, ...]:
    unsigned = PlateView("unsigned", "Unsigned", "write it")
    if working:
        return (BACK, SAFE, PlateView("unlock", "Working…", kind="waiting"))
    if facts.filed is not None:
        return (BACK, SAFE, PlateView("jobs", "All jobs", kind="main"))
    if not trust or any(one.problem for one in signers):
        return (BACK, SAFE, PlateView("unlock", "Sign", "see why not", "waiting"), unsigned)
    return (BACK, SAFE, PlateView("unlock", "Sign", "two secrets", "main"), unsigned)


def _what_rows(job: Job, evaluation: Evaluation, facts: RecordFacts) -> tuple[RowView, ...]:
    unit, site = job.sheet.text_of("unit") or job.number, job.sheet.text_of("site_name") or ""
    deviations = evaluation.deviations
    still_open = sum(not one.settled for one in deviations)
    accepted = len(deviations) - still_open
    steps = len(evaluation.open_steps)
    outcome = "All steps in order" if not steps else f"{steps} steps open"
    mark = "done" if not steps and not still_open else "failed"
    counts = f"{still_open} deviations open, {accepted} accepted."
    return (
        RowView("", (), f"{job.number}, revision {facts.revision}", f"{unit}, {site}. "
                f"“{job.checklist.title}”, checklist revision {job.checklist.revision}.",
                *(("now", "to sign") if facts.filed is None else ("done", "signed"))),
        RowView("", (), outcome, counts, mark, "outcome"),
        RowView("", (), in_groups(facts.head), "The journal's head: all that was entered "
                "hangs on it. It stands in the record.", "done", "journal"),
    )  # fmt: skip


def _signer_row(one: SignerView) -> RowView:
    role = f"{one.role[:1].upper()}{one.role[1:]}"
    first = f"{role}: {one.name}"
    if one.problem:
        problem = f"{one.problem[:1].upper()}{one.problem[1:]}."
        return RowView("", (), first, problem, "failed", "cannot")
    key = f"Key {in_groups(one.fingerprint)}. " if one.fingerprint else ""
    words = f"{key}Signed off {one.at:%Y-%m-%d %H:%M}."
    mark, word = ("now", "unlocked") if one.unlocked else ("todo", "locked")
    return RowView("", (), first, words, mark, word)


def _filed_rows(facts: RecordFacts) -> tuple[RowView, ...]:
    if facts.filed is None:
        return ()
    mark, word = ("proven", "sound") if facts.sound else ("failed", "not sound")
    found = said_rows(mark, word, f"{facts.file}: {_verdict(facts)}", " ".join(facts.lines))
    place = RowView("", (), "Copy it to the office", path_words(facts.filed), "done", "it lies in")
    return (*found, place)


def _verdict(facts: RecordFacts) -> str:
    return "verified, nothing is wrong" if facts.sound else "verified, and not as it should be"


def _unsigned_rows(facts: RecordFacts) -> tuple[RowView, ...]:
    if facts.unsigned is None:
        return ()
    words = path_words(facts.unsigned)
    return (RowView("", (), facts.unsigned.name, words, "unproven", "unsigned"),)


def _signer(
    job: Job, role: str, roster: Roster | None, keys: Path, unlocked: dict[str, Signer]
) -> SignerView:
    event = job.state.signature(role)
    assert event is not None  # noqa: S101 - this screen follows the sign-off
    problem = why_not_ready(roster, keys, event.by, ROLES[role], event.at) if roster else ""
    return SignerView(role, event.by, event.at, _key(roster, event.by), problem,
                      unlocked=role in unlocked)  # fmt: skip


def _key(roster: Roster | None, name: str) -> str:
    try:
        return roster.named(name).fingerprint if roster else ""
    except NotOnRosterError:
        return ""
