"""When cartridges are changed and when a rate may be judged: common practice, no source."""

from dataclasses import replace

import pytest

from fieldapp.engineering.drying.watch import (
    DAY,
    OTHER_FLOW,
    UNSURE,
    WARMER,
    Call,
    NotNow,
    Reading,
    StopRule,
    cartridge_call,
    rate_is_below,
)

PPM = 1e-6
GOOD = Reading(0, 321.15, 12 / 60_000, 20 * PPM, 3 * PPM)
SPENT = replace(GOOD, outlet_water=15 * PPM)
HOURS = [SPENT if hour == 0 else replace(SPENT, time=hour * 3600.0) for hour in range(0, 28, 4)]

CALLS = {
    "good": ([GOOD], Call.CARRY_ON),
    "below a half": ([replace(GOOD, outlet_water=10.5 * PPM)], Call.LOOK),
    "below 0.3 for an hour": ([SPENT, replace(SPENT, time=3600.0)], Call.LOOK),
    "below 0.3 for 20 hours": (HOURS[:6], Call.LOOK),
    "below 0.3 for a day": (HOURS, Call.CHANGE),
    "good in between": ([*HOURS[:3], replace(GOOD, time=11 * 3600.0), *HOURS[3:]], Call.LOOK),
    "warmer in between": (
        [*HOURS[:3], replace(HOURS[3], temperature=325.0), *HOURS[4:]], Call.LOOK,
    ),
    "too alike in between": (
        [*HOURS[:3], replace(HOURS[3], outlet_water=18.5 * PPM), *HOURS[4:]], Call.LOOK,
    ),
    "water comes back": ([*HOURS, replace(GOOD, time=2 * DAY, outlet_water=21 * PPM)], Call.STOP),
}  # fmt: skip


@pytest.mark.parametrize(("readings", "call"), CALLS.values(), ids=CALLS)
def test_readings_call_for(readings, call):
    assert cartridge_call(readings, 1 * PPM) is call


RULE = StopRule(0.144 / DAY, 321.15, 12 / 60_000, 862)
NOT_NOW = {
    "warmer": ({"temperature": 325.15}, WARMER.format(4)),
    "colder": ({"temperature": 317.15}, WARMER.format(-4)),
    "throttled": ({"flow": 9 / 60_000}, OTHER_FLOW.format(75)),
    "too alike": ({"outlet_water": 18.5 * PPM}, UNSURE),
    "no temperature": ({"temperature": float("nan")}, WARMER.format(float("nan"))),
}


@pytest.mark.parametrize(("changes", "reason"), NOT_NOW.values(), ids=NOT_NOW)
def test_stop_rule_is_not_judged_away_from_its_conditions(changes, reason):
    assert rate_is_below(RULE, replace(GOOD, **changes), 1 * PPM) == NotNow(reason)


@pytest.mark.parametrize(
    ("inlet", "below"), [(19.8, False), (12.5, False), (12.4, True), (8, True)]
)
def test_stop_rule_within_its_conditions(inlet, below):
    # 12 L/min of 862 kg/m³ for a day is 14 895 kg of oil; 0.144 kg of water is 9.67 mg/kg of it
    reading = replace(GOOD, inlet_water=inlet * PPM, outlet_water=2.8 * PPM, temperature=323.0)
    assert rate_is_below(RULE, reading, 1 * PPM) is below
