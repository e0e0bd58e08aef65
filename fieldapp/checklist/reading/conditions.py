"""Which steps are asked for: by a fact of the job sheet, or by an answer given before."""

from fieldapp.checklist.model import Answer, Checklist, Entry, Kind
from fieldapp.checklist.reading.names import Tables, Values, check_value, fault_name, steps
from fieldapp.checklist.reading.shapes import Table
from fieldapp.checklist.values import YES_NO

CONFIRMED = "yes"
"""What a confirmation answers."""


def read_condition(table: Table, key: str) -> tuple[str, Answer | None]:
    """Return the fact that stands at the key, or else the answer."""
    if not isinstance(table.any(key), dict):
        return table.identifier(key, needed=False), None
    below = table.table(key)
    assert below is not None  # noqa: S101 - it is a table
    entry = below.identifier("entry")
    texts = below.texts("is") if isinstance(below.any("is"), list) else (below.text("is"),)
    if below.any("is") == []:
        below.fault("is holds no answer: name one or more", "is")
    below.close()
    found = tuple(filter(None, texts))
    return "", Answer(entry, found) if entry and found else None


def answers_of(entry: Entry) -> tuple[str, ...]:
    """Return the answers that an entry can have; none where it is not answered by a choice."""
    if entry.kind is Kind.CONFIRM:
        return (CONFIRMED,)
    return tuple(option.text for option in entry.options)


def check_conditions(checklist: Checklist, tables: Tables, values: Values) -> None:
    """Note conditions that name no fact, or no answer of an earlier step."""
    entries = {entry.id: entry for step in checklist.steps() for entry in step.entries}
    earlier: set[str] = set()
    for step, table in steps(checklist, tables):
        for key, name in (("when", step.when), ("unless", step.unless)):
            if name in entries:
                what = f"{key} “{name}” is an entry: write {{ entry = “{name}”, is = “…” }}"
                table.fault(what, key)
            else:
                check_value(table, key, name, values, YES_NO)
        for key, answer in (("when", step.when_answer), ("unless", step.unless_answer)):
            if answer is not None:
                _check_answer(answer, table.below(key), entries, earlier)
        earlier |= {entry.id for entry in step.entries}


def _check_answer(
    answer: Answer, table: Table, entries: dict[str, Entry], earlier: set[str]
) -> None:
    entry = entries.get(answer.entry)
    if entry is None:
        near = table.nearest(answer.entry, entries)
        table.fault(f"entry “{answer.entry}” is no entry of this checklist{near}", "entry")
    elif entry.kind not in (Kind.CHOICE, Kind.CONFIRM):
        what = f"entry “{entry.id}” is of kind {entry.kind}: here belongs a choice or a confirm"
        table.fault(what, "entry")
    elif entry.id not in earlier:
        what = f"entry “{entry.id}” is not answered before this step: ask in an earlier one"
        table.fault(what, "entry")
    else:
        _check_texts(answer, entry, table)


def _check_texts(answer: Answer, entry: Entry, table: Table) -> None:
    known = answers_of(entry)
    for text in answer.texts:
        if text not in known:
            near = table.nearest(text, known, f": take one of {', '.join(known)}")
            fault_name(table, f"is “{text[:60]}” is no answer of “{entry.id}”{near}", "is", text)
