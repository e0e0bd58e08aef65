"""A job opened with its whole chain verified, beside the same documents out of SQLite."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

from fieldapp.journal.store import JobDB
from tests.bench.alternation import in_turn
from tests.bench.entry import HELD_ALREADY
from tests.bench.reading import now, reading
from tests.bench.row import Row, spread_of

OPENINGS = 30


def opened_job(folder: Path, times: int) -> Row:
    """Opening a job of ten times as many entries and reading them all, by us and by SQLite."""
    journal, database = folder / "job.journal", folder / "job.sqlite"
    documents = [reading(number) for number in range(HELD_ALREADY * times)]
    with closing(JobDB(journal, device="tablet-1", clock=now, sync=_unsynced)) as job:
        for document in documents:
            job.table("events").insert(document)
    with closing(sqlite3.connect(database)) as connection, connection:
        connection.execute("create table events (number integer primary key, body text)")
        connection.executemany(
            "insert into events (body) values (?)", [(json.dumps(body),) for body in documents]
        )

    def ours(_: int) -> None:
        with closing(JobDB(journal, device="tablet-1", clock=now)) as job:
            assert job.table("events").all() == documents

    def outside(_: int) -> None:
        with closing(sqlite3.connect(database)) as connection:
            rows = connection.execute("select body from events order by number")
            assert [json.loads(body) for (body,) in rows] == documents

    of_ours, of_outside = in_turn(ours, outside, OPENINGS)
    return Row(
        name=f"a job of {len(documents):,} entries opened and verified",
        outside_name="SQLite + json.loads, nothing verified",
        ours=spread_of(of_ours),
        outside=spread_of(of_outside),
        count=OPENINGS,
    )


def _unsynced(_: object) -> None:
    """Filling needs no sync; only the opening is measured."""
