"""An acknowledged entry beside other ways of keeping documents, and beside a smaller journal."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

from tinydb import TinyDB

from fieldapp.journal.store import JobDB
from tests.bench.alternation import Action, in_turn
from tests.bench.entry import HELD_ALREADY
from tests.bench.reading import now, reading
from tests.bench.row import Row, spread_of

STOCK_TIMES = 20  # the stock storage writes its whole file each time
FEW, MANY = 1, 100  # × times / 2: the journals whose speed must be the same


def entry_beside_sqlite(folder: Path, times: int) -> Row:
    """An insert by us, and one that SQLite syncs at each commit."""
    held = HELD_ALREADY * times
    with (
        closing(_journal(folder / "job.journal", held)) as ours,
        closing(_sqlite(folder / "job.sqlite", held)) as connection,
    ):

        def outside(number: int) -> None:
            with connection:
                connection.execute(
                    "insert into events (body) values (?)", (json.dumps(reading(number)),)
                )

        return _row(held, "SQLite, WAL, synchronous = FULL", _inserting(ours), outside, times)


def entry_beside_stock(folder: Path, times: int) -> Row:
    """An insert by us, and one by TinyDB's own storage, which syncs nothing."""
    held = HELD_ALREADY * times
    with (
        closing(_journal(folder / "job.journal", held)) as ours,
        closing(TinyDB(folder / "stock.json")) as stock,
    ):
        stock.table("events").insert_multiple(reading(number) for number in range(held))
        return _row(held, "stock TinyDB, not synced", _inserting(ours), _inserting(stock),
                    STOCK_TIMES)  # fmt: skip


def entry_in_long_journal(folder: Path, times: int) -> Row:
    """An insert into a journal a hundred times as long as the other."""
    few, many = FEW * times // 2, MANY * times // 2
    with (
        closing(_journal(folder / "many.journal", many)) as ours,
        closing(_journal(folder / "few.journal", few)) as other,
    ):
        beside = f"the same after {few:,}"
        return _row(many, beside, _inserting(ours), _inserting(other), times)


def _journal(path: Path, held: int) -> JobDB:
    job = JobDB(path, device="tablet-1", clock=now)
    job.table("events").insert_multiple(reading(number) for number in range(held))
    return job


def _sqlite(path: Path, held: int) -> sqlite3.Connection:
    connection = sqlite3.connect(path)
    connection.execute("pragma journal_mode = wal")
    connection.execute("pragma synchronous = full")
    connection.execute("create table events (number integer primary key, body text)")
    with connection:
        connection.executemany(
            "insert into events (body) values (?)",
            ((json.dumps(reading(number)),) for number in range(held)),
        )
    return connection


def _inserting(job: TinyDB) -> Action:
    events = job.table("events")
    return lambda number: events.insert(reading(number))


def _row(held: int, beside: str, ours: Action, outside: Action, count: int) -> Row:
    of_ours, of_outside = in_turn(ours, outside, count)
    return Row(
        name=f"an acknowledged entry after {held:,} others",
        outside_name=beside,
        ours=spread_of(of_ours),
        outside=spread_of(of_outside),
        count=count,
    )
