"""Room to write in for each entry of a blank, with its unit and its limits in words."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from fieldapp.checklist.facts import facts_by_id
from fieldapp.checklist.model import (
    Bound,
    Checklist,
    Computed,
    Entry,
    Kind,
    Limits,
    Measure,
    Step,
    Waive,
)
from fieldapp.job.sheet import JobSheet
from fieldapp.judgement.values import Values
from fieldapp.judgement.verdict import Range, limit_sentence, range_of
from fieldapp.record.chapters.blanks.blank_shapes import Choice, Column, Room
from fieldapp.record.chapters.words import entry_limits, in_unit_text, unit_sign
from fieldapp.units import rounded, written

OTHERWISE = {
    Waive.NEVER: "else stop",
    Waive.OWNER: "else owner’s engineer",
    Waive.LEAD: "else crew lead",
    Waive.REASON: "else say why",
}
SPARE_ROWS = 2
MOST_ROWS = 14


@dataclass(frozen=True, slots=True)
class Source:
    """What the words come from: checklist, job sheet, and the values that it states."""

    checklist: Checklist
    sheet: JobSheet
    values: Values


def rooms_of(step: Step, source: Source) -> tuple[Room, ...]:
    """Return room for each entry of a step, and for each value that is worked out at it."""
    rooms = [room for entry in step.entries if (room := _room(entry, source)) is not None]
    worked = [_worked(c, source) for c in source.checklist.computed if c.step == step.id]
    signs = [room for room in rooms if room.kind == "sign"]
    return (*(room for room in rooms if room.kind != "sign"), *worked, *signs)


def _room(entry: Entry, source: Source) -> Room | None:
    if entry.trip and source.sheet.yes_no(f"{entry.trip}_fitted") is False and not entry.required:
        return Room("note", f"{entry.label}: not fitted, by the job sheet")
    return _ROOMS[entry.kind](entry, source)


def _figure(entry: Entry, source: Source) -> Room:
    assert entry.measure is not None  # noqa: S101 - the reader saw to it
    limits = limits_in_words(entry.measure, source)
    return Room(
        "box", _label(entry), unit_sign(entry.measure.unit), limits, _otherwise(entry, limits)
    )


def _tick(entry: Entry, source: Source) -> Room:  # noqa: ARG001 - as the others
    return Room("tick", _label(entry))


def _words(entry: Entry, source: Source) -> Room:
    limits = "another person" if entry.other_person else ""
    if entry.equals:
        stated = source.sheet.text_of(entry.equals)
        limits = f"must be: {stated}" if stated else "as the job sheet says"
    return Room("words", _label(entry), limits=limits, otherwise=_otherwise(entry, limits))


def _time(entry: Entry, source: Source) -> Room:
    limits = entry_limits(entry, source.values)
    if entry.expires:
        limits = ", ".join(filter(None, (limits, "the step counts until then")))
    bounded = (entry.ahead_low, entry.ahead_high, entry.age_high) != (None, None, None)
    otherwise = _otherwise(entry, limits) if bounded else ""
    return Room("words", f"{_label(entry)} (date, time)", limits=limits, otherwise=otherwise)


def _choice(entry: Entry, source: Source) -> Room:
    choices = tuple(
        Choice(option.text, OTHERWISE[option.waive].removeprefix("else ") if option.waive else "")
        for option in entry.options
    )
    stated = source.sheet.text_of(entry.equals) if entry.equals else None
    limits = f"must be: {stated}" if stated else "as the job sheet says" if entry.equals else ""
    return Room("choice", _label(entry), limits=limits, choices=choices,
                otherwise=_otherwise(entry, limits))  # fmt: skip


def _table(entry: Entry, source: Source) -> Room:
    columns = tuple(
        Column(c.label, unit_sign(c.measure.unit), limits_in_words(c.measure, source))
        for c in entry.columns
    )
    if entry.kind is Kind.HOLD:
        rows = tuple(map(str, entry.times)) if columns else ("begin", "end")
        label = f"{_label(entry)}: at {', '.join(map(str, entry.times))} min"
    else:
        rows = ("",) * min(entry.readings + SPARE_ROWS, MOST_ROWS)
        label = f"{_label(entry)}: {entry.readings} readings or more, every {_pace(entry.every)}"
    limited = any(column.limits for column in columns)
    otherwise = OTHERWISE[entry.waive] if limited or entry.kind is Kind.HOLD else ""
    return Room("table", label, columns=columns, rows=rows, otherwise=otherwise)


def _proof(entry: Entry, source: Source) -> Room:
    measure = entry.measure
    closed = ""
    if entry.closed_within is not None:
        seconds = Measure("s", 1, Limits(high=entry.closed_within))
        closed = limits_in_words(seconds, source)
    return Room(
        "proof",
        _label(entry),
        unit=unit_sign(measure.unit) if measure else "",
        limits=limits_in_words(measure, source) if measure else "",
        otherwise="else stop: repair, prove again",
        checks=entry.checks,
        closed=closed,
    )


def _photo(entry: Entry, source: Source) -> Room:  # noqa: ARG001 - as the others
    return Room("words", f"{_label(entry)}: picture number")


def _sign(entry: Entry, source: Source) -> Room:  # noqa: ARG001 - as the others
    return Room("sign", entry.label)


def _worked(computed: Computed, source: Source) -> Room:
    measure = Measure(computed.unit, computed.decimals, computed.limits)
    value = source.values.numbers.get(computed.id)
    limits = limits_in_words(measure, source)
    label = f"{computed.label} ({computed.formula.replace('_', ' ')})"
    if value is not None:
        figure = in_unit_text(value, computed.unit, computed.decimals, computed.rounding)
        return Room("note", f"{label}: {figure} {unit_sign(computed.unit)}".strip(), limits=limits)
    otherwise = OTHERWISE[computed.waive] if computed.judged else ""
    return Room("box", f"Worked out: {label}", unit_sign(computed.unit), limits, otherwise)


def _label(entry: Entry) -> str:
    return f"{entry.label} (may be left out)" if entry.optional else entry.label


def _otherwise(entry: Entry, limits: str) -> str:
    return OTHERWISE[entry.waive] if limits else ""


def _pace(seconds: int) -> str:
    return f"{seconds // 60} min" if seconds >= 120 and not seconds % 60 else f"{seconds} s"  # noqa: PLR2004


def limits_in_words(measure: Measure, source: Source) -> str:
    """Return the limits worked out if they can be, else what they rest on; "" if there are none."""
    if measure.limits == Limits():
        return ""
    found = range_of(measure, source.values.numbers)
    if not found.missing:
        found = range_of(measure, source.values.numbers, _guard(measure, found, source))
        first, *more = limit_sentence(found, measure).rstrip(".").split(". ")
        return "; ".join((first, *(f"{words[0].lower()}{words[1:]}" for words in more)))
    return ", ".join(_bounds(measure.limits, measure, source))


def _guard(measure: Measure, limits: Range, source: Source) -> Decimal:
    """Return the uncertainty of the job sheet's instrument at the limit."""
    instrument = source.sheet.instrument(measure.instrument) if measure.instrument else None
    if instrument is None:
        return Decimal(0)
    at = next(bound for bound in (limits.high, limits.low, Decimal(0)) if bound is not None)
    return rounded(instrument.uncertainty(at, measure.unit), measure.decimals + 2, "up")


def _bounds(limits: Limits, measure: Measure, source: Source) -> list[str]:
    words = []
    if limits.low is not None:
        words.append(f"at least {_bound(limits.low, measure, source)}")
    if limits.high is not None:
        words.append(f"at most {_bound(limits.high, measure, source)}")
    if limits.about is not None:
        spread = f"{limits.within_percent} %" if limits.within is None else (
            f"{written(limits.within)} {unit_sign(measure.unit)}"
        )  # fmt: skip
        words.append(f"within {spread} of {_bound(limits.about, measure, source)}")
    return words


def _bound(bound: Bound, measure: Measure, source: Source) -> str:
    unit = unit_sign(measure.unit)
    if bound.number is not None:
        return f"{written(bound.number)} {unit}".strip()
    value = source.values.numbers.get(bound.name)
    if value is not None:
        return f"{in_unit_text(value, measure.unit, measure.decimals)} {unit}".strip()
    return f"“{_named(bound.name, source.checklist)}”"


def _named(name: str, checklist: Checklist) -> str:
    labels = {fact.id: fact.label for fact in facts_by_id().values()}
    labels |= {entry.id: entry.label for step in checklist.steps() for entry in step.entries}
    labels |= {computed.id: computed.label for computed in checklist.computed}
    return labels.get(name, name.replace("_", " "))


_ROOMS: dict[Kind, Callable[[Entry, Source], Room | None]] = {
    Kind.CONFIRM: _tick,
    Kind.NUMBER: _figure,
    Kind.CHOICE: _choice,
    Kind.TEXT: _words,
    Kind.SERIAL: _words,
    Kind.TIME: _time,
    Kind.TRACE: _table,
    Kind.HOLD: _table,
    Kind.ALARM: _proof,
    Kind.PHOTO: _photo,
    Kind.SIGN: _sign,
}
