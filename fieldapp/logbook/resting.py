"""Whether the paper is dry: by the rest test sampled at the tank, never while the skid runs."""

from collections.abc import Mapping
from datetime import datetime

from fieldapp.actions.rules import LEAD
from fieldapp.engineering.drying.rest import obstacles_to_rest
from fieldapp.job.job import Job
from fieldapp.judgement.values import Value, values_of
from fieldapp.logbook.course import Course
from fieldapp.logbook.figures import moment
from fieldapp.logbook.ledger import starts_of
from fieldapp.logbook.shapes import Draw, Dryness
from fieldapp.units import from_si

NOT_TESTED = (
    "Not known. Only a rest test tells, sampled at the tank’s own cock; moisture in oil while the "
    "skid runs does not."
)
AT_THE_SKID = "it was not drawn at the tank’s own cock"
TOO_EARLY = "entered before that much time had passed since the pump stopped"
RUNS_AGAIN = "Not known: the skid was started again on {when:%d %b}, after rest test {number}."
HALF_A_DAY = 43_200.0
NO_PAPER = "no figure for the paper: outside the range in which it can be told"
AT_TANK = "the tank’s own sampling cock"
NO_SAMPLE_BEFORE = "the job sheet has no oil temperature from before drying to hold it against"
ANOTHER_FLUID = "the solubility is of another fluid"
DRY = "dry enough"
# The step of each draw, its name, and how the values worked out from it begin.
DRAWS = (
    ("t_draw1", "72 h", "at_72"),
    ("t_draw2", "7 days", "at_7d"),
    ("t_draw3", "21 to 28 days", "at_28d"),
)


def dryness_of(course: Course) -> Dryness:
    """Return what the last rest test says, and what the owner's engineer decided on it."""
    tests = [job for job in course.of("rest_test") if job.state.latest("t_stop_pump")]
    if not tests:
        return Dryness("not known", NOT_TESTED)
    job = tests[-1]
    again = _started_after(course, job)
    if again is not None:
        return Dryness("not known", RUNS_AGAIN.format(when=again, number=job.number))
    values = values_of(job).numbers
    draws = tuple(draw for row in DRAWS if (draw := _draw(row, job, values)) is not None)
    rebound, target = values.get("rebound_28d"), values.get("target_dryness")
    state, sentence = _verdict(job, draws)
    return Dryness(
        state,
        sentence,
        draws,
        from_si(rebound.si, "%") if rebound else None,
        from_si(target.si, "%") if target else None,
        _text(job, "t_decide_by"),
    )


def _started_after(course: Course, job: Job) -> datetime | None:
    """Return when the skid was first started again after it stopped for a rest test."""
    stopped = moment(job, "stopped")
    return next((at for at, _ in starts_of(course) if stopped and at > stopped), None)


def _verdict(job: Job, draws: tuple[Draw, ...]) -> tuple[str, str]:
    decided, by = _text(job, "t_decide_is"), _text(job, "t_decide_by")
    last = draws[-1] if draws else None
    whole = len(draws) == len(DRAWS)
    if last is None or not whole:
        done = f"drawn at {', '.join(d.name for d in draws)}" if draws else "nothing drawn yet"
        return "resting", f"Resting: {done}. Not known before the sample at 21 to 28 days."
    if not last.counts:
        why = "; ".join(last.obstacles) or NO_PAPER
        return "not known", f"Not known: the sample at {last.name} does not count: {why}."
    if not decided or not by:
        return "to decide", f"{_paper(last)} The owner’s engineer decides."
    document = _text(job, "t_decide_document")
    signed = f"{by}, {document}" if document else by
    if job.state.signature(LEAD) is None:
        return "to decide", f"{_paper(last)} Decided: {decided} ({signed}); not signed off yet."
    if decided == DRY:
        return "dry", f"{_paper(last)} Decided: dry enough ({signed})."
    return "not dry", f"{_paper(last)} Decided: {decided} ({signed})."


def _paper(draw: Draw) -> str:
    words = f"At {draw.name} of rest: {draw.paper:.1f} % water in paper"
    if draw.low is not None and draw.high is not None:
        words += f" ({draw.low:.1f} to {draw.high:.1f})"
    return f"{words}."


def _draw(row: tuple[str, str, str], job: Job, values: Mapping[str, Value]) -> Draw | None:
    step, name, at = row
    since, oil = values.get(f"{step}_since"), values.get(f"{step}_oil")
    water = values.get(f"{step}_water")
    if since is None or oil is None or water is None:
        return None
    paper = _percent(values, f"{at}_paper")
    return Draw(
        name,
        from_si(since.si, "d"),
        from_si(water.si, "mg/kg"),
        from_si(oil.si, "degC"),
        paper,
        _percent(values, f"{at}_paper_second"),
        _percent(values, f"{at}_paper_least"),
        _percent(values, f"{at}_paper_most"),
        _obstacles(step, job, since.si, oil.si, paper),
    )


def _percent(values: Mapping[str, Value], name: str) -> float | None:
    value = values.get(name)
    return from_si(value.si, "%") if value else None


def _obstacles(
    step: str, job: Job, since: float, oil: float, paper: float | None
) -> tuple[str, ...]:  # fmt: skip
    before = job.sheet.number_of("sample_temperature")
    found = list(
        obstacles_to_rest(since_drying=since, temperature=oil, temperature_before=before.si())
        if before
        else (NO_SAMPLE_BEFORE,)
    )
    stopped, given = moment(job, "stopped"), job.state.latest(f"{step}_since")
    if stopped and given and (given.at - stopped).total_seconds() < since - HALF_A_DAY:
        found.insert(0, TOO_EARLY)
    if _text(job, f"{step}_point") != AT_TANK:
        found.insert(0, AT_THE_SKID)
    if _text(job, "t_paper_fluid") == "another fluid":
        found.append(ANOTHER_FLUID)
    if paper is None:
        found.append(NO_PAPER)
    return tuple(found)


def _text(job: Job, entry: str) -> str:
    given = job.state.latest(entry)
    return given.fields.get("value", "") if given else ""
