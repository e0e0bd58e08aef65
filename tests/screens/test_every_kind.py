"""Every kind of entry: entered, refused, corrected, replayed, shown, printed."""

import io
from dataclasses import dataclass

import pypdf
import pytest

from fieldapp.checklist.model import Kind
from fieldapp.job.events import document_of, event_of
from fieldapp.job.state import replay
from fieldapp.record.content import content_of
from fieldapp.record.pdf import render
from tests.actions.play import HERE
from tests.screens.sitting import LEAD, Sitting
from tests.screens.test_photo import take

EVERY_KIND = (HERE / "every_kind.toml").read_text(encoding="utf-8")
Touches = tuple[tuple[str, ...], ...]
SLIP = "digits turned round"
SEEN = tuple(("answer", f"seen_{place}", "yes") for place in range(4))


def proof(value, seconds="3.2"):
    """Return the touches that prove the shutdown, as one goes from figure to figure."""
    figures = (("typed", value), ("next part",), ("typed", seconds), ("next part",))
    return (("answer", "tripped", "yes"), *figures, *SEEN)


@dataclass(frozen=True)
class Case:
    """Touches that give an entry, that are refused, that correct it, and what is then read."""

    given: Touches
    kept: str
    refused: Touches = ()
    why: str = ""
    corrected: Touches = ()
    then: str = ""


CASES = {
    Kind.CONFIRM: Case((("yes",),), "yes", (("keep",),), "confirm it, or leave it to do"),
    Kind.NUMBER: Case(
        (("typed", "50.0"), ("keep",)), "50.0", (("typed", "1.2.3"), ("keep",)), "is not a number",
        (("typed", "51.0"),), "51.0",
    ),
    Kind.CHOICE: Case(
        (("choose", "two"), ("keep",)), "two", (("choose", "nine"), ("keep",)), "choose one of",
        (("page", "5"), ("choose", "six")), "six",
    ),
    Kind.TEXT: Case(
        (("typed", "a drop at the flange"), ("keep",)), "a drop at the flange",
        (("typed", "  "), ("keep",)), "nothing was written",
        (("typed", "a drop at the valve"),), "a drop at the valve",
    ),
    Kind.SERIAL: Case(
        (("typed", " mx-4471 "), ("keep",)), " mx-4471 ", (("typed", "x" * 2001), ("keep",)),
        "shorten it", (("typed", "MX-4417"),), "MX-4417",
    ),
    Kind.TIME: Case(
        (("typed", "1800"), ("keep",)), "18:00", (("typed", "9"), ("keep",)), "Permit ends",
        (("typed", "1900"),), "19:00",
    ),
    Kind.PHOTO: Case(
        (("picture", "{home}/pictures/a.jpg"), ("keep",)), "a.jpg",
        (("picture", "{home}/pictures/torn.jpg"), ("keep",)), "it is no JPEG or PNG picture",
        (("another",), ("picture", "{home}/pictures/b.jpg")), "b.jpg",
    ),
    Kind.ALARM: Case(
        (*proof("3.8"), ("keep",)), "3.8",
        (("answer", "tripped", "yes"), ("keep",)), "say yes or no",
        proof("3.9"), "3.9",
    ),
}  # fmt: skip
READINGS = {Kind.TRACE: "trace_p", Kind.HOLD: "hold_p"}


@pytest.fixture
def sitting(tmp_path):
    for name, colour in (("a.jpg", "teal"), ("b.jpg", "navy")):
        take(tmp_path / "pictures", name, colour=colour)
    (tmp_path / "pictures" / "torn.jpg").write_bytes(b"torn")
    made = Sitting(tmp_path, checklist=EVERY_KIND)
    made.begin()
    yield made
    made.desk.close()


def touch(sitting, touches):
    for what, *details in touches:
        told = (str(detail).format(home=sitting.home) for detail in details)
        sitting.touch(what, *told)


def at_entry(sitting, kind):
    sitting.touch("go", f"s_{kind}")
    if sitting.place.screen == "step":
        sitting.touch("entry", f"e_{kind}")
    return f"e_{kind}"


def said(sitting, name):
    fields = sitting.job.state.latest(name).fields
    return fields.get("value") or fields.get("photo")


def printed(sitting):
    """Return the words of all pages of the record as it stands."""
    pdf = render(content(sitting), fingerprint="ab12" * 16).pdf
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).replace("\xa0", " ").split())


def content(sitting):
    return content_of(sitting.job, sitting.state.now, head=(1, "ab12" * 16), version="0.0.0")


def in_record(sitting, name):
    return [
        (row.value, [(c.old, c.new, c.reason) for c in row.corrections])
        for phase in content(sitting).phases
        for step in phase.steps
        for row in step.rows
        if row.entry == name
    ]


def replayed(sitting):
    """Return the state that the journal's own documents lead to."""
    return replay([event_of(document_of(event)) for event in sitting.job.state.log])


def test_every_kind_has_its_case():
    assert {*CASES, *READINGS, Kind.SIGN} == set(Kind)


@pytest.mark.parametrize("kind", CASES)
def test_kind_is_entered_shown_printed_and_replayed(sitting, kind):
    name, case = at_entry(sitting, kind), CASES[kind]
    touch(sitting, case.given)
    assert said(sitting, name) == case.kept
    view = sitting.touch("go", f"s_{kind}")
    row = next(row for row in view.rows if row.details == (name,))
    assert row.word in {"done", "noted", "inside"}
    if kind not in (Kind.CONFIRM, Kind.ALARM):
        assert row.right.strip().startswith(case.kept.strip()[:10])
    sitting.touch("entry", name)
    assert sitting.view().asking.earlier or kind is Kind.CONFIRM
    value, corrections = in_record(sitting, name)[-1]
    wanted = {Kind.CONFIRM: ""}.get(kind, " ".join(case.kept.split()))
    assert (value, corrections) == (wanted, [])
    assert sitting.job.checklist.entry(name).label in printed(sitting)
    assert wanted in printed(sitting)
    assert replayed(sitting) == sitting.job.state


@pytest.mark.parametrize("kind", CASES)
def test_kind_refuses_what_it_did_not_ask_for_in_one_line(sitting, kind):
    name, case = at_entry(sitting, kind), CASES[kind]
    before = len(sitting.job.state.log)
    touch(sitting, case.refused)
    assert case.why in sitting.state.refused
    assert "\n" not in sitting.state.refused
    assert len(sitting.job.state.log) == before
    assert sitting.job.state.latest(name) is None


@pytest.mark.parametrize("kind", [kind for kind, case in CASES.items() if case.corrected])
def test_kind_is_corrected_and_the_old_one_stays_readable(sitting, kind):
    name, case = at_entry(sitting, kind), CASES[kind]
    touch(sitting, case.given)
    at_entry(sitting, kind)
    touch(sitting, (*case.corrected, ("correct",), ("kept", SLIP)))
    assert said(sitting, name) == case.then
    first, second = sitting.job.state.given[name]
    assert (second.corrects, second.reason, second.since) == (first.sequence, SLIP, first.since)
    ((value, corrections),) = in_record(sitting, name)
    assert value == case.then
    (old, new, reason), *more = corrections
    assert (reason, more) == (SLIP, [])
    if kind is not Kind.ALARM:
        assert (old, new) == (" ".join(case.kept.split()), case.then)
    assert SLIP in printed(sitting)
    assert replayed(sitting) == sitting.job.state


def test_confirmation_is_given_again_and_both_stay(sitting):
    for _ in range(2):
        at_entry(sitting, Kind.CONFIRM)
        sitting.touch("yes")
    assert len(sitting.job.state.given["e_confirm"]) == 2


@pytest.mark.parametrize("kind", READINGS)
def test_timed_kind_is_read_refused_corrected_shown_printed_and_replayed(sitting, kind):
    name, column = at_entry(sitting, kind), READINGS[kind]
    sitting.touch("reading", {column: "62.0"})
    assert "start it first" in sitting.state.refused
    sitting.touch("start")
    begin = sitting.minute
    for minutes, figure in ((0, "62.0"), (10, "61.3")):
        sitting.minute = begin + minutes
        sitting.touch("reading", {column: figure})
    sitting.touch("reading", {column: "about 60"})
    assert "is not a number" in sitting.state.refused
    last = sitting.job.state.attempt(name).readings[-1]
    sitting.touch("correct reading", last.sequence, {column: "63.1"}, SLIP)
    kept = sitting.job.state.attempt(name).readings[-1]
    assert (kept.fields[column], kept.replaced[0].fields[column]) == ("63.1", "61.3")
    sitting.touch("end", "steady")
    row = next(row for row in sitting.view().rows if row.details == (name,))
    assert row.word in {"done", "noted"}
    words = printed(sitting)
    assert all(figure in words for figure in ("62.0", "63.1", "61.3", SLIP))
    assert replayed(sitting) == sitting.job.state


def test_signature_waits_for_all_and_is_refused_to_another_role(sitting):
    sitting.touch("signoff")
    sitting.touch("sign", "technician", ())
    assert "“Confirm something”" in sitting.state.refused
    sitting.state.who = LEAD
    sitting.touch("sign", "technician", ())
    assert f"{LEAD} is crew lead and cannot sign as technician." in sitting.state.refused
    assert sitting.job.state.signature("technician") is None


def test_signature_of_a_job_with_one_of_each_is_kept_shown_printed_and_replayed(sitting):
    for kind, case in CASES.items():
        at_entry(sitting, kind)
        touch(sitting, case.given)
    for kind, column in READINGS.items():
        at_entry(sitting, kind)
        sitting.touch("start")
        begin = sitting.minute
        for minutes in (0, 10):
            sitting.minute = begin + minutes
            sitting.touch("reading", {column: "62.0"})
        sitting.touch("end", "")
    sitting.touch("signoff")
    sitting.touch("sign", "technician", (((0.1, 0.1), (0.9, 0.9)),))
    assert sitting.state.refused == ""
    assert sitting.job.state.signature("technician").by == sitting.state.who
    assert sitting.state.who in printed(sitting)
    assert replayed(sitting) == sitting.job.state
