"""Reads a checklist from TOML: the whole checklist, or everything that is wrong with it."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from fieldapp.checklist.facts import PARTS
from fieldapp.checklist.model import (
    Caution,
    Checklist,
    Computed,
    Constant,
    Follows,
    Happening,
    Phase,
    Question,
    SignalWord,
    Step,
    Waive,
)
from fieldapp.checklist.problems import Problem, decoded, opened, without_mark
from fieldapp.checklist.reading.conditions import read_condition
from fieldapp.checklist.reading.document import Document
from fieldapp.checklist.reading.entries import (
    MOST_DECIMALS,
    read_entry,
    require_basis,
    seconds,
)
from fieldapp.checklist.reading.limits import read_limits
from fieldapp.checklist.reading.references import check_references
from fieldapp.checklist.reading.shapes import LONGEST_TEXT, Table
from fieldapp.engineering.catalogue import FORMULAS, Formula
from fieldapp.units import UNITS

FORMAT = 1
LATEST_REVISION = 100_000
FOLLOWS = tuple(word.value for word in Follows if word.value)
ROUNDINGS = ("nearest", "up", "down")


@dataclass(frozen=True, slots=True)
class Sound:
    """A checklist that was found sound, with the tables and lines of its file."""

    checklist: Checklist
    document: Document


def read_checklist(
    content: str | bytes, catalogue: Mapping[str, Formula] = FORMULAS
) -> Checklist | tuple[Problem, ...]:
    """Return the checklist that a file's text describes, or every problem in it by line."""
    found = read_with_lines(content, catalogue)
    return found.checklist if isinstance(found, Sound) else found


def read_with_lines(
    content: str | bytes, catalogue: Mapping[str, Formula] = FORMULAS
) -> Sound | tuple[Problem, ...]:
    """Return the checklist with the lines of its file, or every problem in it by line."""
    text = decoded(content) if isinstance(content, bytes) else content
    if isinstance(text, Problem):
        return (text,)
    values = opened(text)
    if isinstance(values, Problem):
        return (values,)
    document = Document(without_mark(text))
    if _newer(values):
        what = f"format is made for a newer fieldapp: this one reads format {FORMAT}"
        document.note(("format",), "the checklist", what)
        return document.problems()
    checklist = _checklist(Table(document, (), "the checklist", values))
    check_references(checklist, document, catalogue)
    return document.problems() or Sound(checklist, document)


def _newer(values: Mapping[str, object]) -> bool:
    number = values.get("format")
    return isinstance(number, int) and number > FORMAT


def _checklist(table: Table) -> Checklist:
    table.whole("format", FORMAT, FORMAT)
    checklist = Checklist(
        id=table.identifier("id"),
        revision=table.whole("revision", 1, LATEST_REVISION),
        title=table.text("title"),
        follows=Follows(table.word("follows", FOLLOWS, "")),
        constants=tuple(map(_constant, table.tables("constant", "constant"))),
        questions=tuple(map(_question, table.tables("question", "question"))),
        happenings=tuple(map(_happening, table.tables("happening", "happening"))),
        computed=tuple(map(_computed, table.tables("computed", "computed"))),
        phases=tuple(map(_phase, table.tables("phase", "phase", needed=True))),
    )
    if table.any("phase") == []:
        table.fault("phase is empty: add a [[phase]] with its steps", "phase")
    table.close()
    return checklist


def _constant(table: Table) -> Constant:
    value = table.quantity("value")
    constant = Constant(
        id=table.identifier("id"),
        label=table.text("label"),
        number=value.number if value else Decimal(0),
        unit=value.unit.name if value else "",
        source=table.text("source"),
        owner=table.truth("owner"),
        line=table.line(),
    )
    table.close()
    return constant


def _question(table: Table) -> Question:
    otherwise = table.truth("otherwise", otherwise=None)
    question = Question(table.identifier("id"), table.text("label"), otherwise, table.line())
    table.close()
    return question


def _happening(table: Table) -> Happening:
    happening = Happening(table.identifier("id"), table.text("label"), table.line())
    table.close()
    return happening


def _computed(table: Table) -> Computed:
    computed = Computed(
        id=table.identifier("id"),
        label=table.text("label"),
        formula=table.identifier("formula"),
        inputs=_inputs(table.table("inputs", needed=True)),
        unit=table.word("unit", tuple(UNITS)),
        decimals=table.whole("decimals", 0, MOST_DECIMALS),
        line=table.line(),
        rounding=table.word("rounding", ROUNDINGS, "nearest"),
        step=table.identifier("step", needed=False),
        limits=read_limits(table.table("limits")),
        waive=Waive(table.word("waive", tuple(Waive), "reason") or "reason"),
        basis=table.text("basis", needed=False),
    )
    table.close()
    if table.has("limits"):
        require_basis(table)
        if not table.has("step"):
            table.fault("limits need a step: name the one that they hold up", "limits")
    return computed


def _inputs(table: Table | None) -> tuple[tuple[str, str], ...]:
    """Return the inputs as text; what they mean is looked at with all values at hand."""
    keys = table.keys() if table else ()
    return tuple((key, table.text(key)) for key in keys) if table else ()


def _phase(table: Table) -> Phase:
    steps = table.tables("step", "step", needed=True)
    if table.any("step") == []:
        table.fault("step is empty: add a [[phase.step]]", "step")
    phase = Phase(
        table.identifier("id"), table.text("title"), table.line(), tuple(map(_step, steps))
    )
    table.close()
    return phase


def _step(table: Table) -> Step:
    entries = table.tables("entry", "entry", around=f"{table.where}, ")
    when, when_answer = read_condition(table, "when")
    unless, unless_answer = read_condition(table, "unless")
    step = Step(
        id=table.identifier("id"),
        title=table.text("title"),
        line=table.line(),
        entries=tuple(map(read_entry, entries)),
        text=table.text("text", needed=False, longest=LONGEST_TEXT),
        caution=_caution(table.table("caution")),
        needs=table.identifiers("needs"),
        when=when,
        unless=unless,
        when_answer=when_answer,
        unless_answer=unless_answer,
        undone_by=table.identifiers("undone_by"),
        lasts=seconds(table, "lasts"),
        until=table.identifiers("until"),
        causes=table.identifiers("causes"),
        part=table.word("part", tuple(PARTS), ""),
        requires=_states(table.table("requires")),
        sets=_states(table.table("sets")),
    )
    if not table.any("entry"):
        table.fault("nothing is given at this step: add an entry, such as one to confirm")
    table.close()
    return step


def _caution(table: Table | None) -> Caution | None:
    if table is None:
        return None
    word = table.word("word", tuple(SignalWord))
    text = table.text("text", longest=LONGEST_TEXT)
    table.close()
    return Caution(SignalWord(word), text) if word else None


def _states(table: Table | None) -> tuple[tuple[str, str], ...]:
    if table is None:
        return ()
    pairs = []
    for part in table.keys():  # noqa: SIM118 - a table of the file, not a mapping
        states = PARTS.get(part, ())
        if not states:
            known = [name for name, of_part in PARTS.items() if of_part]
            table.fault(f"“{part[:60]}” is no part with a state{table.nearest(part, known)}", part)
        elif state := table.word(part, states):
            pairs.append((part, state))
    return tuple(pairs)
