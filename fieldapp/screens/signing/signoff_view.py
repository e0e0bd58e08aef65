"""What the sign-off shows: what was not as planned, the totals, and the two signatures.

Touches it passes on, besides those of the frame:
    "ask", part                     kept as the place's part: "condition SUBJECT",
                                    "send back", "name", or "" for nothing
    "accept", subject, condition    by the crew lead
    "condition", subject, text      the owner's condition, held; then "document SUBJECT" is asked
    "accept", subject, condition, document   by the owner's engineer
    "see", sequence                 the crew lead has seen a correction or a reason
    "send back", reason
    "strokes", strokes / "clear"    what is drawn on the pad, held by the desk
    "name", text                    the printed name typed instead, held by the desk
    "sign", role, strokes
    "page", start / "go", step
"""

from dataclasses import dataclass, replace
from datetime import datetime

from fieldapp.actions.rules import LEAD, TECHNICIAN
from fieldapp.actions.sign_off import label_of, not_the_name, still_open
from fieldapp.checklist.model import Kind, Waive
from fieldapp.job.events import Signed
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation, StepState
from fieldapp.judgement.verdict import Place
from fieldapp.screens.frame_view import Desktop, FrameView, PlateView, frame_view
from fieldapp.screens.reason_view import CONDITION, REASONS
from fieldapp.screens.signing.signoff_rows import PlannedRow, rows_of
from fieldapp.screens.timed.trace_asked import without_back
from fieldapp.screens.timed.trace_note_view import NoteView

Strokes = tuple[tuple[tuple[float, float], ...], ...]
_BACK = (
    "do the open steps first",
    "measure again",
    "say more in the reasons",
    "photo is missing",
    "wrong unit or place",
)


@dataclass(frozen=True, slots=True)
class TotalView:
    """One figure of the totals with its mark."""

    mark: str
    words: str


@dataclass(frozen=True, slots=True)
class SignatureView:
    """One signature: whose it is, whether it is given, and the strokes or the typed name."""

    role: str
    name: str
    under: str
    signed: bool
    open: bool
    strokes: Strokes = ()
    typed: str = ""


@dataclass(frozen=True, slots=True)
class SignoffView:
    """The sign-off; with a note asked for, that fills the sheet."""

    frame: FrameView
    title: str
    rows: tuple[PlannedRow, ...]
    start: int
    totals: tuple[TotalView, ...]
    technician: SignatureView
    lead: SignatureView
    send_back: PlateView | None
    locked: tuple[str, ...] = ()
    note: NoteView | None = None


def signoff_view(
    job: Job, evaluation: Evaluation, now: datetime, desktop: Desktop, *, part: str = "",
    start: int = 0, strokes: Strokes = (), typed: str = "", condition: str = "", head: str = "",
) -> SignoffView:  # fmt: skip
    """Return the sign-off; `head` is the fingerprint of the journal as it stands."""
    rows = rows_of(job, evaluation, desktop.who)
    role = LEAD if job.state.signature(TECHNICIAN) else TECHNICIAN
    typed = "" if not_the_name(typed, desktop.who) else typed
    locked = job.state.signature(LEAD) is not None
    main = _main(job, now, desktop.who, role, signs=bool(strokes or typed))
    frame = frame_view(job, evaluation, now, desktop, main=main, report=False)
    note = _note(job, evaluation, part, condition)
    return SignoffView(
        frame=without_back(replace(frame, plates=frame.plates[:-1])) if note else frame,
        title=_title(job, evaluation, rows),
        rows=rows,
        start=start,
        totals=_totals(job, evaluation),
        technician=_signature(job, TECHNICIAN, desktop.who, role, strokes, typed),
        lead=_signature(job, LEAD, desktop.who, role, strokes, typed),
        send_back=_send_back(job, desktop.who),
        locked=_locked(head) if locked else (),
        note=note,
    )


def _title(job: Job, evaluation: Evaluation, rows: tuple[PlannedRow, ...]) -> str:
    if job.state.signature(LEAD) is not None:
        return "Signed off and locked"
    if not rows:
        return "All as planned"
    count = len(evaluation.deviations)
    others = len(rows) - count
    words = [f"{count} deviation{'s' if count != 1 else ''}"] if count else []
    words += [f"{others} correction{'s' if others != 1 else ''}"] if others else []
    return f"Not as planned: {', '.join(words)}"


def _main(job: Job, now: datetime, who: str, role: str, *, signs: bool) -> PlateView:
    if job.state.signature(LEAD) is not None:
        return PlateView("make record", "Make the record", "two secrets", "main")  # fmt: skip
    first = "Sign as technician" if role == TECHNICIAN else "Sign off"
    waits = _waits_for(job, now, who, role, signs=signs)
    if waits:
        return PlateView("sign", first, waits, "waiting")
    second = "then the lead" if role == TECHNICIAN else f"{now:%H:%M}, then locked"
    return PlateView("sign", first, second, "main", (role,))


def _waits_for(job: Job, now: datetime, who: str, role: str, *, signs: bool) -> str:
    """Return in few words what the signature waits for."""
    open_now = still_open(job, role, now)
    if open_now:
        return f"{len(open_now)} still open"
    person = job.sheet.person(who)
    if person is None or person.role != role:
        return f"{role} signs"
    return "" if signs else "sign on the line"


def _totals(job: Job, evaluation: Evaluation) -> tuple[TotalView, ...]:
    states = [
        standing.state
        for standing in evaluation.steps.values()
        if not any(entry.role for entry in standing.step.entries)
    ]
    done, unneeded = states.count(StepState.DONE), states.count(StepState.NOT_NEEDED)
    still = len(states) - done - unneeded
    totals = [TotalView("done", f"{done} steps done"),
              TotalView("unneeded", f"{unneeded} not needed")]  # fmt: skip
    if still:
        totals.append(TotalView("todo", f"{still} still open"))
    proven, fitted, again = _trips(job, evaluation)
    words = f"{proven} of {fitted} trips proven"
    more = f", {again} at the 2nd try" if again else ""
    totals.append(TotalView("proven" if proven == fitted else "unproven", words + more))
    return tuple(totals)


def _trips(job: Job, evaluation: Evaluation) -> tuple[int, int, int]:
    proven = fitted = again = 0
    for step in job.checklist.steps():
        for entry in step.entries:
            verdict = evaluation.steps[step.id].verdicts.get(entry.id)
            if (
                entry.kind is not Kind.ALARM
                or verdict is None
                or (verdict.place is Place.NOT_NEEDED)
            ):
                continue
            fitted += 1
            good = verdict.place.good
            proven += good
            again += good and any(
                given.fields.get("tripped") == "no" for given in job.state.given.get(entry.id, ())
            )
    return proven, fitted, again


def _signature(
    job: Job, role: str, who: str, turn: str, strokes: Strokes, typed: str
) -> SignatureView:
    event = job.state.signature(role)
    if event is not None and isinstance(event.what, Signed):
        drawn = tuple(
            tuple((float(x), float(y)) for x, y in stroke) for stroke in event.what.strokes
        )
        how = "name typed" if event.what.typed else "signed"
        under = f"{how} {event.at:%H:%M}"
        return SignatureView(role, event.what.name, under, signed=True, open=False, strokes=drawn,
                             typed=event.what.typed)  # fmt: skip
    person = job.sheet.person(who)
    mine = person is not None and person.role == role and turn == role
    people = job.sheet.people(role)
    name = who if mine else " or ".join(person.name for person in people)
    under = "sign on the line" if mine else "another person" if role == LEAD else "signs first"
    return SignatureView(
        role, name, under, signed=False, open=mine, strokes=strokes if mine else (),
        typed=typed if mine else "",
    )  # fmt: skip


def _send_back(job: Job, who: str) -> PlateView | None:
    person = job.sheet.person(who)
    if job.state.signature(LEAD) is not None or job.state.signature(TECHNICIAN) is None:
        return None
    if person is None or person.role != LEAD:
        return None
    return PlateView("ask send back", "Send back", "say what to redo", details=("send back",))


def _locked(head: str) -> tuple[str, ...]:
    groups = " ".join(head[at : at + 8] for at in range(0, len(head), 8))
    return (
        "Nothing can be changed any more: what follows is a record of its own.",
        f"Fingerprint of the journal: {groups}",
        "What the office files is the signed record: touch “Make the record”.",
    )


def _note(job: Job, evaluation: Evaluation, part: str, condition: str) -> NoteView | None:
    name, _, subject = part.partition(" ")
    if part == "name":
        return NoteView("name", (), "Your name, as it is printed here?", "touch here and type", (),
                        "Take the name", "it stands as typed", "type it first")  # fmt: skip
    if part == "send back":
        return NoteView("send back", (), "What is to be done again?",
                        "in your own words, or touch one below", _BACK, "Send it back",
                        "signatures no longer stand")  # fmt: skip
    if name == "document":
        title = f"{label_of(job, subject)}: number of the owner’s document?"
        return NoteView("accept", (subject, condition), title, "touch here and type", (),
                        "Accept it", "the name and the time are kept")  # fmt: skip
    if name != "condition":
        return None
    deviation = next(d for d in evaluation.deviations if d.subject == subject)
    owner = deviation.verdict.waive is Waive.OWNER
    title = f"{label_of(job, subject)}: accepted on what condition?"
    first, second = ("Next", "the document") if owner else ("Accept it", "name and time are kept")
    return NoteView(
        "condition" if owner else "accept", (subject,), title,
        "in your own words, or touch one below", REASONS[CONDITION], first, second,
    )  # fmt: skip
