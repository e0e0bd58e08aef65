"""Whatever people do, in any order: the journal tells the same job, and no gate is got round."""

from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.actions.beginning import job_of
from fieldapp.actions.entering import (
    close_valve,
    correct,
    correct_reading,
    end,
    enter,
    make_safe,
    read,
    report,
    start,
)
from fieldapp.actions.rules import Refusal
from fieldapp.actions.sign_off import accept, explain, promise, see, send_back, sign, to_see
from fieldapp.checklist.model import Kind
from fieldapp.job.events import Entered, Reported, Started, document_of, event_of
from fieldapp.job.state import replay
from fieldapp.judgement.evaluation import StepState, evaluate
from tests.actions.hookup import ALARM
from tests.actions.play import LEAD, TECHNICIAN, Play
from tests.actions.test_asked_for import WITH_ANSWERS

READING = {"hold_p": "62.0", "hold_t": "21.5"}
GIVEN = [
    ("permit_ends", {"value": "18:00"}),
    ("permit_ends", {"value": "08:30"}),
    ("plate_serial", {"value": "MX-4471"}),
    ("plate_serial", {"value": "MX-4417"}),
    ("locked", {"value": "yes"}),
    ("second_name", {"value": "Ben Thorne"}),
    ("station_p", {"value": "843.2"}),
    ("reached", {"value": "50.0"}),
    ("reached", {"value": "166.0"}),
    ("reached", {"value": "500"}),
    ("a_flow", ALARM),
    ("a_flow", {"tripped": "no"}),
    ("bubble_free", {"value": "none"}),
    ("bubble_free", {"value": "few"}),
    ("handed", {"value": "yes"}),
    ("joints", {"value": "dry"}),
    ("joints", {"value": "damp"}),
    ("joints", {"value": "dripping"}),
    ("tightened", {"value": "yes"}),
    ("torque_seen", {"value": "yes"}),
    ("seen_dry", {"value": "yes"}),
    ("guarded", {"value": "yes"}),
]
FORWARD = [place for place in range(len(GIVEN)) if place not in {1, 3, 8, 9, 11, 13, 16, 17}]


RUN = [
    *(("enter", GIVEN[place]) for place in FORWARD[:6]),
    ("hold", None),
    *(("enter", GIVEN[place]) for place in FORWARD[6:]),
    ("sign", TECHNICIAN),
    ("see", None),
    ("sign", LEAD),
]
"""The acts that carry the job from its beginning to its signatures."""


def sequences():
    """Return acts in any order, and runs to the signatures with anything done in between."""
    anything = st.one_of(st.sampled_from(RUN), steps_aside())
    disturbed = st.tuples(
        st.lists(st.tuples(st.integers(0, 2 * len(RUN)), steps_aside()), max_size=5),
        st.sets(st.integers(0, len(RUN) - 1), max_size=1),
        st.booleans(),
    ).map(lambda parts: disturb(*parts))
    return st.one_of(disturbed, disturbed, st.lists(anything, max_size=60))


def disturb(inserted, left_out, once_more):
    """Return a run with acts put in between and some left out, and once more all of it."""
    acts = [act for place, act in enumerate(RUN) if place not in left_out]
    acts += RUN if once_more else []
    for place, act in inserted:
        acts.insert(place, act)
    return acts


def steps_aside():
    entries = st.sampled_from(GIVEN).map(lambda pair: ("enter", pair))
    subjects = st.sampled_from(["reached", "bubble_free", "leak", "permit_ends", "a_flow"])
    return st.one_of(
        entries,
        st.sampled_from(GIVEN).map(lambda pair: ("correct", pair)),
        subjects.map(lambda subject: ("explain", subject)),
        subjects.map(lambda subject: ("accept", subject)),
        subjects.map(lambda subject: ("promise", subject)),
        st.sampled_from(["joint_touched", "air_test"]).map(lambda name: ("report", name)),
        st.just(("back", None)),
        st.just(("safe", None)),
        st.just(("close", None)),
        st.just(("reading", None)),
        st.integers(1, 300).map(lambda minutes: ("wait", minutes)),
    )


def hold(play, _):
    play.try_(start, "hold_readings")
    for _ in range(4):
        play.try_(read, "hold_readings", READING)
        play.minute += 9
    play.try_(end, "hold_readings")


def sign_as(play, who):
    """Return the role that was signed in, or nothing."""
    role = "technician" if who == TECHNICIAN else "crew lead"
    return "" if isinstance(play.try_(sign, role, "ab", who=who), Refusal) else role


def see_all(play, _):
    for event in to_see(play.job):
        play.do(see, event.sequence, who=LEAD)


def correct_one_reading(play, _):
    attempt = play.job.state.attempt("hold_readings")
    if attempt is not None and attempt.readings:
        sequence = attempt.readings[0].sequence
        play.try_(correct_reading, "hold_readings", sequence, READING, "misread")


def wait(play, minutes):
    play.minute += minutes


DOING = {
    "enter": lambda play, what: play.try_(enter, *what),
    "correct": lambda play, what: play.try_(correct, *what, "misread"),
    "hold": hold,
    "explain": lambda play, what: play.try_(explain, what, "coarse gauge"),
    "accept": lambda play, what: play.try_(accept, what, "look again", who=LEAD),
    "promise": lambda play, what: play.try_(promise, what, LEAD, "2031-06-01"),
    "report": lambda play, what: play.do(report, what),
    "see": see_all,
    "back": lambda play, _: play.try_(send_back, "again", who=LEAD),
    "safe": lambda play, _: play.do(make_safe, "emergency stop"),
    "close": lambda play, _: play.do(close_valve, "suction_tank_valve"),
    "reading": correct_one_reading,
    "wait": wait,
}


def do(play, verb, what):
    """Do one act; return the role that was signed in, or nothing."""
    if verb == "sign":
        return sign_as(play, what)
    DOING[verb](play, what)
    return ""


def stale_by_the_log(job):
    """Return the steps that something undid since, read from the log without judging anything."""
    log = job.state.log
    reported = [(e.what.happening, e.sequence) for e in log if isinstance(e.what, Reported)]
    found = set()
    for step in job.checklist.steps():
        for entry in step.entries:
            given = [e.sequence for e in log if isinstance(e.what, Entered | Started)
                     and e.what.entry == entry.id
                     and getattr(e.what, "corrects", -1) < 0]  # fmt: skip
            if given and any(h in step.undone_by and at > given[-1] for h, at in reported):
                found.add(step.id)
    return found


def missing_by_the_log(job):
    """Return the steps at which something that is not optional was never given, by the log."""
    log = job.state.log
    given = {e.what.entry for e in log if isinstance(e.what, Entered | Started)}
    return {
        step.id
        for step in job.checklist.steps()
        for entry in step.entries
        if entry.kind is not Kind.SIGN and not entry.optional and entry.id not in given
    }


def check_signature(play, role):
    """Hold what was signed against the verdicts, and against the bare log."""
    moment = play.job.state.log[-1].at
    own = "sign_t" if role == "technician" else "sign_l"
    order = [step.id for step in play.job.checklist.steps()]
    standings = evaluate(play.job, moment).steps
    before = order[: order.index(own)]
    for step in before:
        assert standings[step].in_order, (role, step, standings[step].why)
    deviations = evaluate(play.job, moment).deviations
    assert all(one.promise for one in deviations if one.acceptance)
    needed = {step for step in before if standings[step].state is not StepState.NOT_NEEDED}
    assert not needed & stale_by_the_log(play.job)
    assert not needed & missing_by_the_log(play.job)


def check_gates(play, length):
    """Hold each thing that was just given against the gate as it stood before."""
    for event in play.job.state.log[length:]:
        what = event.what
        if not isinstance(what, Entered | Started) or getattr(what, "corrects", -1) >= 0:
            continue
        before = job_of(play.job.state.log[: event.sequence])
        standings = evaluate(before, event.at).steps
        step = before.checklist.step_of(what.entry)
        assert all(standings[need].in_order for need in step.needs), step.id
        assert standings[step.id].state is not StepState.NOT_NEEDED, step.id
        assert before.state.signature("technician") is None


@settings(max_examples=150, deadline=None)
@given(sequences())
def test_any_sequence_replays_to_the_same_job_and_never_signs_over_an_open_gate(acts):
    play = Play(WITH_ANSWERS)
    for verb, what in acts:
        length = len(play.job.state.log)
        role = do(play, verb, what)
        check_gates(play, length)
        if role:
            check_signature(play, role)
    log = play.job.state.log
    assert replay(event_of(document_of(event)) for event in log) == play.job.state
    assert [event.sequence for event in log] == list(range(len(log)))


def test_the_acts_that_carry_the_job_on_do_come_to_the_signatures():
    play = Play(WITH_ANSWERS)
    assert [role for act in RUN if (role := do(play, *act))] == ["technician", "crew lead"]
