"""Reads many mutated checklists: `python -m tests.fuzz`, 10,000 unless another count is given."""

from collections import Counter

import click
from hypothesis import HealthCheck, Phase, given, settings

from fieldapp.checklist.model import Checklist
from tests.fuzz.mutations import SHIPPED, SMALL, Case, cases, told

SHARE_OF_SHIPPED = 20


@click.command()
@click.argument("count", type=int, default=10_000)
def main(count: int) -> None:
    """Read COUNT mutated files; the first that breaks a promise is shown."""
    seen: Counter[tuple[str, str]] = Counter()

    def holds(case: Case) -> None:
        found = told(case)
        seen[case.kind, "sound" if isinstance(found, Checklist) else "told"] += 1

    shipped = count // SHARE_OF_SHIPPED
    for paths, share in ((SMALL, count - shipped), (SHIPPED, shipped)):
        quiet = settings(
            max_examples=share,
            deadline=None,
            database=None,
            phases=(Phase.generate, Phase.shrink),
            suppress_health_check=list(HealthCheck),
        )
        quiet(given(cases(paths))(holds))()
    for (kind, outcome), times in sorted(seen.items()):
        print(f"{times:7,}  {kind}, {outcome}")
    print(f"{seen.total():7,}  read, no traceback, every line right")


if __name__ == "__main__":
    main()
