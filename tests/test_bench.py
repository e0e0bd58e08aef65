"""Checks that the comparison runs and says what was compared."""

from click.testing import CliRunner

from tests.bench.__main__ import main
from tests.bench.entry import acknowledged_entry
from tests.bench.opening import opened_job
from tests.bench.records import long_record, twice_as_long_record
from tests.bench.signatures import signed_by_both, verified_signatures


def test_entry_is_compared_with_a_bare_write(tmp_path):
    row = acknowledged_entry(tmp_path, 5)
    assert row.count == 5
    assert row.ours.median > 0
    assert row.outside.median > 0
    assert row.ratio.median == row.ours.median / row.outside.median
    assert row.ours.p99 >= row.ours.median


def test_both_write_as_many_bytes_a_time(tmp_path):
    acknowledged_entry(tmp_path, 100)
    journal, plain = (tmp_path / name for name in ("job.journal", "plain"))
    grown = [len(file.read_bytes().splitlines()[-1]) for file in (journal, plain)]
    assert abs(grown[0] - grown[1]) <= 5  # longer numbers


def test_table_has_the_row_with_a_ratio(tmp_path):
    outcome = CliRunner().invoke(main, ["--times", "5", "--folder", str(tmp_path)])
    assert outcome.exit_code == 0
    line = next(
        line
        for line in outcome.stdout.splitlines()
        if "an acknowledged entry after 50 others" in line
    )
    cells = [cell.strip() for cell in line.strip("| ").split("|")]
    assert cells[1] == "a bare write + fdatasync"
    assert float(cells[5].split("/")[0]) > 0
    assert not list(tmp_path.iterdir())


def test_opening_a_job_is_compared_with_sqlite(tmp_path):
    row = opened_job(tmp_path, 5)
    assert row.ours.median > 0
    assert row.ratio.median == row.ours.median / row.outside.median


def test_long_record_is_compared_with_the_texts_alone(tmp_path):
    row = long_record(tmp_path, 40)
    assert row.name.startswith("a record of 2")
    assert row.ratio.median == row.ours.median / row.outside.median


def test_record_twice_as_long_is_compared_with_the_record(tmp_path):
    row = twice_as_long_record(tmp_path, 80)
    assert (row.name, row.outside_name) == ("a record of 1,040 rows", "one of 520")
    assert row.ours.median > row.outside.median


def test_verifying_is_compared_with_the_library_and_says_how_many_a_second(tmp_path):
    row = verified_signatures(tmp_path, 2)
    assert row.name.endswith(" a second")
    assert row.outside_name == "pyHanko's own validation of both signatures"
    assert row.ratio.median == row.ours.median / row.outside.median


def test_signing_is_compared_with_the_bare_mathematics(tmp_path):
    row = signed_by_both(tmp_path, 2)
    assert (row.count, row.outside_name) == (2, "two bare signatures of P-256")
    assert row.ours.median > row.outside.median
