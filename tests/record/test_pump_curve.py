"""The record says of each pump-down what the one rule for pump-downs says.

The demo's readings are invented: consistency only.
"""

from dataclasses import replace

from fieldapp.engineering.air.hold import Shape
from fieldapp.engineering.air.outlook import LEAK, WILL_NOT
from fieldapp.judgement.evaluation import evaluate
from fieldapp.record.chapters.places import vacuum_of
from fieldapp.record.chapters.runs.pump_curve import fit_of
from tests.record.test_pdf import pages_of


def attempts(hookup):
    return hookup.content.evacuation.attempts


def fit_without(hookup, readings=None, entry=""):
    """Return the fit of the first attempt, with fewer readings or without one entry's value."""
    job, evaluation = hookup.job, evaluate(hookup.job, hookup.at)
    vacuum = vacuum_of(job.checklist)
    assert vacuum is not None
    attempt = job.state.attempts[vacuum.pull.id][0]
    numbers = {name: at for name, at in evaluation.values.numbers.items() if name != entry}
    told = replace(evaluation, values=replace(evaluation.values, numbers=numbers))
    return fit_of(vacuum, attempt, list(attempt.readings)[:readings], job, told)


def test_stalled_attempt_is_a_leak_with_its_inflow(hookup):
    fit = attempts(hookup)[0].fit
    assert fit.sentence.startswith(f"Levels out at 231 hPa. {LEAK} ")
    assert 218 < float(fit.inflow) < 228  # (231 - 8) hPa at 60 L/min, by hand
    assert fit.target_after == ""


def test_attempt_that_got_there_says_when(hookup):
    fit = attempts(hookup)[-1].fit
    assert fit.sentence.endswith(f"reaches the target after {fit.target_after} min.")
    assert 3.2 < float(fit.target_after) < 3.5


def test_without_the_pump_alone_no_leak_is_named(hookup):
    vacuum = vacuum_of(hookup.job.checklist)
    assert vacuum is not None
    assert vacuum.pump_alone is not None
    fit = fit_without(hookup, entry=vacuum.pump_alone.id)
    assert fit is not None
    assert fit.sentence == f"Levels out at 231 hPa. {WILL_NOT}"
    assert fit.inflow == ""


def test_attempt_given_up_early_says_so(hookup):
    fit = fit_without(hookup, readings=5)
    assert fit is not None
    assert fit.sentence == "Ended too early to tell whether it would have reached the target."


def test_too_few_readings_have_no_curve(hookup):
    assert fit_without(hookup, readings=4) is None


def test_hold_is_read_by_the_one_rule_for_holds(hookup):
    (hold,) = hookup.content.evacuation.holds
    # 62.0, 63.1, 64.1, 65.2 hPa at 21.5 to 23.0 °C in 120 L: rise 2.87 hPa; the gauge alone, 0.3
    # hPa at both ends, makes 0.42, with a thermometer of 0.6 K it is 0.46 (by hand)
    assert abs(float(hold.rise) - 2.87) < 0.05
    assert 0.42 < float(hold.rise_uncertainty) < 0.46
    assert hold.shape == Shape.RISING


def test_shape_of_the_hold_stands_on_the_page(hookup_pdf):
    assert any(f"By its shape: {Shape.RISING}." in page for page in pages_of(hookup_pdf.pdf))
