"""The office vouches for people, takes that back, and each change has the next number."""

from dataclasses import replace
from datetime import timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.hashes import SHA256

from fieldapp.crew.authority import UnfitNameError
from fieldapp.crew.keys import ShortSecretError, WrongSecretError, seal, write_key
from fieldapp.crew.office import books
from fieldapp.crew.office.books import OfficeError, enrolled, renewed, with_new_list, withdrawing
from fieldapp.crew.people import Role
from fieldapp.crew.roster import FOLDER, NotOnRosterError, read_roster
from fieldapp.crew.standing import withdrawn
from fieldapp.crew.tablet.request import make_key
from fieldapp.crew.tablet.tries import TooSoonError
from tests.crew.offices import AT, CHEAP, LATER, SECRET, office

NAME = "Example grid office"


@pytest.fixture
def home(tmp_path):
    return tmp_path / "office"


@pytest.fixture
def founded(home):
    return books.found(home, NAME, SECRET, AT, cost=CHEAP)


@pytest.fixture
def ask(tmp_path):
    return lambda name="Ada Moor": make_key(tmp_path / "keys", name, SECRET, cost=CHEAP)


def reasons(roster):
    return [
        entry.extensions.get_extension_for_class(x509.CRLReason).value.reason.value
        for entry in roster.revocation_list
    ]


def test_office_is_founded_with_nobody_and_a_list_of_its_own(home, founded):
    assert read_roster(home / FOLDER) == founded.roster
    assert (founded.roster.people, founded.roster.number) == ((), 1)
    assert founded.roster.revocation_list.next_update_utc == AT + timedelta(days=90)


def test_office_is_opened_by_its_secret_alone(home, founded):
    assert books.opened(home, SECRET, LATER).roster == founded.roster
    with pytest.raises(WrongSecretError):
        books.opened(home, "kettle on the roof", LATER)


def test_wrong_secrets_of_the_office_slow_down_too(home, founded):
    for _ in range(3):
        with pytest.raises(WrongSecretError):
            books.opened(home, "kettle on the roof", LATER)
    with pytest.raises(TooSoonError):
        books.opened(home, SECRET, LATER)


def test_second_office_in_one_place_is_refused(home, founded):
    with pytest.raises(OfficeError, match="an office or a trust folder here already"):
        books.found(home, "Other office", SECRET, AT, cost=CHEAP)
    assert read_roster(home / FOLDER) == founded.roster


def test_office_without_a_good_secret_or_name_is_not_founded(home):
    with pytest.raises(ShortSecretError):
        books.found(home, NAME, "1234567", AT, cost=CHEAP)
    with pytest.raises(UnfitNameError):
        books.found(home, " ", SECRET, AT, cost=CHEAP)
    with pytest.raises(OfficeError, match="no office was founded here"):
        books.opened(home, SECRET, AT)


def test_key_of_another_office_is_noticed(home, founded):
    write_key(books.key_place(home), seal(office().key, SECRET, cost=CHEAP))
    with pytest.raises(OfficeError, match="its key is not that of its trust folder"):
        books.opened(home, SECRET, AT)


def test_person_is_enrolled_with_the_key_of_the_request(founded, ask):
    request = ask()
    after, person = enrolled(founded, request, Role.TECHNICIAN, LATER)
    assert (person.name, person.role) == ("Ada Moor", Role.TECHNICIAN)
    assert person.fingerprint == request.fingerprint
    assert after.roster.people == (person,)
    assert after.roster.number == 2
    assert after.roster.revocation_list.last_update_utc == LATER


def test_books_are_kept_and_read_again(home, founded, ask):
    after, _ = enrolled(founded, ask(), Role.CREW_LEAD, LATER)
    books.keep(home, after)
    assert read_roster(home / FOLDER) == after.roster


def test_key_and_name_are_enrolled_once(founded, ask):
    request = ask()
    after, _ = enrolled(founded, request, Role.TECHNICIAN, AT)
    with pytest.raises(OfficeError, match="already, technician: renew it instead"):
        enrolled(after, request, Role.CREW_LEAD, AT)
    with pytest.raises(OfficeError, match="has another key already: withdraw that first"):
        enrolled(after, ask("ada moor"), Role.CREW_LEAD, AT)


def test_withdrawn_key_is_not_enrolled_again_but_a_new_one_is(founded, ask):
    request = ask()
    after, _ = enrolled(founded, request, Role.TECHNICIAN, AT)
    gone = withdrawing(after, "Ada Moor", LATER, key_lost=True)
    with pytest.raises(OfficeError, match="was withdrawn: make a new key"):
        enrolled(gone, request, Role.TECHNICIAN, LATER)
    again, person = enrolled(gone, ask(), Role.TECHNICIAN, LATER)
    assert again.roster.named("Ada Moor") == person
    assert len(again.roster.revocation_list) == 1


@pytest.mark.parametrize(
    ("lost", "reason"), [(True, "keyCompromise"), (False, "cessationOfOperation")]
)
def test_withdrawal_names_its_reason(founded, ask, lost, reason):
    # RFC 5280 (2008), 5.3.1 names the reasons.
    after, _ = enrolled(founded, ask(), Role.TECHNICIAN, AT)
    gone = withdrawing(after, "Ada Moor", LATER, key_lost=lost)
    assert reasons(gone.roster) == [reason]
    assert gone.roster.number == 3


def test_withdrawal_takes_all_certificates_of_a_person_and_keeps_earlier_ones(founded, ask):
    after, _ = enrolled(founded, ask(), Role.TECHNICIAN, AT)
    after, _ = enrolled(after, ask("Bo Lind"), Role.CREW_LEAD, AT)
    after = withdrawing(after, "Bo Lind", AT, key_lost=False)
    after, _ = renewed(after, "Ada Moor", LATER)
    gone = withdrawing(after, "Ada Moor", LATER, key_lost=True)
    assert sorted(reasons(gone.roster)) == [
        "cessationOfOperation",
        "keyCompromise",
        "keyCompromise",
    ]


@pytest.mark.parametrize("given", ["privilege_withdrawn", "certificate_hold", None])
def test_list_made_anew_never_makes_a_withdrawal_milder(founded, ask, given):
    """An entry of another program, or without a reason, goes on as one of a lost key."""
    after, person = enrolled(founded, ask(), Role.TECHNICIAN, AT)
    entry = x509.RevokedCertificateBuilder().serial_number(person.certificate.serial_number)
    entry = entry.revocation_date(AT)
    if given:
        entry = entry.add_extension(x509.CRLReason(x509.ReasonFlags[given]), critical=False)
    key, roster = after.authority.key, after.roster
    listed = (
        x509.CertificateRevocationListBuilder().issuer_name(roster.authority.subject)
        .last_update(AT).next_update(LATER).add_revoked_certificate(entry.build())
        .add_extension(x509.CRLNumber(roster.number), critical=False).sign(key, SHA256())
    )  # fmt: skip
    before = replace(after, roster=replace(roster, revocation_list=listed))
    anew = with_new_list(before, LATER)
    for kept in (before, anew):
        taken = withdrawn(kept.roster, person.certificate)
        assert taken is not None
        assert taken.key_lost


def test_who_left_can_still_lose_a_key_but_not_twice(founded, ask):
    after, _ = enrolled(founded, ask(), Role.TECHNICIAN, AT)
    left = withdrawing(after, "Ada Moor", AT, key_lost=False)
    lost = withdrawing(left, "Ada Moor", LATER, key_lost=True)
    assert reasons(lost.roster) == ["keyCompromise"]
    for again in (True, False):
        with pytest.raises(OfficeError, match="withdrawn already: nothing was changed"):
            withdrawing(lost, "Ada Moor", LATER, key_lost=again)
    with pytest.raises(NotOnRosterError):
        withdrawing(lost, "Cy Hale", LATER, key_lost=True)


def test_renewal_keeps_key_and_role_and_counts_two_more_years(founded, ask):
    after, before = enrolled(founded, ask(), Role.CREW_LEAD, AT)
    after, person = renewed(after, "Ada Moor", LATER)
    assert (person.fingerprint, person.role) == (before.fingerprint, before.role)
    assert person.certificate.not_valid_after_utc == LATER + timedelta(days=730)
    assert after.roster.named("Ada Moor") == person
    gone = withdrawing(after, "Ada Moor", LATER, key_lost=False)
    with pytest.raises(OfficeError, match="is withdrawn: make a new key"):
        renewed(gone, "Ada Moor", LATER)


def test_list_is_made_anew_before_it_runs_out(founded):
    anew = with_new_list(founded, LATER)
    assert anew.roster.number == 2
    assert anew.roster.revocation_list.next_update_utc == LATER + timedelta(days=90)
