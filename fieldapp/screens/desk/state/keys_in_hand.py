"""What the desk holds of people and keys while somebody is at it; nothing of it is kept."""

from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from fieldapp.crew.people import Signer
from fieldapp.crew.secret import Secret
from fieldapp.crew.tablet.request import Request
from fieldapp.screens.desk.state.work import Workbench


@dataclass(frozen=True, slots=True)
class Filed:
    """A record that lies on the tablet: where, and what verification says of it."""

    path: Path
    sound: bool
    lines: tuple[str, ...]


@dataclass(slots=True)
class KeysInHand:
    """A name and a secret being typed, unlocked signers by role, and what was made of them."""

    bench: Workbench = field(default_factory=Workbench)
    name: str = ""
    secret: Secret | None = None
    signers: dict[str, Signer] = field(default_factory=dict)
    made: Request | None = None
    request: Path | None = None
    filed: dict[str, Filed] = field(default_factory=dict)
    unsigned: Path | None = None
    wait_until: datetime | None = None

    def lock(self) -> None:
        """Let go of all that a secret opened, and of secrets."""
        self.secret = None
        self.signers.clear()
        self.wait_until = None
