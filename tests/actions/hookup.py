"""The small job, step by step, for tests that need it at some stage."""

from fieldapp.actions.entering import end, enter, read, start
from fieldapp.actions.sign_off import sign
from tests.actions.play import CHECKLIST, LEAD, Play

ALARM = {"tripped": "yes", "value": "3.8", "closed_after": "3.2", "seen_0": "yes", "seen_1": "yes"}
HOLD = (("62.0", "21.5"), ("63.1", "22.0"), ("64.1", "22.5"), ("65.2", "23.0"))


def arrived(checklist=CHECKLIST):
    play = Play(checklist)
    play.do(enter, "permit_ends", {"value": "18:00"})
    play.do(enter, "plate_serial", {"value": "mx-4471 "})
    play.do(enter, "locked", {"value": "yes"})
    play.do(enter, "second_name", {"value": "Ben Thorne"})
    return play


def evacuated(reached="50.0"):
    play = arrived()
    play.do(enter, "station_p", {"value": "843.2"})
    play.do(enter, "reached", {"value": reached}, instrument="vacuum_gauge")
    return play


def hold(play, readings=HOLD):
    play.do(start, "hold_readings")
    begin = play.minute
    for place, (pressure, wall) in enumerate(readings):
        play.minute = begin + 10 * place
        play.do(read, "hold_readings", {"hold_p": pressure, "hold_t": wall}, instrument="")
    play.do(end, "hold_readings")
    return play


def held():
    return hold(evacuated())


def proven():
    play = held()
    play.do(enter, "a_flow", ALARM)
    play.do(enter, "bubble_free", {"value": "none"})
    return play


def handed_back():
    play = proven()
    play.do(enter, "handed", {"value": "yes"})
    return play


def signed():
    play = handed_back()
    play.do(sign, "technician", "ab12")
    play.do(sign, "crew lead", "ab13", who=LEAD)
    return play
