"""Makes every fault and prints one table: `python -m tests.faults`, or `--full`."""

import sys
import tempfile
from collections.abc import Callable, Iterable
from pathlib import Path

import click
from rich import box
from rich.console import Console
from rich.progress import track
from rich.table import Table

from tests.faults.bytes_changed import cut_off, flipped, flipped_unanchored, torn
from tests.faults.company import eight_threads, two_programs
from tests.faults.disks import clock_back, full, unconfirmed
from tests.faults.kills import killed
from tests.faults.outcome import Outcome

Fault = Callable[[Path, int], Outcome]

FAULTS: tuple[tuple[Fault, int, int], ...] = (
    (killed, 10, 1000),
    (flipped, 200, 8000),
    (flipped_unanchored, 100, 4000),
    (cut_off, 200, 6000),
    (torn, 100, 2000),
    (full, 2, 40),
    (unconfirmed, 17, 340),
    (two_programs, 2, 20),
    (eight_threads, 80, 4000),
    (clock_back, 40, 2000),
)
"""Each fault, how often in a hurry, and how often with --full."""

WIDTH = 120


@click.command()
@click.option("--full", "at_length", is_flag=True, help="1,000 kills and 20,000 offsets.")
@click.option("--folder", default=Path(), type=click.Path(exists=True, path_type=Path))
def main(*, at_length: bool, folder: Path) -> None:
    """Make the faults, print what came of them; exit 1 if anything was lost or silent."""
    outcomes = []
    console = Console(stderr=True)
    for fault, few, many in track(FAULTS, description="Making faults", console=console):
        with tempfile.TemporaryDirectory(dir=folder, prefix=".faults-") as place:
            outcomes.append(fault(Path(place), many if at_length else few))
    Console(width=WIDTH).print(table_of(outcomes))
    for outcome in outcomes:
        for words in outcome.wrong:
            print(f"{outcome.fault}: {words}")
    sys.exit(0 if all(outcome.good for outcome in outcomes) else 1)


def table_of(outcomes: Iterable[Outcome]) -> Table:
    """One line a fault; the last two figures must be nought."""
    heads = ("fault", "times", "acknowledged", "acknowledged, lost", "altered unseen")
    table = Table(*heads, box=box.MARKDOWN)
    for outcome in outcomes:
        figures = (outcome.times, outcome.acknowledged, outcome.lost, outcome.silent)
        table.add_row(outcome.fault, *(f"{figure:,}" for figure in figures))
    return table


if __name__ == "__main__":
    main()
