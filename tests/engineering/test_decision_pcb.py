"""PCB classes, against American and European law."""

from datetime import date

import pytest

from fieldapp.engineering.decision.pcb import Jurisdiction, pcb_class

US, EU = Jurisdiction.UNITED_STATES, Jurisdiction.EUROPEAN_UNION


@pytest.mark.parametrize(
    ("content", "name"),
    [(3, "non-PCB"), (49.9, "non-PCB"), (50, "PCB-Contaminated"), (499.9, "PCB-Contaminated"),
     (500, "PCB Transformer")],
)  # fmt: skip
def test_tested_oil_has_the_class_of_american_law(content, name):
    # 40 CFR 761.2 and 761.3
    found = pcb_class(jurisdiction=US, content=content)
    assert (found.name, found.assumed, found.could_be) == (name, False, "")


@pytest.mark.parametrize(
    ("made", "mineral", "name"),
    [(date(1979, 7, 1), True, "PCB-Contaminated"), (None, True, "PCB-Contaminated"),
     (date(1979, 7, 1), False, "PCB Transformer"), (None, False, "PCB Transformer"),
     (date(1979, 7, 2), True, "PCB-Contaminated"), (date(1979, 7, 3), True, "non-PCB")],
)  # fmt: skip
def test_untested_oil_has_the_class_that_must_be_assumed(made, mineral, name):
    # 40 CFR 761.2(a)(2) and (3); made later may be assumed non-PCB (value from memory), the day
    # itself counted as before
    found = pcb_class(jurisdiction=US, made=made, mineral_oil=mineral)
    assert (found.name, found.assumed) == (name, True)
    assert "tested" in found.note


def test_uncertainty_that_reaches_the_next_class_is_told():
    assert pcb_class(jurisdiction=US, content=48, uncertainty=5).could_be == "PCB-Contaminated"


@pytest.mark.parametrize(("content", "name"), [(50, "not PCB"), (50.1, "PCB")])
def test_european_class(content, name):
    # Directive 96/59/EC, article 2: more than 0.005 % by weight (value from memory)
    assert pcb_class(jurisdiction=EU, content=content).name == name


def test_nothing_is_guessed_where_the_law_is_not_known():
    assert pcb_class(jurisdiction=Jurisdiction.OTHER, content=3).name == "not known here"
    assert pcb_class(jurisdiction=Jurisdiction.OTHER).name == "not known here"
    assert pcb_class(jurisdiction=EU, made=date(1990, 1, 1)).name == "not known here"
