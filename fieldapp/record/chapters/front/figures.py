"""The key figures: those on which the safety of a hookup hangs, found by what they measure."""

from collections.abc import Iterator
from decimal import Decimal

from fieldapp.actions.sign_off import label_of
from fieldapp.checklist.model import Entry, Kind, Limits, Measure, Rule
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.values import Value
from fieldapp.judgement.verdict import in_unit, judged, range_of
from fieldapp.record.chapters.deviations import how_settled
from fieldapp.record.chapters.entries import entry_unit
from fieldapp.record.chapters.places import alarms_of, quantity_of, vacuum_of
from fieldapp.record.chapters.shapes.shapes import Figure
from fieldapp.record.chapters.words import (
    figure,
    in_unit_text,
    judgement,
    uncertainty_text,
    unit_sign,
)
from fieldapp.units import rounded

MOST, FEW = 11, 6
SLOWEST_PLACE = 4
# Computed values that a checklist judges, in the order of a job; named by their formula.
FORMULAS = (
    "leak_rate", "leak_rate_by_dial", "expected_litres", "margin_cold", "slug_to_tank", "velocity",
)  # fmt: skip


def figures_of(job: Job, evaluation: Evaluation) -> tuple[Figure, ...]:
    """Return the key figures that are known, those outside their limits always among them."""
    chosen = list(dict.fromkeys(_subjects(job, evaluation)))
    if len(chosen) < FEW:
        chosen = list(dict.fromkeys([*chosen, *_others(job, evaluation)]))
    outside = [d.subject for d in evaluation.deviations if _is_limited(d.subject, evaluation)]
    kept = [s for s in chosen if s not in outside][: max(0, MOST - len(outside))]
    found = [_figure(subject, job, evaluation) for subject in (*kept, *outside)]
    slowest = _slowest(job, evaluation)
    found.insert(min(SLOWEST_PLACE, len(found)), slowest)
    return tuple(one for one in found if one is not None)[:MOST]


def _subjects(job: Job, evaluation: Evaluation) -> Iterator[str]:
    entries = [e for step in job.checklist.steps() for e in step.entries if _limited(e)]
    yield from _by_quantity(entries, "length", job, evaluation)
    yield from _by_quantity(entries, "resistance", job, evaluation)
    vacuum = vacuum_of(job.checklist)
    if vacuum and vacuum.target:
        yield vacuum.target.id
    for formula in FORMULAS:
        judged_ones = [c for c in job.checklist.computed if c.formula == formula and c.step]
        yield from (c.id for c in judged_ones[:1] if c.id in evaluation.values.numbers)
    yield from _by_quantity(entries, "voltage", job, evaluation)
    yield from _by_quantity(entries, "water content", job, evaluation)


def _others(job: Job, evaluation: Evaluation) -> Iterator[str]:
    """Yield all that a checklist judges by a figure: what it works out, then what is read."""
    numbers = evaluation.values.numbers
    yield from (c.id for c in job.checklist.computed if c.step and c.limits != Limits()
                and c.id in numbers)  # fmt: skip
    for step in job.checklist.steps():
        yield from (e.id for e in step.entries if _limited(e) and e.id in numbers)


def _limited(entry: Entry) -> bool:
    if entry.kind is not Kind.NUMBER or entry.measure is None:
        return False
    limits = entry.measure.limits
    return (limits.low, limits.high, limits.about) != (None, None, None)


def _by_quantity(
    entries: list[Entry], quantity: str, job: Job, evaluation: Evaluation
) -> Iterator[str]:
    """Yield the entry of a quantity that says most: a limit worked out, a guard, a lone limit."""
    known = [
        e for e in entries
        if e.measure and quantity_of(e.measure.unit) == quantity
        and e.id in evaluation.values.numbers and e.measure.limits.about is None
    ]  # fmt: skip
    best = max(known, key=lambda e: _weight(e, job), default=None)
    if best is not None:
        yield best.id


def _weight(entry: Entry, job: Job) -> int:
    assert entry.measure is not None  # noqa: S101 - chosen by it
    limits = entry.measure.limits
    named = [b.name for b in (limits.low, limits.high) if b is not None and b.name]
    computed = {c.id for c in job.checklist.computed}
    return 2 * (limits.rule is Rule.GUARDED) + any(name in computed for name in named)


def _is_limited(subject: str, evaluation: Evaluation) -> bool:
    """Say whether a subject is a number that has limits (not only an overdue instrument)."""
    verdicts = [s.verdicts[subject] for s in evaluation.steps.values() if subject in s.verdicts]
    limited = any((v.range.low, v.range.high) != (None, None) for v in verdicts)
    return limited and subject in evaluation.values.numbers


def _figure(subject: str, job: Job, evaluation: Evaluation) -> Figure | None:
    unit = entry_unit(job.checklist, subject)
    value = evaluation.values.numbers.get(subject)
    standing = next((s for s in evaluation.steps.values() if subject in s.verdicts), None)
    if value is None or standing is None:
        return None
    verdict = standing.verdicts[subject]
    found = next((d for d in standing.deviations if d.subject == subject), None)
    decimals = _decimals(subject, job)
    return Figure(
        subject=subject,
        label=label_of(job, subject),
        step=standing.step.title,
        value=in_unit_text(value, unit, decimals),
        unit=unit_sign(unit),
        uncertainty=uncertainty_text(value, unit, decimals + 1),
        judgement=judgement(verdict, unit, settled=how_settled(found) if found else ""),
    )


def _decimals(subject: str, job: Job) -> int:
    for computed in job.checklist.computed:
        if computed.id == subject:
            return computed.decimals
    measure = job.checklist.entry(subject).measure
    return measure.decimals if measure else 0


def _slowest(job: Job, evaluation: Evaluation) -> Figure | None:
    """Return the shutdown whose valves took longest to close, with the limit for it."""
    times: list[tuple[Decimal, Entry, Value]] = []
    for entry in alarms_of(job.checklist):
        value = evaluation.values.numbers.get(f"{entry.id}_closed_after")
        if value is not None and value.written is not None:
            times.append((value.written, entry, value))
    if not times:
        return None
    seconds, entry, value = max(times, key=lambda one: one[0])
    measure = Measure("s", 1)
    if entry.closed_within is not None:
        measure = Measure("s", 1, Limits(high=entry.closed_within))
    limits = range_of(measure, evaluation.values.numbers)
    number, _ = in_unit(value, "s")
    verdict = judged(rounded(number, 1, "up"), measure, limits, entry.waive)
    return Figure(
        subject=f"{entry.id}_closed_after",
        label="Slowest shutdown, to both valves closed",
        step=entry.label,
        value=figure(seconds, 1, "up"),
        unit="s",
        uncertainty="",
        judgement=judgement(verdict, "s"),
    )
