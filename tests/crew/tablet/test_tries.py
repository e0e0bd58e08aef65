"""Wrong secrets are counted on the disk, cost as much as a right one, and slow down the next."""

import shutil
from datetime import timedelta

import pytest
from cryptography.hazmat.primitives.kdf.scrypt import Scrypt

from fieldapp.crew import keys
from fieldapp.crew.authority import new_key
from fieldapp.crew.keys import UnreadableKeyError, WrongSecretError, seal, write_key
from fieldapp.crew.tablet.patience import Tries
from fieldapp.crew.tablet.tries import TooSoonError, WrongAgainError, open_key, tries_at
from tests.crew.offices import AT, CHEAP, SECRET

WRONG = "kettle on the roof"


@pytest.fixture(scope="module")
def sealed():
    return seal(new_key(), SECRET, cost=CHEAP)


@pytest.fixture
def path(tmp_path, sealed):
    path = tmp_path / "keys" / "0123456789abcdef.key"
    write_key(path, sealed)
    return path


@pytest.fixture
def stretches(monkeypatch):
    """Count how often a secret is stretched, and at what cost."""
    done, real = [], Scrypt

    def counted(**given):
        done.append((given["n"], given["r"], given["p"]))
        return real(**given)

    monkeypatch.setattr(keys, "Scrypt", counted)
    return done


def give_wrong(path, times, at=AT):
    for _ in range(times):
        with pytest.raises(WrongSecretError):
            open_key(path, WRONG, at)


def test_right_secret_opens_and_forgets_the_slips(path):
    give_wrong(path, 2)
    assert tries_at(path, AT).wrong == 2
    open_key(path, SECRET, AT)
    assert tries_at(path, AT) == Tries()
    assert [each.name for each in path.parent.iterdir()] == [path.name]


@pytest.mark.parametrize("secret", [SECRET, WRONG, "", "short", "x" * 5000])
def test_wrong_secret_costs_what_a_right_one_costs(path, stretches, secret):
    try:
        open_key(path, secret, AT)
    except WrongSecretError:
        assert secret != SECRET
    assert stretches == [(CHEAP, 8, 1)]


def test_secret_that_came_too_soon_is_not_looked_at(path, stretches):
    give_wrong(path, 3)
    stretches.clear()
    with pytest.raises(TooSoonError, match=r"3 wrong secrets .* at 07:30:30, in 20 s; this one"):
        open_key(path, SECRET, AT + timedelta(seconds=10))
    assert stretches == []
    open_key(path, SECRET, AT + timedelta(seconds=30))


def test_each_further_wrong_secret_says_how_long_one_waits_now(path):
    give_wrong(path, 2)
    with pytest.raises(WrongAgainError, match=r"\(3 wrong in a row\); .* 07:30:30, in 30 s"):
        open_key(path, WRONG, AT)
    with pytest.raises(WrongAgainError, match=r"\(4 wrong in a row\); .* 07:31:30, in 60 s"):
        open_key(path, WRONG, AT + timedelta(seconds=30))


def test_count_outlives_a_restart(path, tmp_path):
    give_wrong(path, 3)
    shutil.copytree(tmp_path / "keys", tmp_path / "restarted")
    with pytest.raises(TooSoonError):
        open_key(tmp_path / "restarted" / path.name, SECRET, AT)


def test_clock_set_back_begins_the_wait_anew_and_does_not_make_it_endless(path):
    give_wrong(path, 3)
    back = AT - timedelta(days=900)
    with pytest.raises(TooSoonError, match="in 30 s"):
        open_key(path, SECRET, back)
    with pytest.raises(TooSoonError, match="in 1 s"):
        open_key(path, SECRET, back + timedelta(seconds=29))
    open_key(path, SECRET, back + timedelta(seconds=30))


def test_try_is_counted_before_the_secret_is_stretched(path, monkeypatch):
    class SwitchedOffError(Exception):
        pass

    def off(**_):
        raise SwitchedOffError

    monkeypatch.setattr(keys, "Scrypt", off)
    with pytest.raises(SwitchedOffError):
        open_key(path, SECRET, AT)
    assert tries_at(path, AT) == Tries(1, AT)


@pytest.mark.parametrize(
    "kept", [b"", b"[]", b"{}", b'{"wrong": 0, "last": "2026-03-02"}', b"\xff",
             b'{"wrong": "9", "last": "2026-03-02T07:30:00+00:00"}',
             b'{"wrong": 3, "last": "2026-03-02T07:30:00"}'],
)  # fmt: skip
def test_count_that_cannot_be_read_is_a_high_one(path, kept):
    path.with_suffix(".tries").write_bytes(kept)
    with pytest.raises(TooSoonError, match="in 4 min"):
        open_key(path, SECRET, AT)
    open_key(path, SECRET, AT + timedelta(minutes=4))


def test_key_that_is_not_there_or_no_key_counts_no_try(path):
    with pytest.raises(UnreadableKeyError):
        open_key(path.with_name("nobody.key"), SECRET, AT)
    path.write_bytes(b"{}")
    with pytest.raises(UnreadableKeyError):
        open_key(path, SECRET, AT)
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_key_file_copied_to_another_machine_gives_nothing_without_the_secret(path, tmp_path):
    other = tmp_path / "other machine" / "copied.key"
    write_key(other, path.read_bytes())
    for guess in ("", "kettle", SECRET.upper(), SECRET + " ", path.stem):
        with pytest.raises((WrongSecretError, TooSoonError)):
            open_key(other, guess, AT)
