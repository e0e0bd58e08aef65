"""Several at once: a second program, and eight threads."""

import subprocess
import sys
from pathlib import Path
from threading import Barrier, Thread

from fieldapp.journal.store import JobDB
from tests.faults.kills import ROOT
from tests.faults.outcome import Outcome
from tests.journal.conftest import DEVICE, clock

THREADS = 8


def two_programs(folder: Path, times: int) -> Outcome:
    """A second program that opens the same journal is told that it is busy."""
    path = folder / "job.journal"
    wrong = []
    with JobDB(path, device=DEVICE, clock=clock) as job:
        for number in range(1, times + 1):
            command = [sys.executable, "-m", "tests.journal.writer", str(path)]
            second = subprocess.run(command, cwd=ROOT, capture_output=True, check=False)
            if b"open in another window or program" not in second.stderr or second.stdout:
                wrong.append(f"program {number} was let in")
            job.table("events").insert({"number": number})
        kept = len(job.table("events"))
    return Outcome("two programs", times, times, lost=times - kept, wrong=tuple(wrong))


def eight_threads(folder: Path, times: int) -> Outcome:
    """Threads that insert at the same time."""
    path = folder / "job.journal"
    start = Barrier(THREADS)
    said: list[tuple[int, int]] = []
    each = max(1, times // THREADS)

    def work(name: int) -> None:
        start.wait()
        for count in range(each):
            job.table("events").insert({"by": name, "count": count})
            said.append((name, count))

    with JobDB(path, device=DEVICE, clock=clock) as job:
        threads = [Thread(target=work, args=(name,)) for name in range(THREADS)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    with JobDB(path, device=DEVICE, clock=clock) as job:
        kept = [(event["by"], event["count"]) for event in job.table("events").all()]
    lost = len(set(said) - set(kept)) + each * THREADS - len(said)
    twice = len(kept) - len(set(kept))
    wrong = (f"{twice} entries kept twice",) if twice else ()
    return Outcome("eight threads", each * THREADS, len(said), lost=lost, wrong=wrong)
