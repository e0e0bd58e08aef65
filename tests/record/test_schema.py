"""The published shape of the data, held against the data of many jobs."""

import json

import pytest
from jsonschema import Draft202012Validator

from fieldapp.record.content import json_of
from fieldapp.record.rendering import record_of
from fieldapp.record.schema import FILE, published
from tests.checklists.playing import VALUES
from tests.record import small_job
from tests.record.lists import played

STAGES = (
    small_job.begun,
    small_job.arrived,
    small_job.proven,
    small_job.evacuated,
    small_job.signed_by_technician,
    small_job.sent_back,
    small_job.signed_off,
)


@pytest.fixture(scope="module")
def schema():
    found = json.loads(FILE.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(found)
    return Draft202012Validator(found)


def test_published_file_is_the_shape_of_the_classes():
    assert FILE.read_text(encoding="utf-8") == published()


def test_data_of_a_whole_hookup_has_the_published_shape(schema, hookup):
    record_json, _ = record_of(hookup.job, hookup.at, hookup.head, "0.0.0")
    schema.validate(json.loads(record_json))


@pytest.mark.parametrize("stage", STAGES, ids=lambda stage: stage.__name__)
def test_data_of_a_job_at_any_stage_has_the_published_shape(schema, record_of_crew, stage):
    schema.validate(json.loads(record_of_crew(stage()).json))


@pytest.mark.parametrize("name", VALUES)
def test_data_of_every_list_has_the_published_shape(schema, name):
    schema.validate(json.loads(json_of(played(name).content)))


def objects(part, path=()):
    """Yield the path of every object of the data."""
    if isinstance(part, dict):
        yield path
        for key, inner in part.items():
            yield from objects(inner, (*path, key))
    elif isinstance(part, list):
        for place, inner in enumerate(part):
            yield from objects(inner, (*path, place))


def at(part, path):
    for step in path:
        part = part[step]
    return part


def kinds_of_objects(record):
    """Return one object of each kind: those with the same keys are of one kind."""
    paths = {tuple(sorted(at(record, path))): path for path in objects(record)}
    return paths.values()


def test_nothing_may_be_added_to_any_object_and_nothing_left_out(schema, small):
    record = json.loads(small.json)
    for path in kinds_of_objects(record):
        part = at(record, path)
        part["more"] = "1"
        assert not schema.is_valid(record), path
        del part["more"]
        key, value = part.popitem()
        assert not schema.is_valid(record), (path, key)
        part[key] = value
    assert schema.is_valid(record)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("format",), 2),
        (("heading", "issued"), "yesterday"),
        (("heading", "revision"), "1"),
        (("journal", "hash"), "no digits"),
        (("outcome", "state"), "fine"),
        (("outcome", "steps_open"), 0.5),
        (("figures", 0, "judgement", "place"), "roughly"),
    ],
    ids=lambda part: ".".join(map(str, part)) if isinstance(part, tuple) else "",
)
def test_data_of_another_form_is_not_valid(schema, small, path, value):
    record = json.loads(small.json)
    at(record, path[:-1])[path[-1]] = value
    assert not schema.is_valid(record)
