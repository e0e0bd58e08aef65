"""The shutdowns: a row for every test, with what was seen and the seconds to both valves closed."""

from collections.abc import Mapping
from dataclasses import dataclass

from fieldapp.record.chapters.shapes.shapes import Shutdown, Trial
from fieldapp.record.pages.kit.lettering import BOLD, REGULAR, SEMIBOLD, lines, shortened, width
from fieldapp.record.pages.kit.marks import (
    INSIDE,
    OPEN,
    OUTSIDE,
    PAST_INSIDE,
    PAST_OUTSIDE,
    mark,
    mark_of,
    verdict,
)
from fieldapp.record.pages.kit.paper import (
    BAD,
    FAILED_ROW,
    HAIR,
    INK,
    RULE,
    SECONDARY,
    TEXT_WIDTH,
    Paper,
)
from fieldapp.record.pages.kit.volume import Flow

ROW = 30.0
NAME = "shutdowns"
NOTE = "each by a real stimulus on the device itself; wet ones in bypass, tank valves locked shut"
NUMBER, TITLE, SEEN_AT, LIMITS, CHECKS = 0.0, 12.0, 178.0, 186.0, 254.0
CHART, CHART_WIDE, VERDICT = 372.0, 50.0, 432.0
CHECK_STEP = 25.0
MOST_COLUMNS = 5
LEAST = 230.0  # title, heads, legend and the rules of the page
RULES = (
    (
        "A shutdown is proven when the skid tripped, everything asked for was seen, both valves "
        "closed in time, and it was restored."
    ),
    (
        "A stimulus is real when it acts on the device itself. Forcing a signal in the controller "
        "proves nothing and is not offered."
    ),
    (
        "A test that was followed by a repair or a change stays on this page, in outline; the "
        "shutdown was tested again after it."
    ),
    "A shutdown that cannot be proven holds the gate: the tank valves stay closed.",
)


@dataclass(frozen=True, slots=True)
class Columns:
    """What most shutdowns must show, each with a column; and the seconds the chart reaches to."""

    checks: tuple[str, ...]
    seconds: float
    limit: float | None


def draw_shutdowns(flow: Flow) -> None:
    """Draw the shutdowns, if this job proves any."""
    shutdowns = flow.volume.content.shutdowns
    fitted = tuple(shutdown for shutdown in shutdowns if shutdown.asked)
    if not fitted:
        return
    flow.chapter("Shutdowns", NOTE, NAME, needs=LEAST + ROW * len(fitted))
    _outcome(flow.paper, flow.y - 1, fitted)
    flow.y += 10
    columns = _columns(fitted)
    flow.heads(lambda y: _heads(flow.paper, y, columns))
    for shutdown in fitted:
        for trial in shutdown.trials:
            _trial(flow, shutdown, trial, columns)
        if not shutdown.trials:
            _untried(flow, shutdown)
    flow.paper.rule(flow.y)
    flow.heads(None)
    _legend(flow, columns)
    _missing(flow, shutdowns)
    _failed(flow, fitted)
    _rules(flow)


def _outcome(paper: Paper, y: float, fitted: tuple[Shutdown, ...]) -> None:
    proven = [s for s in fitted if s.proven]
    failed = [t for s in fitted for t in s.trials if not t.judgement.good]
    kind = INSIDE if len(proven) == len(fitted) else OPEN
    paper.tag("P")
    end = verdict(paper, kind, 0, y, f"{len(proven)} of {len(fitted)} shutdowns proven.", 9, 9)
    if failed:
        again = sum(not t.standing for t in failed)
        words = f"{len(failed)} test failed" if len(failed) == 1 else f"{len(failed)} tests failed"
        words += "; tested again after the change." if again else "."
        verdict(paper, PAST_OUTSIDE if again else OUTSIDE, end + 24, y, words, 9, 9)


def _columns(fitted: tuple[Shutdown, ...]) -> Columns:
    trials = [trial for shutdown in fitted for trial in shutdown.trials]
    counts: dict[str, int] = {}
    for trial in trials:
        for check in trial.checks:
            counts[check.text] = counts.get(check.text, 0) + 1
    shared = [text for text, count in counts.items() if count * 2 > len(trials)]
    times = [float(t.closed_after.replace(",", ".")) for t in trials if t.closed_after]
    limits = [float(s.closed_within) for s in fitted if s.closed_within]
    most = max((*times, *limits, 1.0)) * 1.2
    limit = limits[0] if limits and len(set(limits)) == 1 else None
    return Columns(tuple(shared[:MOST_COLUMNS]), most, limit)


def _heads(paper: Paper, y: float, columns: Columns) -> float:
    paper.rule(y)
    for x, name, align in (
        (TITLE, "shutdown", "left"),
        (SEEN_AT, "tripped at", "right"),
        (LIMITS, "limits", "left"),
        (VERDICT + 2, "verdict", "left"),
    ):
        paper.text(x, y + 9, name, 7, SEMIBOLD, SECONDARY, align)
    for x, name in ((TITLE, "how"), (LIMITS, "set point"), (VERDICT + 2, "time, by")):
        paper.text(x, y + 18, name, 7, REGULAR, SECONDARY)
    for place, check in enumerate(columns.checks):
        x = CHECKS + CHECK_STEP * place
        words = lines(check, CHECK_STEP - 1, 6.2)[:3]
        for line, word in enumerate(words):
            paper.text(x, y + 9 + 7 * line, word, 6.2, REGULAR, SECONDARY, "middle")
    paper.text(CHART, y + 9, "closed, s", 7, SEMIBOLD, SECONDARY)
    for seconds in range(0, int(columns.seconds) + 1, 2):
        paper.text(_across(seconds, columns), y + 21, str(seconds), 6.8, REGULAR, SECONDARY,
                   "middle")  # fmt: skip
    paper.line(0, y + 25, TEXT_WIDTH, y + 25, 0.25, RULE)
    return y + 25


def _across(seconds: float, columns: Columns) -> float:
    return CHART + seconds / columns.seconds * CHART_WIDE


def _trial(flow: Flow, shutdown: Shutdown, trial: Trial, columns: Columns) -> None:
    paper, top = flow.paper, flow.row(ROW)
    good, y = trial.judgement.good, top + 12.5
    if not good:
        paper.box(0, top + 0.3, TEXT_WIDTH, ROW - 0.6, FAILED_ROW)
    paper.text(NUMBER, y, str(shutdown.number), 8.2, BOLD)
    several = f", test {trial.number}" if len(shutdown.trials) > 1 else ""
    name = f"{shutdown.name}{several}"
    value = f"{trial.value} {trial.unit}".strip().replace(" ", "\u00a0")
    room = SEEN_AT - TITLE - 8 - width(value, 8, SEMIBOLD)
    paper.text(TITLE, y, shortened(name, room, 8.2, SEMIBOLD), 8.2, SEMIBOLD)
    how = _extra(trial, columns) or shutdown.label
    paper.text(TITLE, y + 9.6, shortened(how, 168, 7), 7, REGULAR, SECONDARY)
    paper.text(SEEN_AT, y, value, 8, SEMIBOLD, INK, "right")
    paper.text(LIMITS, y, shortened(shutdown.limits, 56, 7.8), 7.8)
    paper.text(LIMITS, y + 9.6, shortened(shutdown.set_point, 56, 7), 7, REGULAR, SECONDARY)
    _checks(paper, top + ROW / 2, trial, columns)
    _time(paper, top, trial, columns)
    _said(paper, y, shutdown, trial, flow.volume.initials)
    paper.line(0, top + ROW, TEXT_WIDTH, top + ROW, 0.25, HAIR)


def _extra(trial: Trial, columns: Columns) -> str:
    """Return in words what was seen beside the columns."""
    rest = [check for check in trial.checks if check.text not in columns.checks]
    if not rest or not trial.tripped:
        return ""
    return "also: " + "; ".join(c.text if c.seen else f"not seen: {c.text}" for c in rest)


def _checks(paper: Paper, y: float, trial: Trial, columns: Columns) -> None:
    seen = {check.text: check.seen for check in trial.checks}
    for place, check in enumerate(columns.checks):
        x = CHECKS + CHECK_STEP * place
        if not trial.tripped or check not in seen:
            mark(paper, "dash", x, y, 8)
        elif seen[check]:
            mark(paper, INSIDE if trial.standing else PAST_INSIDE, x, y, 8)
        else:
            mark(paper, OUTSIDE if trial.standing else PAST_OUTSIDE, x, y, 8)


def _time(paper: Paper, top: float, trial: Trial, columns: Columns) -> None:
    """Draw the seconds to both valves closed against their limit."""
    middle = top + ROW / 2
    for seconds in range(0, int(columns.seconds) + 1, 2):
        x = _across(seconds, columns)
        paper.line(x, top, x, top + ROW, 0.25, HAIR)
    if columns.limit is not None:
        x = _across(columns.limit, columns)
        paper.line(x, top, x, top + ROW, 0.8, BAD)
        for place in range(6):
            y = top + 1 + place * 5
            paper.line(x, y, x + 2.6, y + 2.6, 0.4, BAD)
    if not trial.closed_after:
        words = "not closed" if trial.tripped else "no trip"
        paper.text(CHART + 3, middle + 2.4, words, 6.8, SEMIBOLD, BAD)
        return
    x = _across(float(trial.closed_after.replace(",", ".")), columns)
    paper.line(_across(0, columns), middle, x, middle, 0.5, RULE)
    if trial.standing:
        paper.disc(x, middle, 2.1, INK)
    else:
        paper.disc(x, middle, 2.1, None, RULE, 0.8)
    paper.patch(x - 5, middle - 3.4, trial.closed_after, 6.8, REGULAR, INK, "right")


def _said(
    paper: Paper, y: float, shutdown: Shutdown, trial: Trial, initials: Mapping[str, str]
) -> None:
    kind = mark_of(trial.judgement.place, standing=trial.standing)
    good = trial.judgement.good
    words = "proven" if good else trial.judgement.words.split(". ")[0]
    if shutdown.lapsed and trial is shutdown.trials[-1]:
        words = "to do again"
    verdict(paper, kind, VERDICT, y, shortened(words, 60, 7.6, SEMIBOLD), 7.6, room=62)
    who = f"{trial.at[5:10]} {trial.at[11:16]} {initials.get(trial.by, '')}"
    paper.text(VERDICT + 10.5, y + 9.6, who, 7, REGULAR, SECONDARY, room=62)


def _untried(flow: Flow, shutdown: Shutdown) -> None:
    paper, top = flow.paper, flow.row(ROW)
    y = top + 12.5
    paper.text(NUMBER, y, str(shutdown.number), 8.2, BOLD)
    paper.text(TITLE, y, shortened(shutdown.name, 160, 8.2, SEMIBOLD), 8.2, SEMIBOLD)
    paper.text(TITLE, y + 9.6, shortened(shutdown.label, 168, 7), 7, REGULAR, SECONDARY)
    paper.text(LIMITS, y, shortened(shutdown.limits, 56, 7.8), 7.8)
    paper.text(LIMITS, y + 9.6, shortened(shutdown.set_point, 56, 7), 7, REGULAR, SECONDARY)
    verdict(paper, OPEN, VERDICT, y, "not yet tested", 7.6)
    paper.line(0, top + ROW, TEXT_WIDTH, top + ROW, 0.25, HAIR)


def _legend(flow: Flow, columns: Columns) -> None:
    paper, y = flow.paper, flow.row(12) + 11
    words = "Closed: seconds from the stimulus until both self-closing valves are closed"
    if columns.limit is not None:
        words += f", at most {columns.limit:g} s (red line)"
    paper.text(0, y, f"{words}. Outline: a test that no longer stands. Dash: not asked for.", 7,
               REGULAR, SECONDARY)  # fmt: skip


def _missing(flow: Flow, shutdowns: tuple[Shutdown, ...]) -> None:
    said = (
        ("Not fitted on this skid, by the job sheet", [s for s in shutdowns if not s.fitted]),
        ("Fitted, and not asked for here", [s for s in shutdowns if s.fitted and not s.asked]),
    )
    for words, found in said:
        names = "; ".join(shutdown.name for shutdown in found)
        for line in lines(f"{words}: {names}.", TEXT_WIDTH, 7) if found else ():
            flow.paper.text(0, flow.row(11) + 11, line, 7, REGULAR, SECONDARY)


def _failed(flow: Flow, fitted: tuple[Shutdown, ...]) -> None:
    """Write what was found and done after each test that no longer stands."""
    for shutdown in fitted:
        for trial in shutdown.trials[:-1]:
            _after(flow, shutdown, trial)


def _after(flow: Flow, shutdown: Shutdown, trial: Trial) -> None:
    later = shutdown.trials[trial.number]
    said = [("Seen", trial.judgement.sentence)]
    said += [("Then", words) for words in trial.notes]
    said.append(("Again", f"Test {later.number}, {later.at[11:16]}: {later.judgement.words}."))
    title = "The failed test" if not trial.judgement.good else "Tested again"
    note = f"shutdown {shutdown.number}, {shutdown.name.lower()}, test {trial.number}"
    flow.section(title, f"{note}, {trial.at[11:16]}; kept as it was entered", 12 * len(said) + 8)
    y = flow.y + 12
    for label, words in said:
        flow.paper.tag("P")
        flow.paper.text(0, y, label, 7.2, REGULAR, SECONDARY)
        for line in lines(words, 468, 7.8):
            flow.paper.text(36, y, line)
            y += 12
    flow.paper.rule(y - 6)
    flow.y = y - 6


def _rules(flow: Flow) -> None:
    flow.section("Rules of this page", "", 12 * len(RULES) + 8)
    y = flow.y + 12
    for place, rule in enumerate(RULES):
        flow.paper.tag("P")
        flow.paper.text(0, y, str(place + 1), 7.2, REGULAR, SECONDARY)
        for line in lines(rule, 490, 7.8):
            flow.paper.text(12, y, line)
            y += 11
        y += 1
    flow.y = y
