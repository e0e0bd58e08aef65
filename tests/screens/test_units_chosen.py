"""A number is typed in the unit that the gauge shows; limits and verdict stay the checklist's."""

import pytest

from fieldapp.checklist.model import Measure
from fieldapp.judgement.evaluation import evaluate
from fieldapp.judgement.verdict import Place
from fieldapp.screens.units_view import units_for
from tests.screens.sitting import Sitting


@pytest.fixture
def sitting(tmp_path):
    made = Sitting(tmp_path).at_the_gauge()
    made.give("reached")
    yield made
    made.desk.close()


def unit(sitting):
    return next(p for p in sitting.view().frame.plates if p.name == "units").first


def test_plate_says_the_unit_and_leads_to_the_others(sitting):
    assert unit(sitting) == "in hPa"
    sitting.touch("units")
    names = [row.details[0] for row in sitting.view().rows]
    assert names == ["hPa", "Pa", "kPa", "mbar", "Torr", "inHg a", "psi a"]
    sitting.touch("unit", "psi a")
    assert unit(sitting) == "in psi a"


# 2.30 psi is 158.579 hPa and 2.50 psi 172.369 hPa: 1 psi = 6894.757 Pa, NIST SP 811, appendix B.8
@pytest.mark.parametrize(
    ("typed", "place", "shown"),
    [("2.30", Place.INSIDE, "158.6"), ("2.50", Place.OUTSIDE, "172.4")],
)
def test_number_in_another_unit_is_judged_and_kept_as_typed(sitting, typed, place, shown):
    sitting.touch("units")
    sitting.touch("unit", "psi a")
    view = sitting.touch("typed", typed)
    assert view.body.limit.startswith(f"That is {shown}\u00a0hPa. At most 166.65")
    assert (view.body.shown, view.body.unit) == (typed, "psi a")
    assert view.body.ruler.reading == pytest.approx(float(shown), abs=0.06)
    sitting.touch("keep" if place is Place.INSIDE else "say why")
    fields = sitting.job.state.latest("reached").fields
    assert fields == {"value": typed, "value_unit": "psi a"}
    found = evaluate(sitting.job, sitting.state.now).steps["target"].verdicts["reached"]
    assert found.place is place


def test_kept_number_is_shown_in_the_unit_it_was_typed_in(sitting):
    sitting.touch("units")
    sitting.touch("unit", "kPa")
    sitting.touch("typed", "5")
    sitting.touch("keep")
    sitting.give("reached")
    body = sitting.view().body
    assert (body.shown, body.unit) == ("5", "kPa")
    assert body.ruler.reading == pytest.approx(50.0)


def test_unit_stays_for_what_is_read_alike_and_for_nothing_else(sitting):
    sitting.touch("units")
    sitting.touch("unit", "kPa")
    sitting.give("station_p")
    assert unit(sitting) == "in hPa"


@pytest.mark.parametrize(
    ("own", "others"),
    [
        ("degC", ("degC", "degF")),
        ("L", ("L", "mL", "m3", "gal")),
        ("inHg", ("inHg", "hPa vacuum")),
        ("kPa g", ("kPa g", "bar g", "psi g")),
        ("L/min", ("L/min", "gal/min")),
        ("%", ("%",)),
    ],
)
def test_only_units_of_the_same_quantity_are_offered(own, others):
    assert units_for(Measure(own, 1)) == others
