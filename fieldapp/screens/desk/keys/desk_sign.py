"""What touches mean at the sign-off, at a report, and on the line diagram."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from fieldapp.actions.entering import close_valve, report
from fieldapp.actions.rules import OWNER
from fieldapp.actions.sign_off import accept, not_the_name, see, send_back, sign
from fieldapp.job.events import Stroke
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.place import Place

NAME = "name"
Points = tuple[tuple[float, float], ...]


def ask(state: DeskState, part: str) -> None:
    """Ask for a condition, a document or why it is sent back; "" asks for nothing more."""
    state.place = replace(state.place, part=part)


def hold_condition(state: DeskState, subject: str, condition: str) -> None:
    """Hold the owner's condition; the number of the document is asked for next."""
    state.type("signoff", condition, subject)
    ask(state, f"document {subject}")


def accept_deviation(
    state: DeskState, subject: str, condition: str, document: str = ""
) -> None:  # fmt: skip
    """Accept a deviation: the crew lead at the tablet, or the owner's engineer with a document."""
    name = state.who
    engineers = [person.name for person in state.job.sheet.people(OWNER)]
    if document and name not in engineers and engineers:
        name = engineers[0]
    if state.keep(
        lambda job: accept(job, subject, condition, state.act, accepter=name, document=document)
    ):
        state.forget("signoff")
        ask(state, "")


def see_correction(state: DeskState, sequence: int) -> None:
    """Say that a correction or a reason was seen."""
    state.keep(lambda job: see(job, sequence, state.act))


def send_it_back(state: DeskState, reason: str) -> None:
    """Send the job back; signatures no longer stand."""
    if state.keep(lambda job: send_back(job, reason, state.act)):
        state.forget("signoff")
        ask(state, "")


def sign_it(state: DeskState, role: str, strokes: tuple[Points, ...] = ()) -> None:
    """Sign in a role, for the journal as it stands."""
    assert state.kept is not None  # noqa: S101 - a sign-off belongs to a job
    head = state.kept.head.hash
    drawn = tuple(map(_stroke, strokes or state.strokes))
    typed = "" if drawn else state.text("signoff", NAME)
    if state.keep(lambda job: sign(job, role, head, state.act, strokes=drawn, typed=typed)):
        clear(state)


def hold_strokes(state: DeskState, strokes: tuple[Points, ...]) -> None:
    """Hold what is drawn on the pad, until it is signed or cleared."""
    state.type("signoff", "", NAME)
    state.strokes = tuple(tuple(points) for points in strokes)


def clear(state: DeskState) -> None:
    """Clear the pad."""
    state.strokes = ()
    state.type("signoff", "", NAME)


def hold_name(state: DeskState, text: str) -> None:
    """Hold the printed name, typed by a hand that cannot draw, until it is signed or cleared."""
    problem = not_the_name(text, state.who)
    if problem:
        state.refused = problem[0]
        return
    state.strokes = ()
    state.type("signoff", text, NAME)
    ask(state, "")


def report_happening(state: DeskState, happening: str, note: str = "") -> None:
    """Report that something was touched; never gated. Then show what it reopened."""
    if state.keep(lambda job: report(job, happening, state.act, note=note)):
        state.forget("report")
        state.turn(Place("open", state.place.step))


def close(state: DeskState, part: str) -> None:
    """Record that a valve was closed; never gated."""
    state.keep(lambda job: close_valve(job, part, state.act))


def _stroke(points: Points) -> Stroke:
    return tuple((f"{x:.4f}", f"{y:.4f}") for x, y in points)


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("signoff", "ask"): ask,
    ("signoff", "condition"): hold_condition,
    ("signoff", "accept"): accept_deviation,
    ("signoff", "see"): see_correction,
    ("signoff", "send back"): send_it_back,
    ("signoff", "sign"): sign_it,
    ("signoff", "strokes"): hold_strokes,
    ("signoff", "clear"): clear,
    ("signoff", "name"): hold_name,
    ("report", "ask"): ask,
    ("report", "report"): report_happening,
    ("hookup", "ask"): ask,
    ("hookup", "close valve"): close,
}
