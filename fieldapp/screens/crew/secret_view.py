"""What is asked where a name or a secret is typed; what stands typed is in no view.

Touches passed on:
    "named", text          the name for a new key
    "given", Secret        a secret
"""

from dataclasses import dataclass
from datetime import datetime

from fieldapp.actions.rules import LEAD, TECHNICIAN
from fieldapp.crew.keys import SHORTEST_SECRET
from fieldapp.screens.frame_view import FrameView

NAME, NEW, AGAIN = "name", "new", "again"


@dataclass(frozen=True, slots=True)
class SecretView:
    """What is asked, how it is typed, and the plate that gives it; `waits` is why it cannot be."""

    frame: FrameView
    title: str
    lines: tuple[str, ...]
    touch: str
    first: str
    second: str
    hint: str = "touch here and type"
    hidden: bool = True
    least: int = SHORTEST_SECRET
    too_short: str = f"at least {SHORTEST_SECRET} characters"
    working: str = ""
    waits: str = ""


def secret_view(
    purpose: str, name: str, frame: FrameView, now: datetime, *, working: str = "",
    until: datetime | None = None, signs: str = "",
) -> SecretView:  # fmt: skip
    """Return what is asked: a name, a new secret, that secret again, or the secret of a role."""
    if purpose == NAME:
        return SecretView(
            frame, "Whose key is it? Your name, as it is printed",
            ("The office will vouch for this name. Write it as on the job sheet.",),
            "named", "Next", "your secret", hidden=False, least=1, too_short="type your name",
        )  # fmt: skip
    waits = f"next try at {until:%H:%M:%S}" if until is not None and now < until else ""
    title, lines, first, second = _asked(purpose, name, signs)
    return SecretView(frame, title, lines, "given", first, second, working=working, waits=waits)


def _asked(purpose: str, name: str, signs: str) -> tuple[str, tuple[str, ...], str, str]:
    if purpose == NEW:
        return (
            f"{name}: a secret for your key",
            (f"At least {SHORTEST_SECRET} characters; several words are best, and easy to type.",
             "Nobody else learns it. If it is forgotten, a new key must be made."),
            "Next", "once more",
        )  # fmt: skip
    if purpose == AGAIN:
        return (f"{name}: the same secret once more", ("So that no slip is in it.",),
                "Make the key", "takes a moment")  # fmt: skip
    before = "The technician’s key is unlocked meanwhile. " if purpose == LEAD else ""
    who = f"{name}, {purpose}" if purpose in (TECHNICIAN, LEAD) else name
    return (
        f"{who}: your secret",
        (f"You sign {signs}.",
         f"{before}Your secret opens your key for this once; then it is locked again.",
         "Look away, all others. From the third wrong secret on one has to wait."),
        "Unlock", "takes a moment",
    )  # fmt: skip
