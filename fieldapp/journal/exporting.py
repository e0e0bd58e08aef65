"""The events of a job as a table for other programs: JSON or CSV."""

import csv
import json
import re
from collections.abc import Iterator, Mapping
from datetime import datetime
from io import StringIO
from typing import Any

from fieldapp.checklist.problems import in_one_line
from fieldapp.journal.lines.chain import Body

COLUMNS = ("sequence", "at", "by", "kind", "about", "given", "device", "entry")
_ABOUT = ("entry", "subject", "happening", "part", "done", "role", "number")
_SPELLED = re.compile(r"(?<=[a-z])(?=[A-Z])")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def events_in(bodies: tuple[Body, ...]) -> Iterator[tuple[Body, dict[str, Any]]]:
    """Each event with the entry that keeps it, oldest first."""
    for body in bodies:
        for operation in body.operations:
            match operation:
                case ["insert", "events", int(), dict(document)]:
                    yield body, document


def as_json(bodies: tuple[Body, ...], head: str) -> str:
    """Every event, whole, with the device and the number of its entry, and the journal's head."""
    events = [
        {**document, "device": body.device, "entry": body.sequence}
        for body, document in events_in(bodies)
    ]
    return json.dumps({"head": head, "events": events}, indent=1, ensure_ascii=False) + "\n"


def as_csv(bodies: tuple[Body, ...]) -> str:
    """One row an event; texts of checklist, job sheet and pen strokes are left to the JSON."""
    written = StringIO()
    table = csv.writer(written)
    table.writerow(COLUMNS)
    for body, document in events_in(bodies):
        what = document["what"]
        about = next((what[name] for name in _ABOUT if name in what), "")
        given = "; ".join(f"{name}={value}" for name, value in _given(what).items())
        row = (
            document["sequence"], document["at"], document["by"], what["kind"], about,
            given, body.device, body.sequence,
        )  # fmt: skip
        table.writerow([_harmless(cell) for cell in row])
    return written.getvalue()


def told_words(document: Mapping[str, Any]) -> str:
    """An event in one line: its number, when, who, what about and what was given."""
    what = document["what"]
    about = next((f" {what[name]}" for name in _ABOUT if name in what), "")
    said = "".join(f", {name}: {value}" for name, value in _given(what).items())
    at = datetime.fromisoformat(document["at"])
    kind = _SPELLED.sub(" ", what["kind"]).lower()
    words = f"{document['sequence']}  {at:%Y-%m-%d %H:%M}  {document['by']}  {kind}{about}{said}"
    return in_one_line(words)


def _given(what: Mapping[str, Any]) -> dict[str, object]:
    shown = {
        name: value
        for name, value in what.items()
        if name
        not in ("kind", "checklist", "sheet", "strokes", "certificate", "signature", *_ABOUT)
        and value not in ("", -1)
    }
    fields = shown.pop("fields", {})
    if "aside" in shown:
        shown["aside"] = len(shown["aside"])
    return {**fields, **shown}


def _harmless(cell: object) -> object:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(_FORMULA) else cell
