"""The page of a plan, read back with another program and held against the plan."""

import io
from datetime import datetime

import pypdf
import pytest

from fieldapp.checklist.facts import FACTS
from fieldapp.plan.wording import value_words
from fieldapp.record.pages.kit.paper import A4, LETTER
from fieldapp.record.plan_pdf import plan_pdf
from tests.plan.sheets import planned
from tests.record.test_pdf import overlaps, placed, plain

AT = datetime.fromisoformat("2026-06-10T09:00+02:00")
LONG = "Long winded name of a place, " * 12
PLANS = {
    "demo": ((), {}),
    "no sample temperature": (("sample_temperature",), {}),
    "no barometer, no pump": (("measured_station_pressure", "plan_pump_speed"), {}),
    "natural ester": ((), {"fluid": "natural ester"}),
    "wet and cold": ((), {"sample_water": "45 mg/kg", "sample_temperature": "60 degC"}),
    "dry": ((), {"sample_water": "6 mg/kg", "sample_temperature": "70 degC"}),
    "driest": ((), {"sample_water": "0 mg/kg"}),
    "free water in the sample": ((), {"sample_water": "190 mg/kg"}),
    "hot sample": ((), {"sample_temperature": "95 degC"}),
    "cold sample": ((), {"sample_temperature": "-5 degC"}),
    "much outside": ((), {"suction_hose_bore": "12 mm", "relief_setting": "900 kPa g",
                          "coldest_oil": "-40 degC", "tray_volume": "100 L"}),
    "long names": ((), {"unit": LONG, "site_name": LONG, "owner_name": LONG, "prepared_by": LONG}),
    "huge": ((), {"oil_volume": "290000 L", "plan_paper_mass": "40000 kg"}),
    "foreign signs": ((), {"unit": "\u2603 \U0001f525", "site_name": "a\tb\nc"}),
    "nearly nothing": (tuple(fact.id for fact in FACTS if fact.section != "job"), {}),
}  # fmt: skip


def read(pdf):
    return pypdf.PdfReader(io.BytesIO(pdf)).pages


@pytest.mark.parametrize(("without", "stated"), PLANS.values(), ids=PLANS)
@pytest.mark.parametrize("sheet", [A4, LETTER], ids=lambda sheet: sheet.name)
def test_nothing_overlaps_and_nothing_leaves_the_page(without, stated, sheet):
    for page in read(plan_pdf(planned(without, **stated), AT, sheet=sheet)):
        texts = placed(page)
        assert overlaps(texts) == []
        assert min(text[0] for text in texts) >= sheet.left - 1
        assert max(text[2] for text in texts) <= sheet.left + 505
        assert min(text[1] for text in texts) > 15


def test_every_answer_figure_and_note_stands_on_the_pages():
    plan = planned()
    written = plain(" ".join(page.extract_text() for page in read(plan_pdf(plan, AT))))
    squeezed = written.replace(" ", "")
    for answer in plan.answers:
        assert plain(answer.sentence).replace(" ", "") in squeezed
        for figure in answer.figures:
            assert plain(value_words(figure)) in written
        for put in answer.inputs:
            assert plain(f"{put.label} {value_words(put)} ").replace(" ", "") in squeezed
        for note in answer.notes:
            assert plain(note).replace(" ", "") in squeezed
    assert "permits no energised work" in written
    assert "free water below 1 °C" in written


def test_comparison_stands_whole_on_one_page_with_what_was_put_in():
    plan = planned(plan_stand_time="24 h")
    pages = [plain(page.extract_text()) for page in read(plan_pdf(plan, AT))]
    (page,) = (page for page in pages if "Put into the comparison" in page)
    assert "to change one, state it in the job sheet under [plan]" in page
    for put in plan.answer("away").inputs:
        stated = "job sheet" if put.fact == "plan_stand_time" else "common practice, no source"
        row = plain(f"{put.label} {value_words(put)} {stated}").replace(" ", "")
        assert row in page.replace(" ", "")


def test_answers_and_limits_of_the_demo_stand_on_the_first_of_three_pages():
    pages = [plain(page.extract_text()) for page in read(plan_pdf(planned(), AT))]
    assert len(pages) == 3
    first = pages[0].replace(" ", "")
    for answer in planned().answers:
        assert plain(answer.sentence).replace(" ", "") in first
        for figure in answer.figures:
            assert not figure.limited or plain(figure.label).replace(" ", "") in first


def test_refusals_stand_on_the_page():
    plan = planned(("sample_temperature", "plan_pump_speed"))
    written = plain(" ".join(page.extract_text() for page in read(plan_pdf(plan, AT))))
    squeezed = written.replace(" ", "")
    for answer in plan.answers:
        for refusal in answer.refusals:
            assert plain(refusal).replace(" ", "") in squeezed
    assert "No chart: the sheet has no sound sample" in written


def test_equal_plans_give_equal_bytes():
    assert plan_pdf(planned(), AT) == plan_pdf(planned(), AT)
    later = AT.replace(hour=10)
    assert plan_pdf(planned(), AT) != plan_pdf(planned(), later)
