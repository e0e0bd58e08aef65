"""A writing program killed at random moments; every acknowledged entry is looked for."""

import random
import subprocess
import sys
import time
from pathlib import Path

from fieldapp.journal.store import JobDB
from tests.faults.outcome import Outcome
from tests.journal.conftest import DEVICE, clock
from tests.journal.writer import document

ROOT = Path(__file__).parents[2]
LONGEST = 0.03  # seconds from the first acknowledgement to the kill
A_JOURNAL = 50  # kills before a new journal is begun


def killed(folder: Path, times: int, seed: int = 7) -> Outcome:
    """A writer killed without warning, started again and killed again."""
    chance = random.Random(seed)
    acknowledged = lost = 0
    wrong: list[str] = []
    for kill in range(times):
        path = folder / f"{kill // A_JOURNAL}.journal"
        said = _acknowledged_until_killed(path, chance.uniform(0, LONGEST))
        acknowledged += len(said)
        with JobDB(path, device=DEVICE, clock=clock) as job:
            kept = job.table("events").all()
            wrong += [words for words in job.notices if "never acknowledged" not in words]
        lost += len(set(said) - {event["number"] for event in kept})
        if kept != [document(number) for number in range(1, len(kept) + 1)]:
            wrong.append(f"after kill {kill} an entry is not what was given")
    return Outcome("program killed (kill -9)", times, acknowledged, lost=lost, wrong=tuple(wrong))


def _acknowledged_until_killed(path: Path, seconds: float) -> list[int]:
    command = [sys.executable, "-m", "tests.journal.writer", str(path)]
    writer = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE)
    assert writer.stdout is not None
    first = writer.stdout.readline()
    time.sleep(seconds)
    writer.kill()
    rest, _ = writer.communicate()
    said = (first + rest).splitlines(keepends=True)
    return [int(line) for line in said if line.endswith(b"\n")]
