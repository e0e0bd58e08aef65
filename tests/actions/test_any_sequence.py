"""Whatever people do, in any order: the journal tells the same job, and no gate is got round."""

from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.actions.entering import correct, end, enter, make_safe, read, report, start
from fieldapp.actions.rules import Refusal
from fieldapp.actions.sign_off import accept, explain, see, send_back, sign, to_see
from fieldapp.job.events import document_of, event_of
from fieldapp.job.state import replay
from fieldapp.judgement.evaluation import evaluate
from tests.actions.hookup import ALARM
from tests.actions.play import LEAD, TECHNICIAN, Play

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
]
FORWARD = [place for place in range(len(GIVEN)) if place not in {1, 3, 8, 9, 11, 13}]


def steps_on():
    """Return acts that carry the job on, so that a run often comes to its signatures."""
    entries = st.sampled_from(FORWARD).map(lambda place: ("enter", GIVEN[place]))
    return st.one_of(entries, st.just(("hold", None)), st.just(("sign", TECHNICIAN)),
                     st.just(("see", None)), st.just(("sign", LEAD)))  # fmt: skip


def steps_aside():
    entries = st.sampled_from(GIVEN).map(lambda pair: ("enter", pair))
    subjects = st.sampled_from(["reached", "bubble_free", "leak", "permit_ends", "a_flow"])
    return st.one_of(
        entries,
        st.sampled_from(GIVEN).map(lambda pair: ("correct", pair)),
        subjects.map(lambda subject: ("explain", subject)),
        subjects.map(lambda subject: ("accept", subject)),
        st.sampled_from(["joint_touched", "air_test"]).map(lambda name: ("report", name)),
        st.just(("back", None)),
        st.just(("safe", None)),
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


def wait(play, minutes):
    play.minute += minutes


DOING = {
    "enter": lambda play, what: play.try_(enter, *what),
    "correct": lambda play, what: play.try_(correct, *what, "misread"),
    "hold": hold,
    "explain": lambda play, what: play.try_(explain, what, "coarse gauge"),
    "accept": lambda play, what: play.try_(accept, what, "look again", who=LEAD),
    "report": lambda play, what: play.do(report, what),
    "see": see_all,
    "back": lambda play, _: play.try_(send_back, "again", who=LEAD),
    "safe": lambda play, _: play.do(make_safe, "emergency stop"),
    "wait": wait,
}


def do(play, verb, what):
    """Do one act; return the role that was signed in, or nothing."""
    if verb == "sign":
        return sign_as(play, what)
    DOING[verb](play, what)
    return ""


@settings(max_examples=150, deadline=None)
@given(st.lists(st.one_of(steps_on(), steps_on(), steps_aside()), max_size=60))
def test_any_sequence_replays_to_the_same_job_and_never_signs_over_an_open_gate(acts):
    play = Play()
    for verb, what in acts:
        role = do(play, verb, what)
        if role:
            moment = play.job.state.log[-1].at
            own = "sign_t" if role == "technician" else "sign_l"
            order = [step.id for step in play.job.checklist.steps()]
            standings = evaluate(play.job, moment).steps
            for step in order[: order.index(own) + 1]:
                assert standings[step].in_order, (role, step, standings[step].why)
    log = play.job.state.log
    assert replay(event_of(document_of(event)) for event in log) == play.job.state
    assert [event.sequence for event in log] == list(range(len(log)))


def test_the_acts_that_carry_the_job_on_do_come_to_the_signatures():
    play = Play()
    for place in FORWARD[:6]:
        do(play, "enter", GIVEN[place])
    do(play, "hold", None)
    for place in FORWARD[6:]:
        do(play, "enter", GIVEN[place])
    assert do(play, "sign", TECHNICIAN) == "technician"
    assert do(play, "sign", LEAD) == "crew lead"
