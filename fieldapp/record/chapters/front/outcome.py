"""How a job stands: the sentence that a reader sees first, the counts, and what was repeated."""

from fieldapp.actions.rules import LEAD, TECHNICIAN
from fieldapp.job import events
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation, StepState
from fieldapp.record.chapters.front.heading import is_commissioning
from fieldapp.record.chapters.shapes.shapes import Evacuation, PhaseRows, Repeat, Row, Shutdown
from fieldapp.record.chapters.shapes.shapes_of_sources import Outcome

PROVEN, DONE, SENT_BACK = "proven", "done", "sent back"
WAITS, NOT_PROVEN = "awaits the crew lead", "not proven"
TAKEN_OFF, AS_IT_STANDS = "taken off", "left as it stands"


def outcome_of(
    job: Job,
    evaluation: Evaluation,
    parts: dict[str, str],
    phases: tuple[PhaseRows, ...],
    shutdowns: tuple[Shutdown, ...],
    repeats: tuple[Repeat, ...],
) -> Outcome:
    """Return the outcome in words and counts."""
    asked = [shutdown for shutdown in shutdowns if shutdown.asked]
    proven = sum(shutdown.proven for shutdown in asked)
    rows = [row for phase in phases for step in phase.steps for row in step.rows]
    accepted = sum(deviation.settled for deviation in evaluation.deviations)
    still_open = len(evaluation.deviations) - accepted
    corrected = sum(len(row.corrections) for row in rows)
    repeated = sum(repeat.kind == "failed" for repeat in repeats)
    counts = (
        f"{_first_count(evaluation, proven, len(asked))} "
        f"{_count(accepted, 'deviation', 'accepted')} "
        f"{_count(repeated, 'test', 'failed first and', 'repeated')} "
        f"{_count(corrected, 'entry', 'corrected')}"
    )
    steps, state = len(evaluation.open_steps), state_of(job)
    sentence = _sentence(job, state, still_open, steps, parts, asked)
    return Outcome(
        state, sentence, counts, len(asked), proven, accepted, still_open, repeated, corrected,
        steps,
    )  # fmt: skip


def state_of(job: Job) -> str:
    """Return whether the job is proven or done, sent back, waiting for the lead, or not proven."""
    if job.state.signature(LEAD):
        return PROVEN if is_commissioning(job) else DONE
    if job.state.signature(TECHNICIAN):
        return WAITS
    told = job.state.of(events.SentBack, events.Signed, events.Settled)
    return SENT_BACK if told and not isinstance(told[-1].what, events.Settled) else NOT_PROVEN


def _first_count(evaluation: Evaluation, proven: int, asked: int) -> str:
    """Return how many shutdowns were proven; of a list that asks for none, how many steps done."""
    if asked:
        shutdowns = "shutdown" if asked == 1 else "shutdowns"
        return f"{_all(proven, asked)} {shutdowns} proven by a real stimulus."
    needed = [s for s in evaluation.steps.values() if s.state is not StepState.NOT_NEEDED]
    return f"{_all(sum(s.in_order for s in needed), len(needed))} steps done."


def _all(proven: int, of: int) -> str:
    if proven < of or not of:
        return f"{proven} of {of}"
    return {1: "The one", 2: "Both"}.get(of, f"All {of}")


def _count(number: int, noun: str, done: str, after: str = "") -> str:
    nouns = {1: noun}.get(number, noun[:-1] + "ies" if noun.endswith("y") else f"{noun}s")
    how = done if not after else f"{done} {'was' if number == 1 else 'were'} {after}"
    return f"{number} {nouns} {how}."


def _sentence(
    job: Job,
    state: str,
    still_open: int,
    steps: int,
    parts: dict[str, str],
    asked: list[Shutdown],
) -> str:
    open_words = _open_words(still_open)
    good, bad = ("Proven", "Not proven") if is_commissioning(job) else ("Done", "Not done")
    match state:
        case "proven" | "done":
            left = _left(job, parts)
            return f"{good} and {left}. {open_words}" if left else f"{good}. {open_words}"
        case "awaits the crew lead":
            return f"{good}, the crew lead has not signed yet. {open_words}"
        case "sent back":
            return f"Sent back. {open_words if still_open else f'{_steps(steps)} open.'}"
    failed = [s for s in asked if s.failed]
    if failed:
        return f"{bad}: shutdown {failed[0].number} failed. {_valves(parts)}".strip()
    return f"{bad}: {_steps(steps)} open, nobody has signed."


def _left(job: Job, parts: dict[str, str]) -> str:
    """Return how the skid was left; nothing where the checklist moves no part of it."""
    if not job.checklist.moves_a_skid:
        return ""
    if parts.get("bond") == "off" and parts.get("supply") == "off":
        return TAKEN_OFF
    left = {"runs": "left running", "stopped": "left stopped"}
    return left.get(parts.get("oil_pump", ""), AS_IT_STANDS)


def _steps(number: int) -> str:
    return f"{number} step" if number == 1 else f"{number} steps"


def _open_words(number: int) -> str:
    if not number:
        return "No deviation is open."
    return "1 deviation is open." if number == 1 else f"{number} deviations are open."


def _valves(parts: dict[str, str]) -> str:
    states = {parts.get("suction_tank_valve"), parts.get("return_tank_valve")}
    if states == {"closed"}:
        return "Tank valves are closed."
    return "" if None in states else "A tank valve is open."


def repeats_of(
    phases: tuple[PhaseRows, ...], shutdowns: tuple[Shutdown, ...], evacuation: Evacuation | None
) -> tuple[Repeat, ...]:
    """Return what failed and was repeated, then what was made again for another reason."""
    found: list[Repeat] = []
    for attempt in evacuation.attempts[:-1] if evacuation else ():
        last = attempt.readings[-1].pressure if attempt.readings else "?"
        said = ". ".join(filter(None, (attempt.note, *attempt.notes)))
        words = f"Evacuation, attempt {attempt.number}: ended at {last} hPa, {said}"
        found.append(_repeat("Evacuation", words, "evacuation", good=attempt.judgement.good))
    for hold in evacuation.holds[:-1] if evacuation else ():
        words = f"Hold test, attempt {hold.number}: {hold.judgement.words}. {hold.note}"
        found.append(_repeat("Hold test", words, "evacuation", good=hold.judgement.good))
    for shutdown in shutdowns:
        for trial in shutdown.trials[:-1]:
            if trial.judgement.good:
                continue
            notes = " ".join(trial.notes)
            words = (
                f"Shutdown {shutdown.number}, {shutdown.name.lower()}, test {trial.number}: "
                f"{trial.judgement.words}. {notes}"
            )
            found.append(_repeat(shutdown.name, words, "shutdowns", good=trial.judgement.good))
    rows = _made_again(phases, evacuation)
    found += [_failed_row(row) for row in rows if not row.judgement.good]
    again = sum(row.judgement.good for row in rows)
    again += sum(t.judgement.good for s in shutdowns for t in s.trials[:-1])
    if again:
        words = (
            f"{again} entries and tests were good and were made again: a new day, a time that ran "
            "out, or something touched."
        )
        found.append(Repeat("again", "Made again", words, "entries"))
    return tuple(sorted(found, key=lambda one: one.kind != "failed"))


def _repeat(label: str, sentence: str, chapter: str, *, good: bool) -> Repeat:
    kind = "again" if good else "failed"
    return Repeat(kind, label, sentence.strip(), chapter)


def _made_again(phases: tuple[PhaseRows, ...], evacuation: Evacuation | None) -> list[Row]:
    """Return the rows that no longer stand, but for those that a chapter of its own tells of."""
    rows = [row for phase in phases for step in phase.steps for row in step.rows]
    told = evacuation.target if evacuation else ""
    return [r for r in rows if not r.standing and not r.chapter and r.entry != told]


def _failed_row(row: Row) -> Repeat:
    words = f"{row.label}: {row.value} {row.unit}".strip()
    return Repeat("failed", row.label, f"{words}, {row.judgement.words}; made again.", "entries")
