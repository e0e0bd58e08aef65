"""The demo's weeks, played: hookup, visits, a cartridge change, the rest test (all invented)."""

from datetime import timedelta

from fieldapp.actions.beginning import Following
from fieldapp.job.events import document_of
from fieldapp.logbook.course import courses_of
from tests.checklists.playing import Playing

# What the sheet says after the hookup; the demo's own probes' zero stands in the hookup.
NO_ZERO = (('zero_of_inlet = "7.6 mg/kg"\nzero_of_outlet = "7.0 mg/kg"\n', ""),)
HOOKUP = "SP-T2-2026-01"


def known(value):
    """Return what is there; a logbook leaves out what nobody knows."""
    assert value is not None
    return value


class Weeks:
    """A course of drying in the making; days count from the hookup's start."""

    def __init__(self, hookup, started):
        self.jobs = [hookup]
        self.started = started

    def follow(self, name, day, *, changed=None, last="", swapped=NO_ZERO):
        """Play a list that follows, to the end or to its step `last`."""
        taken = [job.number for job in self.jobs]
        # a list begins in the morning, as its own clock times say
        at = (self.started + timedelta(days=day)).replace(hour=7, minute=0)
        playing = Playing(name, changed=changed, swapped=swapped, at=at,
                          following=Following(HOOKUP, "ab" * 32, taken))  # fmt: skip
        if last != "nothing":
            playing.through(last)
        self.jobs.append(playing.job)
        return playing

    def visit(self, day, litres, inlet, outlet, *, oil="48.0", upcoming="2026-12-01", **more):
        changed = {"v_totaliser": litres, "v_moist_in": inlet, "v_moist_out": outlet,
                   "v_moist_in_oil": oil, "v_next_visit": upcoming, **more}  # fmt: skip
        return self.follow("visit", day, changed=changed)

    @property
    def course(self):
        (found,) = courses_of(self.jobs)
        return found


def kept(jobs, weeks):
    """Keep the lists that follow in the journals, as the tablet would have."""
    for job in weeks.jobs[1:]:
        database = jobs._database(job.number)  # noqa: SLF001 - they were played beside it
        database.table("events").insert_multiple(document_of(event) for event in job.state.log)
