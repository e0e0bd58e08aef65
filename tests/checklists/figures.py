"""Every figure that a step holds people to, by subject and by what it bounds."""

from decimal import Decimal


def found_in(checklist, step):
    """Return {(subject, which): figure}; constants count with their figure."""
    constants = {constant.id: constant.number for constant in checklist.constants}
    found: dict[tuple[str, str], Decimal] = {}
    for entry in step.entries:
        for measure in (entry.measure, *(column.measure for column in entry.columns)):
            if measure:
                found |= _limits(entry.id, measure.limits, constants)
        found |= _times(entry, constants)
    for computed in checklist.computed:
        if computed.step == step.id and computed.judged:
            found |= _limits(computed.id, computed.limits, constants)
    return found


def _limits(subject, limits, constants):
    found = {
        (subject, "min"): _figure(limits.low, constants),
        (subject, "max"): _figure(limits.high, constants),
        (subject, "within"): limits.within,
        (subject, "within percent"): limits.within_percent,
    }
    return {key: figure for key, figure in found.items() if figure is not None}


def _times(entry, constants):
    found = {
        (entry.id, "closed within"): _figure(entry.closed_within, constants),
        (entry.id, "minutes held"): Decimal(entry.times[-1]) if entry.times else None,
        (entry.id, "readings"): Decimal(entry.readings) if entry.readings else None,
        (entry.id, "seconds ahead"): _seconds(entry.ahead_low),
        (entry.id, "most seconds ahead"): _seconds(entry.ahead_high),
        (entry.id, "most seconds old"): _seconds(entry.age_high),
    }
    return {key: figure for key, figure in found.items() if figure is not None}


def _figure(bound, constants):
    if bound is None:
        return None
    return bound.number if bound.number is not None else constants.get(bound.name)


def _seconds(value):
    return None if value is None else Decimal(int(value))
