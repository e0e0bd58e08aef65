"""The published shape of a record's data: JSON Schema, made from the classes that hold it.

``record.schema.json`` beside this module is what `published` gives, and ``python -m
fieldapp.record.schema`` writes it anew; a test keeps the two alike.
"""

import json
from pathlib import Path
from typing import Any

from fieldapp.record.chapters.shapes.shapes_of_sources import Content

FILE = Path(__file__).with_name("record.schema.json")
DIALECT = "https://json-schema.org/draft/2020-12/schema"
TITLE = "The record of a job, format 1"
TOLD = (
    "What is attached to a record as record.json: canonical JSON (RFC 8785) of texts, whole "
    "numbers, yes and no. Every figure is a text as it was typed or as the record prints it."
)


def published() -> str:
    """Return the schema as it is published: every key is named, required, and no other allowed."""
    from msgspec.json import schema_components

    (root,), parts = schema_components([Content], ref_template="#/$defs/{name}")
    closed = {name: _closed(part) for name, part in sorted(parts.items())}
    whole = {"$schema": DIALECT, "title": TITLE, "description": TOLD, **root, "$defs": closed}
    return json.dumps(whole, indent=1, ensure_ascii=False) + "\n"


def _closed(part: dict[str, Any]) -> dict[str, Any]:
    if "properties" not in part:
        return part
    fields = {name: _without_default(field) for name, field in part["properties"].items()}
    return {
        **part,
        "properties": fields,
        "required": sorted(fields),
        "additionalProperties": False,
    }


def _without_default(field: dict[str, Any]) -> dict[str, Any]:
    """Leave out what a field is when nothing is said: here everything is said."""
    return {key: value for key, value in field.items() if key != "default"}


if __name__ == "__main__":
    FILE.write_text(published(), encoding="utf-8")
