"""A plan answers the office's questions in their order, and refuses in words.

The figures of the demo are invented: they show consistency only. What the formulas give is held
against published sources in the tests of `engineering`.
"""

from dataclasses import replace
from datetime import date

import pytest

from fieldapp.checklist.facts import FACTS
from fieldapp.engineering.atmosphere import standard_pressure
from fieldapp.plan.planning import plan_of
from tests.plan.sheets import demo_sheet, figure, planned

PLAN = planned()
ORDER = [
    "wet", "water", "time", "cartridges", "vacuum", "oil", "hoses", "tray", "spill", "pcb", "near",
    "away",
]  # fmt: skip

# invented figures, consistency only
DEMO = [
    ("wet", "Water in paper", 3.0, 0.05),
    ("wet", "Oil saturated, at", 12.9, 0.05),
    ("wet", "Oil water on the 20 °C basis", 6.7, 0.05),
    ("wet", "Free water", 1.3, 0.4),
    ("water", "Water to remove", 17.0, 0.5),
    ("water", "Water in the oil", 0.4, 0.05),
    ("time", "Days of drying", 91, 1),
    ("time", "Water taken on the first day", 0.251, 0.003),
    ("cartridges", "Cartridges", 6, 0),
    ("vacuum", "Target, absolute", 164.6, 0.06),
    ("vacuum", "Target on a gauge", 20.0, 0),
    ("vacuum", "Target on the dial", 20.5, 0),
    ("vacuum", "Deepest", 24.9, 0.11),
    ("vacuum", "Time to the target", 3.3, 0.1),
    ("oil", "Oil that the skid takes", 120, 0.5),
    ("oil", "Level falls by", 6.7, 0.05),
    ("oil", "Level above the contact", 5.9, 0.05),
    ("oil", "The contact acts", -12.4, 0.1),
    ("hoses", "Velocity in the suction", 0.395, 0.001),
    ("hoses", "At the suction valve", 32.5, 0.05),
    ("hoses", "At the return valve", 11.0, 0.05),
    ("hoses", "Pump inlet, warm", 30.3, 0.4),
    ("tray", "Tray", 960, 0),
    ("tray", "A hose torn off", 159, 0.5),
    ("tray", "Time until the contact", 5.7, 0.05),
    ("away", "Out of service: days", 9, 0),
    ("away", "Out of service: crew-hours", 672, 0),
]


def test_questions_come_in_the_office_s_order():
    assert [answer.id for answer in PLAN.answers] == ORDER


@pytest.mark.parametrize(("answer", "label", "expected", "within"), DEMO)
def test_demo_is_consistent_with_what_was_worked_out_for_it(answer, label, expected, within):
    assert figure(PLAN, answer, label).value == pytest.approx(expected, abs=within + 1e-9)


def test_ranges_of_the_demo_are_consistent():
    paper = figure(PLAN, "wet", "Water in paper")
    assert (round(paper.low, 1), round(paper.high, 1)) == (2.2, 3.8)
    days = figure(PLAN, "time", "Days")
    assert (round(days.low), round(days.high)) == (46, 182)
    assert figure(PLAN, "tray", "Tray").at_least == 505


def test_demo_needs_no_refusal_and_nothing_is_outside():
    assert [refusal for answer in PLAN.answers for refusal in answer.refusals] == []
    assert all(answer.inside for answer in PLAN.answers)


def test_every_figure_names_its_source():
    assert [f.label for a in PLAN.answers for f in a.figures if not f.source] == []


@pytest.mark.parametrize(
    ("without", "stated", "answer", "words"),
    [
        (("sample_temperature",), {}, "wet", "the sample has no oil temperature"),
        (("sample_temperature",), {}, "time", "the sample has no oil temperature"),
        (("sample_temperature",), {}, "cartridges", "the sample has no oil temperature"),
        (("sample_water",), {}, "wet", "neither water content nor relative saturation"),
        ((), {"sample_temperature": "30 degC"}, "wet", "sample again with oil at 40 °C or more"),
        ((), {"sample_water": "90 mg/kg"}, "wet", "wetter than this method can say: at least"),
        ((), {"fluid": "natural ester"}, "wet", "the liquid is an ester"),
        ((), {"fluid": "silicone"}, "water", "the liquid is silicone"),
        ((), {"plan_working_oil": "30 degC"}, "time", "temperature 30 °C lies outside 40 to 90"),
        (("measured_station_pressure",), {}, "vacuum", "for planning only ±25 hPa"),
        (("plan_pump_speed",), {}, "vacuum", "add pump_speed to [plan]"),
        (("plan_pump_blank_off",), {}, "vacuum", "add pump_blank_off to [plan]"),
        ((), {"plan_pump_blank_off": "200 hPa"}, "vacuum", "Bring a better pump"),
        (("plan_adsorbent_mass",), {}, "cartridges", "add adsorbent_mass to [plan]"),
        (("tray_volume",), {}, "tray", "add tray_volume to [skid]"),
    ],
)
def test_what_the_sheet_does_not_say_is_refused_in_words(without, stated, answer, words):
    refusals = planned(without, **stated).answer(answer).refusals
    assert any(words in refusal.replace("\u00a0", " ") for refusal in refusals), refusals


def test_no_sample_leaves_no_curve_and_no_figure_of_the_paper():
    plan = planned(("sample_temperature",))
    assert plan.curve is None
    assert [f.label for f in plan.answer("wet").figures] == ["Free water appears below"]
    assert figure(plan, "oil", "Oil that the skid takes").value == pytest.approx(120, abs=0.5)


@pytest.mark.parametrize("fact", [fact.id for fact in FACTS])
def test_any_one_fact_may_be_missing(fact):
    plan = planned((fact,))
    assert [answer.id for answer in plan.answers] == ORDER
    assert all(answer.sentence or answer.refusals for answer in plan.answers)


def test_standard_atmosphere_stands_in_for_a_barometer():
    # U.S. Standard Atmosphere 1976: 845.56 hPa at 1500 m; deepest 24.97 inHg, less 0.74 inHg
    plan = planned(("measured_station_pressure",))
    deepest = figure(plan, "vacuum", "Deepest")
    assert standard_pressure(elevation=1500) == pytest.approx(84556, abs=1)
    assert (deepest.low, deepest.value, deepest.high) == (24.2, 24.9, 25.7)


def test_at_sea_level_the_usual_vacuum_exists():
    plan = planned(measured_station_pressure="1013.25 hPa")
    assert figure(plan, "vacuum", "Target on a gauge").value == pytest.approx(25.0, abs=0.11)
    assert "cannot exist" not in plan.answer("vacuum").sentence


def test_paper_stated_by_the_maker_narrows_the_water():
    stated, guessed = planned(plan_paper_mass="1700 kg"), PLAN
    wide, narrow = (figure(plan, "water", "Water to remove") for plan in (guessed, stated))
    assert narrow.high - narrow.low < wide.high - wide.low
    assert figure(stated, "water", "Paper").source == "job sheet"


def test_paper_as_dry_as_the_target_needs_nothing():
    plan = planned(plan_target_water="3.5 %")
    assert "nothing to remove" in plan.answer("time").sentence
    assert "nothing to remove" in plan.answer("cartridges").sentence


def test_cold_conservator_is_told():
    answer = planned(coldest_oil="-15 degC").answer("oil")
    assert "the low-level contact will act" in answer.sentence
    assert not answer.inside


def test_thin_hose_and_long_suction_are_outside():
    plan = planned(suction_hose_bore="12 mm", suction_hose_length="40 m", working_flow="20 L/min")
    assert not figure(plan, "hoses", "Velocity in the suction").inside
    assert "it draws air" in plan.answer("hoses").sentence


def test_pump_inlet_below_its_trip_is_not_called_good():
    answer = planned(coldest_oil="-10 degC").answer("hoses")
    assert "would fall to 3.1 kPa g, at least 5.0 is asked for. Run slower." in answer.sentence


def test_pump_inlet_says_what_it_leaves_out():
    answer = PLAN.answer("hoses")
    assert "by the hose alone" in answer.sentence
    assert any("Couplings, valves and strainer take more" in note for note in answer.notes)


@pytest.mark.parametrize("relief", ["700 kPa g", "350 kPa g"], ids=["above", "at the trip"])
def test_relief_out_of_order_is_told(relief):
    refusals = planned(relief_setting=relief).answer("hoses").refusals
    assert "do not stand in order" in refusals[-1]


def test_gas_cushion_is_not_passed_over():
    sheet = demo_sheet()
    plan = plan_of(replace(sheet, facts={**sheet.facts, "gas_cushion": True}))
    assert "the tank draws air" in plan.answer("oil").refusals[0]


def test_gauge_too_coarse_for_the_target_gives_no_target():
    # a doubt of 2 hPa leaves nothing of 1 hPa; the dial would have to show more than there is
    answer = planned(owner={"residual_limit": "1 hPa"}).answer("vacuum")
    labels = [f.label for f in answer.figures]
    assert [word for label in labels for word in ("absolute", "dial") if word in label] == []
    assert [r.split(":")[0] for r in answer.refusals[:2]] == [
        "Target on the absolute gauge", "Target on the dial gauge, its doubt added",
    ]  # fmt: skip
    assert all("this gauge cannot decide here" in refusal for refusal in answer.refusals[:2])
    assert "−" not in answer.sentence


def test_dial_without_a_barometer_gives_no_target():
    sheet = demo_sheet()
    instruments = tuple(each for each in sheet.instruments if each.id != "barometer")
    answer = plan_of(replace(sheet, instruments=instruments)).answer("vacuum")
    assert [f for f in answer.figures if "dial" in f.label] == []
    assert "the sheet has no barometer" in answer.refusals[0]


@pytest.mark.parametrize(
    ("elevation", "words"),
    [("1500 m", "in every weather"), ("1800 m", "cannot exist at this site."), ("0 m", "")],
)
def test_usual_vacuum_is_held_against_the_weather(elevation, words):
    # U.S. Standard Atmosphere 1976: deepest 24.97, 24.06 and 29.92 inHg; weather 0.74 either way
    plan = planned(("measured_station_pressure",), elevation=elevation)
    sentence = plan.answer("vacuum").sentence
    assert words in sentence
    assert ("cannot exist" in sentence) == bool(words)


def test_measured_station_pressure_is_told_to_be_of_its_day():
    assert "from a barometer that day" in PLAN.answer("vacuum").notes[0]


def test_margin_below_what_is_asked_for_is_not_called_safe():
    answer = planned(coldest_oil="-8 degC").answer("oil")
    assert not answer.inside
    assert "less than the 5.0 asked for: top up first" in answer.sentence
    assert "will not act" not in answer.sentence


def test_skid_that_takes_more_than_the_conservator_holds_is_told():
    answer = planned(vessel_volume="2400 L").answer("oil")
    assert "more than the conservator’s 1800 L: do not connect it" in answer.sentence
    assert not answer.inside


def test_level_below_the_contact_still_tells_of_the_tray():
    answer = planned(curve_level="14 %").answer("tray")
    assert "The tray holds the skid’s 120 L" in answer.sentence
    assert "level stands below the contact" in answer.refusals[0]


def test_sample_too_hot_for_the_curve_leaves_the_rest_of_the_plan():
    plan = planned(sample_temperature="110 degC")
    assert plan.curve is None
    assert figure(plan, "oil", "Oil that the skid takes").value == pytest.approx(120, abs=0.5)


@pytest.mark.parametrize(
    ("stated", "answer", "words"),
    [
        ({"oil_density": "1.05 kg/L"}, "hoses", "density at 20 1.05 kg/L lies outside 0.8 to 1"),
        ({"suction_height": "5 m"}, "tray", "head −6.751 kPa g lies outside 0 to 400 kPa g"),
        ({"plan_paper_mass": "50000 kg", "sample_water": "26 mg/kg"}, "cartridges",
         "kg lies outside 0 to 1000 kg"),
    ],
)  # fmt: skip
def test_formula_refuses_in_the_unit_of_its_input(stated, answer, words):
    refusals = planned(**stated).answer(answer).refusals
    assert any(words in refusal.replace("\u00a0", " ") for refusal in refusals), refusals


def test_pump_inlet_of_another_liquid_is_refused():
    answer = planned(fluid="natural ester").answer("hoses")
    assert "viscosity of this liquid is not known" in answer.refusals[0]
    assert not [f for f in answer.figures if f.label.startswith("Pump inlet")]


def test_sample_is_held_to_the_rest_that_it_needs():
    # oil and paper are in balance only 72 h after a dryer ran: common practice, no source
    assert "no dryer ran in the 72 hours before" in PLAN.answer("wet").notes[0]


def test_common_practice_is_named_where_it_stands_in():
    inputs = {put.fact: put for put in PLAN.answer("away").inputs}
    stand = inputs["plan_stand_time"]
    assert (stand.value, stand.unit) == (48, "h")
    assert stand.source == "common practice, no source: state stand_time in [plan]"
    stated = planned(plan_stand_time="24 h")
    (stand,) = [p for p in stated.answer("away").inputs if p.fact == "plan_stand_time"]
    assert (stand.value, stand.source) == (24, "job sheet")
    assert figure(stated, "away", "Out of service: days").value == pytest.approx(8)


def test_owner_s_limit_wins_over_common_practice():
    sheet = demo_sheet()
    owner = {name: value for name, value in sheet.owner.items() if name != "velocity_limit"}
    found = figure(plan_of(replace(sheet, owner=owner)), "hoses", "Velocity in the suction")
    assert (found.at_most, "common practice" in found.source) == (1, True)
    assert "owner" in figure(PLAN, "hoses", "Velocity in the suction").source


def test_curve_passes_through_the_sample_and_meets_free_water():
    curve = PLAN.curve
    assert curve.sample == (pytest.approx(52), pytest.approx(12.9, abs=0.05))
    assert curve.points[0][1] > 100 > curve.points[1][1]
    assert 0 < curve.free_water < 2
    assert [looks for _, looks in curve.eye] == ["clear", "clear", "hazy, then drops"]


def test_free_water_appears_where_solubility_is_what_the_oil_holds():
    # Griffin's line (value from memory): 35 mg/kg dissolve at 9.4 °C
    assert planned(sample_water="35 mg/kg").curve.free_water == pytest.approx(9.4, abs=0.05)


def test_plan_of_equal_sheets_is_equal():
    assert planned() == PLAN
    assert PLAN.planned_start == date(2026, 6, 16).isoformat()
