"""What is in force: permits and blocks with their time, by whom, until restored by name."""

from datetime import timedelta

import pytest

from fieldapp.actions.forcing import block, leave, restore
from fieldapp.actions.rules import Act, Refusal
from fieldapp.job.events import HandedOver, document_of, event_of
from fieldapp.judgement.evaluation import evaluate
from fieldapp.judgement.in_force import facts_of, in_force
from tests.checklists.playing import TECHNICIAN, Playing


@pytest.fixture(scope="module")
def stopped():
    """A disconnection with protection blocked, as far as the skid is shut off."""
    return Playing("disconnection", "protection_blocked = true").through("d_shut")


def forced(playing, at=None):
    now = at or playing.now
    return in_force(playing.job, evaluate(playing.job, now), now)


def again(playing):
    """The same job, to go on with alone."""
    made = Playing.__new__(Playing)
    made.job, made.now, made.values = playing.job, playing.now, playing.values
    return made


def test_block_and_permit_stand_with_person_and_time(stopped):
    by_what = {fact.what: fact for fact in forced(stopped)}
    blocked, permit = by_what["Blocked"], by_what["Permit"]
    assert blocked.by == "Emil Strand"
    assert blocked.until is not None
    assert f"{blocked.until:%H:%M}" == stopped.values["d_blocked_until"]
    assert blocked.step == "d_prot"
    assert permit.step == "d_perm"
    assert permit.since < blocked.since


def test_most_urgent_comes_first(stopped):
    first, *_ = forced(stopped)
    assert first.until == min(fact.until for fact in forced(stopped) if fact.until)
    late = first.until - timedelta(minutes=5)
    assert forced(stopped, late)[0].seconds_left(late) == 300
    assert forced(stopped, first.until + timedelta(hours=1))[0].seconds_left(first.until) == 0


def test_time_that_ran_out_is_still_in_force(stopped):
    after = stopped.now + timedelta(days=2)
    assert all((fact.seconds_left(after) or -1) < 0 for fact in forced(stopped, after)[:2])
    assert {fact.what for fact in forced(stopped, after)} >= {"Blocked", "Permit"}


def test_restored_and_proved_by_name_ends_it():
    playing = Playing("disconnection", "protection_blocked = true").through("d_prot")
    facts = {f.what: f for f in facts_of(playing.job, evaluate(playing.job, playing.now))}
    assert facts["Blocked"].ended is not None
    assert facts["Blocked"].ended_by
    assert facts["Permit"].ended is None
    playing.through("d_perm", after="d_prot")
    assert "Permit" not in {fact.what for fact in forced(playing)}


def test_valves_left_open_are_told_only_while_the_pump_stands():
    running = Playing("visit").through("v_moist")
    assert not any("valve" in fact.what for fact in forced(running))
    found = Playing("cartridge_change").through("c_fill")
    assert "The suction tank valve is open" in {fact.what for fact in forced(found)}


def test_hold_that_runs_is_in_force():
    from fieldapp.actions.entering import start

    playing = Playing("cartridge_change").through("c_open")
    playing.do(start, "c_drip_rack")
    assert any(fact.what.endswith("runs") for fact in forced(playing))


def test_what_is_blocked_outside_the_list_needs_a_name_and_no_login(stopped):
    playing = again(stopped)
    playing.do(block, "fire spray", "Ola Brandt", "station keeper", until="18:00", who="")
    fact = next(fact for fact in forced(playing) if fact.what == "fire spray")
    assert (fact.by, f"{fact.until:%H:%M}") == ("Ola Brandt, station keeper", "18:00")
    playing.do(restore, fact.sequence, "Ola Brandt", "station keeper", proved="flow seen")
    ended = {f.what: f for f in facts_of(playing.job, evaluate(playing.job, playing.now))}
    assert ended["fire spray"].ended_by == "Ola Brandt"
    assert "fire spray" not in {fact.what for fact in forced(playing)}


@pytest.mark.parametrize(
    ("what", "person", "until", "why"),
    [
        ("", "Ola Brandt", "", "Say what is blocked."),
        ("fire spray", " ", "", "Name the person who blocked it."),
        ("fire spray", "Ola Brandt", "later", "“later” is not a time"),
    ],
)
def test_half_a_block_is_refused(stopped, what, person, until, why):
    outcome = block(stopped.job, what, person, "", Act(TECHNICIAN, stopped.now), until=until)
    assert isinstance(outcome, Refusal)
    assert why in str(outcome)


def test_nothing_is_restored_twice(stopped):
    playing = again(stopped)
    act = Act(TECHNICIAN, playing.now)
    assert str(restore(playing.job, 3, "Ola Brandt", "", act)) == "Nothing was blocked there."
    (event,) = playing.do(block, "fire spray", "Ola Brandt", "")
    playing.do(restore, event.sequence, "Ola Brandt", "")
    twice = restore(playing.job, event.sequence, "Ola Brandt", "", act)
    assert str(twice) == "That is restored already."
    assert str(restore(playing.job, event.sequence, "", "", act)).endswith("who restored it.")


def test_leaving_is_never_refused_and_is_stamped(stopped):
    names = tuple(fact.what for fact in forced(stopped))
    for person, role in (("Ruth Calderon", "crew lead"), ("", "")):
        outcome = leave(stopped.job, names, Act("", stopped.now), person, role)
        assert not isinstance(outcome, Refusal)
        (event,) = outcome
        assert event.what == HandedOver(names, person, role)
        assert event_of(document_of(event)) == event
    signed = Playing("disconnection").through()
    assert not isinstance(leave(signed.job, (), Act("", signed.now)), Refusal)


def test_record_tells_what_was_blocked_restored_and_left(stopped):
    from fieldapp.record.chapters.people import NOBODY, happenings_of

    playing = again(stopped)
    (event,) = playing.do(block, "fire spray", "Ola Brandt", "station keeper", until="18:00")
    playing.do(leave, ("fire spray",))
    playing.do(leave, ("fire spray",), person="Ruth Calderon", role="crew lead")
    playing.do(restore, event.sequence, "Ola Brandt", "station keeper", proved="flow seen")
    lines = [(one.kind, one.what, one.note) for one in happenings_of(playing.job)]
    assert lines[-4:] == [
        ("blocked", "fire spray", "by Ola Brandt, station keeper, until 18:00"),
        ("left the site", "fire spray", NOBODY),
        ("left the site", "fire spray", "handed over to Ruth Calderon, crew lead"),
        ("restored", "fire spray", "by Ola Brandt, station keeper; flow seen"),
    ]
