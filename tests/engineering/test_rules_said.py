"""What the tables and judgements say, against what their sources print."""

from math import exp, log

import pytest

from fieldapp.engineering.catalogue import RULES
from fieldapp.engineering.decision.pcb import Jurisdiction
from fieldapp.engineering.drying.course import Season
from fieldapp.engineering.drying.watch import Reading
from fieldapp.engineering.moisture.estimate import Liquid
from fieldapp.engineering.moisture.solubility import GRIFFIN, Pair
from fieldapp.engineering.rules.gases import GasName, TypicalGas
from fieldapp.engineering.rules.limits import OilTable
from fieldapp.engineering.rules.safety import Container
from fieldapp.engineering.rules.said import CannotSayError
from fieldapp.engineering.rules.vessel import PumpReading
from fieldapp.engineering.rules.weighing import Weighing
from tests.engineering.rules_given import DAY, LITRE_A_MINUTE, PPM, SOUND


def say(name, **changes):
    return RULES[name].judge(**{**SOUND[name], **changes})


def figures(said):
    return {figure.label: figure.value for figure in said.figures}


def test_pump_down_that_levels_out_above_its_target_is_a_leak_when_the_pump_alone_is_good():
    # Evacuation equation with Pu 231 hPa, time constant 120 s (O'Hanlon, value from memory)
    said = say("pump_down_outlook")
    assert said.sentence.startswith("Will not get there, and the pump alone would")
    found = figures(said)
    assert found["levels out at"] == pytest.approx(23_100, rel=1e-3)
    assert found["pumping speed"] == pytest.approx(0.12 / 120, rel=1e-3)
    assert found["inflow beyond the pump's own"] == pytest.approx(0.001 * 22_300, rel=1e-3)
    assert "stop and look" in say("pump_down_outlook", pump_alone=None).sentence
    assert "pump alone does not reach" in say("pump_down_outlook", pump_alone=23_000.0).sentence


def test_few_readings_of_a_pump_down_are_too_early():
    early = [PumpReading(0, 84_320), PumpReading(30, 70_000)]
    assert say("pump_down_outlook", reading=early).sentence == "Too early to tell: keep reading."


def test_hold_that_flattens_is_outgassing():
    said = say("hold_test")
    assert said.sentence == "Straight: a leak."
    # V dP/dt, arithmetic: 0.12 m³ x 285 Pa in 1800 s
    assert figures(said)["leak rate"] == pytest.approx(0.12 * 285 / 1800, rel=1e-3)


def test_hold_on_a_dial_is_the_hold_made_absolute():
    said = say("hold_test_by_dial")
    assert figures(said)["rise, corrected"] == pytest.approx(1500)


def test_three_points_are_no_hold():
    with pytest.raises(CannotSayError, match="four readings"):
        say("hold_test", reading=SOUND["hold_test"]["reading"][:3])


@pytest.mark.parametrize(("gas", "words"), [
    (GasName.NITROGEN, "they agree"), (GasName.ACETYLENE, "3.3 times as much"),
    (GasName.ETHYLENE, "1.6 times as much"), (GasName.AIR, "10.07 %"),
])  # fmt: skip
def test_gas_tables_disagree_where_the_sources_do(gas, words):
    # DiGiorgio 2005 (as reproduced) beside IEC 60567/60599 (values from memory)
    assert words in say("gas_solubility", gas=gas).sentence


@pytest.mark.parametrize(
    ("celsius", "griffin", "oommen", "du", "ester"),
    [(20, "55.5", "52.9", "54.9", "997"), (40, "121.8", "122.2", "124.4", "1405"),
     (80, "449.0", "491.1", "483.5", "2483")],
)  # fmt: skip
def test_named_sets_stand_side_by_side(celsius, griffin, oommen, du, ester):
    # Griffin 1988, Oommen 1983, Du et al. 1999, natural ester: coefficients from memory
    said = say("solubility_sets", temperature=celsius + 273.15)
    found = [float(row[-1]) for row in said.rows]
    assert found == pytest.approx([float(griffin), float(oommen), float(du), float(ester)], abs=0.6)


@pytest.mark.parametrize(("changes", "words"), [
    ({"since_drying": 3600.0}, "the dryer ran within the last 72 hours"),
    ({"temperature": None}, "no oil temperature"),
    ({"temperature": 308.15}, "too cold"),
    ({"saturation": 0.25}, "wetter than this method can say"),
    ({"water": None, "saturation": None}, "neither water content nor relative saturation"),
    ({"liquid": Liquid.NATURAL_ESTER, "constant_a": None, "constant_b": None}, "an ester"),
    ({"constant_b": None}, "belong together"),
])  # fmt: skip
def test_sample_that_tells_nothing_is_refused_in_words(changes, words):
    with pytest.raises(CannotSayError, match=words):
        say("paper_of_sample", **changes)


@pytest.mark.parametrize(("saturation", "band"), [
    (0.05, "Dry."), (0.051, "Moderate to wet."), (0.2, "Moderate to wet."), (0.21, "Wet."),
    (0.31, "Extremely wet."),
])  # fmt: skip
def test_bands_of_dryness(saturation, band):
    # IEC 60422 Annex A (values from memory)
    assert say("saturation_band", saturation=saturation).sentence == band


def test_pairs_made_with_published_constants_give_them_back():
    # Griffin 1988 (value from memory): A 7.0895, B 1567
    pair = [Pair(t, 0.2 * GRIFFIN.at(t), 0.2) for t in (293.15, 313.15, 333.15)]
    found = figures(say("site_solubility", pair=pair))
    assert found["constant_a"] == pytest.approx(7.0895)
    assert found["constant_b"] == pytest.approx(1567)
    with pytest.raises(CannotSayError, match="15 K from coldest to warmest"):
        say("site_solubility", pair=[Pair(300, 2e-5, 0.2), Pair(305, 2e-5, 0.2)])


def test_course_agrees_with_the_closed_form_and_a_cold_season_lengthens_it():
    # M = 5000 kg, 3 to 2 %, 10 L/min, efficiency 0.9: 162.8 days at 60 °C (value from memory)
    warm = figures(say("drying_course", ingress=0.0))["time to the target"] / DAY
    assert warm == pytest.approx(162.8, abs=1)
    cold = [Season(60 * DAY, 318.15), Season(0, 333.15)]
    assert figures(say("drying_course", season=cold))["time to the target"] / DAY > warm + 20


def test_target_out_of_reach_is_told():
    said = say("drying_course", flow=0.1 * LITRE_A_MINUTE, ingress=1e-6)
    assert said.sentence.startswith("Not at the target within five years")
    assert said.figures == ()


def test_layers_give_their_water_and_take_some_back_at_rest():
    said = say("insulation_course")
    paper = [float(row[-1]) for row in said.rows]
    assert said.heads[-1] == "paper %"
    assert paper == sorted(paper, reverse=True)
    assert float(said.rows[-1][2]) == pytest.approx(figures(said)["water taken"], abs=0.05)


def test_cartridges_are_weighed_against_three_blanks_or_more():
    # 45.1 + 45.0 less twice 42.3 (arithmetic); Student's t 4.53 of JCGM 100:2008, table G.2
    said = say("cartridges_weighed")
    assert figures(said)["water"] == pytest.approx(5.5)
    assert said.figures[0].spread == pytest.approx(4.53 * 0.1 * (2 + 4 / 3) ** 0.5)
    with pytest.raises(CannotSayError, match="at least 3 unused cartridges"):
        say("cartridges_weighed", blank=[Weighing(42.2), Weighing(42.3)])


def test_blanks_that_weigh_alike_do_not_make_the_water_sure():
    # JCGM 100:2008, 5.1.2: the scale's doubt counts for each drained cartridge, as if apart
    alike = [Weighing(42.3)] * 3
    unsure = say("cartridges_weighed", blank=alike)
    assert unsure.sentence == "5.5 kg of water in 2 cartridges."
    assert "state the scale’s uncertainty" in unsure.notes[0]
    said = say("cartridges_weighed", blank=alike, scale=0.1)
    assert (said.figures[0].spread, said.notes) == (pytest.approx(0.1 * 2**0.5), ())


def test_readings_call_for_a_change_after_a_day_below_thirty_percent():
    # common practice, no source
    assert say("cartridges_call").sentence.startswith("Change the cartridges")
    wetter = [Reading(0, 321.15, 2e-4, 10 * PPM, 11 * PPM)]
    assert say("cartridges_call", reading=wetter).sentence.startswith("Stop")


def test_stop_rule_is_judged_at_its_conditions_only():
    # common practice, no source
    assert say("stop_rule").sentence.startswith("Not yet")
    assert say("stop_rule", rate=0.3 / DAY).sentence == "Down to the rate agreed on."
    assert "oil +4.0 K" in say("stop_rule", temperature=325.15).sentence


def test_rest_sample_tells_every_obstacle():
    # 72 h, 7 days, 21 to 28 days, 40 °C, 5 K: common practice, no source
    assert say("rest_sample").sentence == "The sample counts for the rest test."
    said = say("rest_sample", since_drying=12 * DAY, temperature=310.0)
    assert said.sentence.startswith("Does not count. Taken 12.0 days")
    assert len(said.notes) == 2


@pytest.mark.parametrize(("value", "probability"), [(17, 0.9772), (18, 0.9088), (20, 0.5)])
def test_probability_of_conformity(value, probability):
    # JCGM 106:2012 with a normal distribution, limit 20, u 1.5 (values from memory)
    said = say("conformity", value=value, low=None)
    assert figures(said)["probability of conformity"] == pytest.approx(probability, abs=5e-4)


@pytest.mark.parametrize(("value", "state"), [
    (17, "Pass"), (18, "Conditional pass"), (21, "Conditional fail"), (24, "Fail"),
    (3, "Pass"), (2, "Conditional pass"), (-1, "Conditional fail"), (-4, "Fail"),
])  # fmt: skip
def test_four_states_of_two_limits(value, state):
    # ILAC-G8:09/2019, 4.2.3
    said = say("conformity", value=value)
    assert said.sentence.startswith(f"{state}: ")
    # ILAC-G8:09/2019, 4.2.2: the rule of two states passes what the four states pass outright
    assert said.notes[0].endswith("pass." if state == "Pass" else "fail.")


def test_value_without_a_limit_is_not_judged():
    with pytest.raises(CannotSayError, match="no limit"):
        say("conformity", low=None, high=None)


def test_oil_limits_of_each_table():
    # IEC 60422:2013 table 5, IEEE C57.106-2006 (values from memory)
    assert say("oil_limits").rows[0] == ("water", "20 mg/kg", "30 mg/kg")
    in_service = say("oil_limits", voltage=110_000, table=OilTable.IEEE_IN_SERVICE)
    assert in_service.rows[:2] == (("water", "at most 25 mg/kg"),
                                   ("breakdown, 1 mm, D1816", "at least 28 kV"))  # fmt: skip
    assert say("oil_limits", voltage=400_000, table=OilTable.IEEE_NEW).rows[-1][0] == "total gas"
    assert "Not to be used to infer how dry" in in_service.notes[0]


def test_acetylene_above_two_is_to_be_explained_and_nothing_is_released():
    said = say("gas_beside_typical")
    assert "explain it before the start" in said.notes[0]
    assert "releases nothing" in said.notes[1]
    # IEC 60599:2015 with a joint tap changer 60 to 280 (value from memory)
    assert said.rows[1][0] == "60 to 280"
    hydrogen = say("gas_beside_typical", gas=TypicalGas.HYDROGEN)
    assert "explain" not in " ".join(hydrogen.notes)


def test_pcb_class_tells_what_the_uncertainty_reaches_and_what_is_assumed():
    # 40 CFR 761.2 and 761.3
    words = ", but PCB-Contaminated at the upper end of the uncertainty (40 CFR 761.3)."
    assert say("pcb_class").sentence.endswith(words)
    untested = say("pcb_class", content=None, made=None)
    assert untested.sentence == "PCB-Contaminated, assumed (40 CFR 761.2(a))."
    assert say("pcb_class", jurisdiction=Jurisdiction.OTHER).sentence == "Not known here."


def test_spill_rule_counts_a_transformer_and_not_a_can():
    # 40 CFR 112.1 (as seen in EPA's guidance): 19 300 L are 5099 US gal (arithmetic)
    assert say("spill_rule").sentence == (
        "The rule counts this oil: 1 container, 5099 US gal, above 1320."
    )
    assert "does not count" in say("spill_rule", container=[Container(0.12)]).sentence


def test_superseded_distance_is_recognised_and_never_given():
    # the table before 2014, 2.59 m at 345 to 362 kV; 29 CFR 1910.269 table R-7: 3.41 m (memory)
    old = say("approach_distance", voltage=362_000, elevation=100, distance=2.59)
    assert old.sentence.startswith("2.59 m is the figure of the superseded table")
    assert figures(old)["American, phase to ground"] == 3.41
    good = say("approach_distance", voltage=362_000, elevation=100, distance=3.5)
    assert good.sentence == "3.50 m is no shorter than the published 3.41 m."


def test_european_zones_stand_beside_the_american_distance():
    # EN 50110-1, 110 kV (as reproduced); 123 kV at 1500 m: 1.30 x 1.05 (from memory)
    found = figures(say("approach_distance"))
    assert list(found.values()) == [1.37, 1.0, 2.0]
    assert "No European row is carried" in say("approach_distance", nominal_voltage=66_000).notes[2]
    assert "owner’s table governs" in say("approach_distance", nominal_voltage=None).notes[0]


def test_bond_stands_where_its_resistance_and_the_meter_put_it():
    assert say("bond_place").sentence == "As aimed at."
    assert say("bond_place", resistance=0.0995).sentence.startswith("Above what is aimed at")
    assert say("bond_place", resistance=0.51).sentence.startswith("Stop")


@pytest.mark.parametrize(("bore", "radius"), [(0.019, 125), (0.0254, 150), (0.038, 250),
                                              (0.051, 300)])  # fmt: skip
def test_bend_radius(bore, radius):
    # SAE J517, 100R4 (values from memory); the marking governs
    assert figures(say("bend_radius", bore=bore))["bend radius"] * 1000 == pytest.approx(radius)


def test_pump_down_on_its_way_says_when_whether_or_not_the_volume_is_known():
    # evacuation equation, time constant 120 s, Pu 8 hPa (O'Hanlon, value from memory)
    falling = [PumpReading(t, 800 + 83_500 * exp(-t / 120)) for t in range(0, 180, 20)]
    said = say("pump_down_outlook", reading=falling, volume=None)
    assert said.sentence.startswith("On its way: at the target after 3.3 min")
    assert figures(said)["at the target after"] == pytest.approx(
        120 * log(83_500 / 15_865), rel=1e-3
    )
    assert "pumping speed" not in figures(said)
