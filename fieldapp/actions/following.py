"""Which list may follow a hookup, and what it waits for: making safe never waits."""

from collections.abc import Sequence

from fieldapp.actions.rules import LEAD
from fieldapp.checklist.model import Checklist, Follows
from fieldapp.job.job import Job

DISCONNECTION = "disconnection"
SIGN_FIRST = (
    "The hookup is not signed off yet: technician and crew lead sign it first. "
    "An alarm response, a disconnection or a sample does not wait for that."
)
BEGIN_AT_HOOKUP = "{number} follows {follows}: begin the next checklist from there."
NO_SKID = "{number} connects no skid: nothing follows it. Begin a new job."
TAKEN_OFF = "The skid was disconnected by {number}: only oil samples follow now."


def not_yet(checklist: Checklist, hookup: Job, followers: Sequence[Job] = ()) -> tuple[str, ...]:
    """Return why a list may not follow a hookup now; empty if it may."""
    if hookup.follows:
        return (BEGIN_AT_HOOKUP.format(number=hookup.number, follows=hookup.follows),)
    if not hookup.checklist.moves_a_skid:
        return (NO_SKID.format(number=hookup.number),)
    off = taken_off(followers)
    if off is not None and checklist.moves_a_skid:
        return (TAKEN_OFF.format(number=off.number),)
    if checklist.follows is Follows.SIGNED_HOOKUP and hookup.state.signature(LEAD) is None:
        return (SIGN_FIRST,)
    return ()


def taken_off(followers: Sequence[Job]) -> Job | None:
    """Return the disconnection that was signed off; None while the skid may be connected."""
    done = (j for j in followers if j.checklist.id == DISCONNECTION and j.state.signature(LEAD))
    return next(done, None)
