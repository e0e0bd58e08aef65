"""A tablet with the demo's hookup on it, signed off, and every shipped list to follow."""

import shutil
from datetime import timedelta

from fieldapp.demo.player import play
from fieldapp.journal.jobs import Jobs
from fieldapp.logbook.figures import moment
from fieldapp.screens.app import checklists_here
from tests.logbook.weeks import HOOKUP, Weeks, kept, known
from tests.screens.sitting import BEGIN, Sitting

FOLLOWING = (
    "visit", "alarm_response", "cartridge_change", "rest_test", "oil_sampling", "disconnection",
)  # fmt: skip
TECHNICIAN, LEAD = "Maren Holtby", "Ruth Calderon"


def hooked_up(folder):
    """Play the demo's hookup to its signatures; return the home."""
    play(folder, lambda _: None).close()
    return folder


def copied(home, folder):
    """Return a home of one's own with the same jobs."""
    return shutil.copytree(home, folder / "home")


def sitting_after(home, day, checklists=None):
    """A desk over a home, so many days after the start."""
    hookup = hookup_in(home)
    started = known(moment(hookup, "started"))
    begin = (started + timedelta(days=day)).replace(hour=9, minute=0, second=0)
    return Sitting(home, {}, checklists=checklists or checklists_here(), begin=begin)


def weeks_in(home):
    """The weeks after the hookup of a home, to be played and then kept there."""
    hookup = hookup_in(home)
    return Weeks(hookup, known(moment(hookup, "started")))


def hookup_in(home):
    """The hookup of a home, its journal shut again."""
    jobs = Jobs(home, lambda: BEGIN)
    found = jobs.open(HOOKUP).job
    jobs.close()
    return found


def keep_weeks(home, weeks):
    """Keep what was played in the journals of a home."""
    jobs = Jobs(home, lambda: weeks.jobs[-1].state.log[-1].at)
    kept(jobs, weeks)
    jobs.close()
