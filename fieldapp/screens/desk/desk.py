"""The desk: takes every touch, does what it means, keeps it, and says which screen comes next.

There is no Kivy here. A screen shows `Desk.view()` and passes each touch on as
`Desk.touched(what, *details)`; the app then shows the next view. Everything that was entered is
on the disk before `touched` returns. Times, names and texts are as people wrote them.

Touches that every screen may pass on (the plates of the frame):
    "back"                     to where one came from
    "safe"                     the screen "safe": stop and make safe
    "report"                   the screen "report": something was touched
    "people"                   the screen "people": who is at the tablet
    "open"                     the screen "open": what is still open
    "hookup"                   the screen "hookup": the line diagram, whole
    "jobs"                     the list of jobs
    "in force"                 permits, blocks and valves in force now
    "steps"                    the steps of the phase at hand
    "look"                     sun or night
    "page", start              a list shows its rows from `start` on
    "typed", text [, field]    what stands typed now; nothing is kept by this
    "go", step                 to a step, wherever it is in the list

jobs      "open job", number / "course", number / "new"
course    "open job", number / "follow" / "logbook"
in force  "block" / "restore", event;  asked  "kept", text / "left"
leaving   "hand over" / "stay" / "left"
follow    "begin list", id / "another sheet";  lists  "list", name
newjob    "sheet", file / "type sheet" / "lists"
newjob    "change", file (type on from a sheet)
sheet     "section", id / "plan" / "begin";  section  "field", name
field     "typed", text / "choose", option / "keep" / "erase"
people    "person", name / "course here" / "sheet" (to read) / "plan" (of the one to begin)
plan      "answer", id
steps     "phase before", step / "phase after", step / "go", step
step      "entry", id / "say why", subject / "accept", subject / "promise", subject / "go", step
entry     "typed", text / "keep" / "again" / "say why" / "yes" / "choose", option
          / "answer", field, yes or no / "next part" / "part before" / "day"
          / "instruments" / "units" / "correct" / "later" / "picture", path / "another" / "missing"
reason    "kept", text / "left" (explain, correct, a condition, a document, a note)
safe      "done", row / "note", row
trace, hold
          "start" / "ask", part / "reading", {column: text} [, when the needle stood there]
          / "end", note / "correct reading", sequence, {column: text}, reason
          / "typed", text, column / "instruments", column
instruments  "instrument", id / "sheet";  units  "unit", name
hookup    "ask", part / "close valve", part
open      "go", step
signoff   "ask", part / "accept", subject, condition [, document] / "condition", subject, text
          / "see", sequence / "send back", reason / "sign", role, strokes / "strokes", strokes
          / "clear"
          / "name", text / "make record"
record    "unlock" / "unsigned"
jobs      "crew";  crew  "new key" / "request", fingerprint / "trust";  trust  "offer", file
offer     "take in";  secret  "named", text / "given", secret
jobs      "copies";  copies  "places" / "copy" / "bring back" / "hand over", number / "files"
places    "place", folder;  handing  "vouch", name / "unsigned" / "places"
files     "take", file / "both"
jobs      "hurt", number;  hurt  "sides" / "gap";  sides  "keep", tablet;  who  "by", name
why       "typed", text / "kept", text / "left"
closing   "stay" / "leave now"
report    "ask", happening / "report", happening, note
"""

from collections.abc import Callable, Mapping
from pathlib import Path

from fieldapp.journal.jobs import Jobs
from fieldapp.screens.desk import desk_jobs, desk_steps, desk_views
from fieldapp.screens.desk.copies import desk_closing, desk_copies, desk_handing, desk_hurt
from fieldapp.screens.desk.course import desk_course, desk_force
from fieldapp.screens.desk.entries import (
    desk_entry,
    desk_instruments,
    desk_photo,
    desk_timed,
    desk_units,
)
from fieldapp.screens.desk.keys import desk_keys, desk_record, desk_sign
from fieldapp.screens.desk.sheets import desk_plan, desk_sheet
from fieldapp.screens.desk.state.desk_state import NIGHT, SUN, Clock, DeskState
from fieldapp.screens.place import Place

Deed = Callable[..., None]
OWN_FAULT = (
    "That did not work: the program is at fault. All that was kept before is safe. "
    "Open the job and look whether the last entry is there."
)


class Desk:
    """One tablet: its jobs, the person at it, the job in hand and the place in it."""

    def __init__(
        self,
        home: Path,
        clock: Clock,
        checklists: Mapping[str, str],
        *,
        jobs: Jobs | None = None,
        cameras: tuple[Path, ...] = (),
        cards: Callable[[], tuple[Path, ...]] = tuple,
    ) -> None:
        """Open the list of jobs; `checklists` are their texts by name.

        Pictures lie in `home` and in the folders of the tablet's `cameras`;
        `cards` says what is plugged in.
        """
        self.state = DeskState(
            jobs or Jobs(home, clock), clock, checklists, home / "sheets",
            (home / "pictures", *cameras), cards,
        )  # fmt: skip

    @property
    def look(self) -> str:
        """The look in use, "sun" or "night"."""
        return self.state.look

    @property
    def running(self) -> bool:
        """Say whether a trace or a hold runs, so that the display must stay on."""
        return self.state.running()

    def touched(self, what: str, *details: object) -> None:
        """Do what a touch means, and go where it leads."""
        state = self.state
        state.refused = ""
        deed = _DEEDS.get((state.place.screen, what)) or _EVERYWHERE.get(what)
        assert deed is not None, (state.place.screen, what)  # noqa: S101 - a screen's mistake
        deed(state, *details)
        desk_keys.lock_unless_at_work(state)
        desk_keys.at_first_row(state)

    @property
    def working(self) -> bool:
        """Say whether something goes on beside the window."""
        return self.state.keys.bench.work is not None

    def settle(self, *, wait: bool = False) -> bool:
        """Take in what went on beside the window, if it is ready; say whether it was."""
        return desk_keys.settle(self.state, wait=wait)

    def view(self) -> object:
        """Return what the present screen shows."""
        return desk_views.view_of(self.state)

    def own_fault(self) -> None:
        """Say that the program failed; what was entered before is in the journal."""
        desk_jobs.to_jobs(self.state)
        self.state.refused = OWN_FAULT

    def may_close(self) -> bool:
        """Say whether the window may close now; if not, everything is copied first, in sight."""
        return desk_closing.may_close(self.state)

    @property
    def closing(self) -> bool:
        """Say whether the window is to close, and the last copy was begun in sight."""
        return self.state.copies.closing

    @property
    def closed(self) -> bool:
        """Say whether the window now closes by itself."""
        return desk_closing.closed(self.state)

    def close(self) -> None:
        """Close the journals; all that was entered is in them."""
        self.state.keys.bench.close()
        self.state.jobs.close()


def _look(state: DeskState) -> None:
    state.look = NIGHT if state.look == SUN else SUN


def _to(screen: str) -> Deed:
    def go(state: DeskState) -> None:
        state.go(Place(screen, state.place.step, state.place.entry))

    return go


_EVERYWHERE: Mapping[str, Deed] = {
    **desk_force.EVERYWHERE,
    "look": _look,
    "people": _to("people"),
    "open": _to("open"),
    "report": _to("report"),
    "hookup": _to("hookup"),
    "safe": desk_jobs.make_safe,
    "page": desk_steps.turn_page,
    "steps": desk_steps.to_steps,
    "go": desk_steps.to_step,
    "typed": desk_entry.typed,
}
_DEEDS: Mapping[tuple[str, str], Deed] = {
    **desk_jobs.DEEDS,
    **desk_course.DEEDS,
    **desk_force.DEEDS,
    **desk_sheet.DEEDS,
    **desk_plan.DEEDS,
    **desk_steps.DEEDS,
    **desk_entry.DEEDS,
    **desk_photo.DEEDS,
    **desk_instruments.DEEDS,
    **desk_units.DEEDS,
    **desk_timed.DEEDS,
    **desk_sign.DEEDS,
    **desk_keys.DEEDS,
    **desk_record.DEEDS,
    **desk_copies.DEEDS,
    **desk_closing.DEEDS,
    **desk_handing.DEEDS,
    **desk_hurt.DEEDS,
}
