"""An acknowledged entry beside the least that any program must do to keep one."""

import os
from contextlib import closing
from pathlib import Path

from fieldapp.journal.store import JobDB
from tests.bench.alternation import in_turn
from tests.bench.reading import now, reading
from tests.bench.row import Row, spread_of

HELD_ALREADY = 10  # documents for each one that is measured
to_disk = getattr(os, "fdatasync", os.fsync)  # Windows has fsync only


def acknowledged_entry(folder: Path, times: int) -> Row:
    """An insert into a job's events, and a write and fdatasync of as many bytes."""
    journal, plain = folder / "job.journal", folder / "plain"
    with closing(JobDB(journal, device="tablet-1", clock=now)) as documents:
        events = documents.table("events")
        events.insert_multiple(reading(number) for number in range(HELD_ALREADY * times))
        events.insert(reading(0))
        plain.write_bytes(journal.read_bytes())
        line = journal.read_bytes().splitlines(keepends=True)[-1]
        with plain.open("ab", buffering=0) as file:

            def bare(_: int) -> None:
                file.write(line)
                to_disk(file.fileno())

            documents_to_come = [reading(number) for number in range(times)]
            ours, outside = in_turn(
                lambda number: events.insert(documents_to_come[number]), bare, times
            )
    return Row(
        name=f"an acknowledged entry after {HELD_ALREADY * times:,} others",
        outside_name="a bare write + fdatasync",
        ours=spread_of(ours),
        outside=spread_of(outside),
        count=times,
    )
