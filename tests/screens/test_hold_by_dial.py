"""A hold read on a gauge relative to air is judged with the barometer, and its curve too."""

from decimal import Decimal

import pytest

from fieldapp.actions.entering import end, read, start
from fieldapp.engineering.vacuum import leak_rate
from fieldapp.judgement.evaluation import evaluate
from fieldapp.judgement.verdict import Place
from fieldapp.record.chapters.front.figures import figures_of
from fieldapp.screens.timed.hold_rise import leak_test_of, rises, shape_words
from fieldapp.screens.timed.hold_view import hold_view
from fieldapp.units import to_si
from tests.actions.hookup import evacuated
from tests.actions.play import CHECKLIST, SHEET, TECHNICIAN, Play
from tests.screens.stages import desktop
from tests.screens.test_trace_view import plain

CHANGES = (
    ('"leak_rate"', '"leak_rate_by_dial"'),
    ("start_pressure =", "start_vacuum ="),
    ("end_pressure =", "end_vacuum ="),
    ('"hold_p_last", ', ('"hold_p_last", start_station_pressure = "hold_b_first",'
     ' end_station_pressure = "hold_b_last", ')),
    ('id = "hold_p", label = "Pressure", unit = "hPa", decimals = 1, instrument = "vacuum_gauge"',
     'id = "hold_p", label = "Dial", unit = "inHg", decimals = 2, instrument = "dial"'),
    ('instrument = "thermometer" },\n]', ('instrument = "thermometer" },\n'
     '  { id = "hold_b", label = "Barometer", unit = "hPa", decimals = 1,'
     ' instrument = "barometer" },\n]')),
)  # fmt: skip
INSTRUMENTS = "".join(
    f"""
[[instrument]]
id = "{name}"
name = "{label}"
serial = "{serial}"
unit = "{unit}"
accuracy = "{accuracy}"
repeatability = "{repeats}"
calibrated = 2030-09-01
due = 2031-09-01
"""
    for name, label, serial, unit, accuracy, repeats in (
        ("dial", "Dial", "D-7", "inHg", "0.5 inHg", "0.02 inHg"),
        ("barometer", "Barometer", "B-2", "hPa", "1 hPa", "0.1 hPa"),
    )
)


def dial_checklist():
    text = CHECKLIST
    for old, new in CHANGES:
        assert old in text, old
        text = text.replace(old, new)
    return text


def held(readings):
    """Play the hold; a reading is dial [inHg], barometer [hPa], wall [°C], ten minutes apart."""
    play = Play(dial_checklist(), f"{SHEET}\n{INSTRUMENTS}")
    for step in evacuated().job.state.log[1:]:
        play.job = play.job.with_events((step,))
    play.minute = 60
    play.do(start, "hold_readings")
    for place, (dial, barometer, wall) in enumerate(readings):
        play.minute = 60 + 10 * place
        fields = {"hold_p": dial, "hold_b": barometer, "hold_t": wall}
        play.do(read, "hold_readings", fields, instrument="")
    play.do(end, "hold_readings")
    return play


def seen(play):
    job, at = play.job, play.now
    entry = job.checklist.entry("hold_readings")
    view = hold_view(job, evaluate(job, at), entry, at, desktop("hold", TECHNICIAN))
    test = leak_test_of(job, evaluate(job, at).values, entry)
    return view, test, job.state.attempt(entry.id)


# the dial shows 0.09 inHg (3 hPa) less, and the barometer fell by as much: nothing leaked
WEATHER = [("23.07", "843.2", "21.5"), ("23.04", "842.2", "21.5"), ("23.01", "841.2", "21.5"),
           ("22.98", "840.2", "21.5")]  # fmt: skip
# the same dial, but the barometer stood: 3 hPa came in
LEAK = [(dial, "843.2", wall) for dial, _, wall in WEATHER]


@pytest.mark.parametrize(("readings", "rise"), [(WEATHER, 0.05), (LEAK, 3.05)])
def test_rise_is_that_of_the_absolute_pressure(readings, rise):
    # by hand: 0.09 inHg are 3.05 hPa (NIST SP 811, B.8); the barometer fell by 3.0 hPa or stood
    _, test, attempt = seen(held(readings))
    assert test is not None
    minutes, found = rises(attempt, test)[-1]
    assert minutes == 30
    assert to_si(found, "inHg") / 100 == pytest.approx(rise, abs=0.005)


def test_leak_rate_is_that_of_the_same_hold_read_absolute():
    play = held(LEAK)
    value = evaluate(play.job, play.now).values.numbers["leak"]
    ends = [84_320 - to_si(dial, "inHg") for dial in (23.07, 22.98)]
    same = leak_rate(volume=0.120, start_pressure=ends[0], end_pressure=ends[1],
                     start_temperature=294.65, end_temperature=294.65, duration=1800)  # fmt: skip
    assert value.si == pytest.approx(same)
    # by hand: both instruments repeat at both ends, √2 · √(0.677² + 0.1²) hPa · 120 L / 1800 s,
    # and the thermometer with its accuracy of 0.5 K: √2 · 64 hPa · 0.5/294.65
    gauges, wall = 2**0.5 * (0.677**2 + 0.1**2) ** 0.5, 2**0.5 * 63.5 * 0.5 / 294.65
    assert value.uncertainty * 10 == pytest.approx((gauges**2 + wall**2) ** 0.5 * 120 / 1800,
                                                   rel=0.01)  # fmt: skip


def test_weather_passes_and_a_leak_is_told_with_the_guard():
    weather, leak = held(WEATHER), held(LEAK)
    verdicts = [evaluate(p.job, p.now).steps["hold"].verdicts["leak"] for p in (weather, leak)]
    assert verdicts[0].place is Place.INSIDE
    assert verdicts[1].place is Place.INSIDE  # 0.203 ± 0.07 of 0.333
    grown = held([*LEAK[:3], ("22.90", "843.2", "21.5")])
    assert not evaluate(grown.job, grown.now).steps["hold"].verdicts["leak"].place.good


def test_screen_shows_curve_rate_and_shape():
    view, test, attempt = seen(held(LEAK))
    assert plain(view.verdict.sentence).startswith("Leak rate 0.203 hPa·L/s. Inside")
    assert view.verdict.second
    assert view.chart is not None
    assert (view.chart.unit, view.chart.value_beside) == ("inHg", "rise, corrected")
    # 0.333 hPa L/s for 1800 s into 120 L is 4.995 hPa, 0.1475 inHg: rounded down
    assert view.chart.target_words == "at most 0.147 inHg in 30 min"
    assert len(view.chart.points) == 4
    fine = held([(f"{23.07 - n}", "843.2", "21.5") for n in range(4)])
    _, test, attempt = seen(fine)
    assert "straight: that is a leak" in shape_words(attempt, test, 0.12, fine.job.sheet)


def test_record_names_the_leak_rate_among_its_figures():
    play = held(LEAK)
    found = figures_of(play.job, evaluate(play.job, play.now))
    assert Decimal("0.203") in [Decimal(one.value) for one in found if one.label == "Leak rate"]


@pytest.mark.parametrize("wrong", [("26", "843.2", "21.5"), ("23.0", "843.2", "900")])
def test_reading_that_cannot_be_is_no_rise_and_no_crash(wrong):
    view, test, attempt = seen(held([*LEAK[:3], wrong]))
    assert len(rises(attempt, test)) == 3
    assert not shape_words(attempt, test, 0.12, held(LEAK).job.sheet)
    assert view.verdict.mark != "proven"
    first = held([wrong, *LEAK[1:]])
    assert seen(first)[0].verdict.mark != "proven"
