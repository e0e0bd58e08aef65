"""What the lists enter for the logbook: litres, moisture, oil, flow; and which entry holds it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from fieldapp.job.job import Job
from fieldapp.judgement.values import Value, values_of


@dataclass(frozen=True, slots=True)
class Named:
    """The entries of one list that the logbook reads; "" where the list has none.

    A name may be an entry, or a column of a trace with `_last` for its last reading.
    """

    totaliser: str = ""
    inlet: str = ""
    outlet: str = ""
    oil: str = ""
    flow: str = ""
    zero_inlet: str = ""
    zero_outlet: str = ""
    started: str = ""
    stopped: str = ""
    next_visit: str = ""
    next_change: str = ""
    looked: str = ""
    looked_again: str = ""


NAMES: Mapping[str, Named] = {
    "hookup": Named("totaliser_start", "hour1_in_last", "hour1_out_last", "hour1_oil_last",
                    "flow_set", "zero_inlet", "zero_outlet", started="low_run",
                    next_visit="next_visit"),
    "visit": Named("v_totaliser", "v_moist_in", "v_moist_out", "v_moist_in_oil", "v_flow",
                   next_visit="v_next_visit", next_change="v_next_change"),
    "cartridge_change": Named("c_last_totaliser", "c_last_in", "c_last_out", "c_bottom_oil",
                              zero_inlet="c_zero_inlet", zero_outlet="c_zero_outlet",
                              started="c_start_watch", stopped="c_stop_pump"),
    "alarm_response": Named(started="r_start_watch"),
    "rest_test": Named("t_last_totaliser", "t_last_in", "t_last_out", "t_last_oil",
                       stopped="t_stop_pump"),
    "disconnection": Named(stopped="d_stop_pump", looked="d_leak1_is",
                           looked_again="d_leak24_is"),
}  # fmt: skip
DRAINED, WEIGHED, SCALE = "c_drained", "c_water", "c_scale"
SPREAD, BLANKS = "c_blank_spread", "c_blank_count"
LABORATORY, PROBE = "v_pair_lab", "v_pair_probe"


@dataclass(frozen=True, slots=True)
class Figures:
    """The values of a job by the names of the logbook."""

    names: Named
    numbers: Mapping[str, Value]

    def si(self, role: str) -> float | None:
        """Return the value in a role in SI; None if it was not entered."""
        value = self.numbers.get(getattr(self.names, role))
        return value.si if value else None

    def number(self, entry: str) -> Value | None:
        """Return the value of an entry or of a computed value."""
        return self.numbers.get(entry)


def named(job: Job) -> Named:
    """Return which entries of a job's list the logbook reads."""
    return NAMES.get(job.checklist.id, Named())


def moment(job: Job, role: str) -> datetime | None:
    """Return when what stands in a role was entered, or when a wait began."""
    name = getattr(named(job), role)
    attempt = job.state.attempt(name)
    if attempt is not None:
        return attempt.started
    given = job.state.latest(name)
    return given.done_at if given else None


def text(job: Job, role: str) -> str:
    """Return what was written in a role."""
    given = job.state.latest(getattr(named(job), role))
    return given.fields.get("value", "") if given else ""


def figures_of(job: Job) -> Figures:
    """Return what a job gives the logbook."""
    return Figures(named(job), values_of(job).numbers)
