"""Runs every comparison and prints one table: `python -m tests.bench`."""

import tempfile
from pathlib import Path

import click
from rich.console import Console
from rich.progress import track

from tests.bench.entry import acknowledged_entry
from tests.bench.insulation import year_of_drying
from tests.bench.opening import opened_job
from tests.bench.records import long_record, twice_as_long_record
from tests.bench.signatures import (
    signed_by_both,
    verified_beside_mathematics,
    verified_record,
    verified_signatures,
)
from tests.bench.stores import entry_beside_sqlite, entry_beside_stock, entry_in_long_journal
from tests.bench.table import table_of

ROWS = (
    acknowledged_entry,
    entry_beside_sqlite,
    entry_beside_stock,
    entry_in_long_journal,
    opened_job,
    year_of_drying,
    long_record,
    twice_as_long_record,
    signed_by_both,
    verified_signatures,
    verified_record,
    verified_beside_mathematics,
)
WIDTH = 170


@click.command()
@click.option(
    "--times",
    default=2000,
    show_default=True,
    help="How many entries are made; ten times as many are there already, and in an opened job.",
)
@click.option(
    "--folder",
    default=Path(),
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    help="A folder on the disk to measure; the present folder if not given.",
)
def main(times: int, folder: Path) -> None:
    """Measure, and print one table."""
    rows = []
    for row in track(ROWS, description="Measuring", console=Console(stderr=True)):
        with tempfile.TemporaryDirectory(dir=folder, prefix=".bench-") as place:
            rows.append(row(Path(place), times))
    Console(width=WIDTH).print(table_of(rows))


if __name__ == "__main__":
    main()
