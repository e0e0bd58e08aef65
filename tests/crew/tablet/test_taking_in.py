"""A tablet takes the word of one office, and never an older list over a newer one."""

from dataclasses import replace
from datetime import timedelta

import pytest

from fieldapp.crew.authority import Revoked, revocation_list
from fieldapp.crew.fingerprint import FingerprintDiffersError, in_groups
from fieldapp.crew.people import Role
from fieldapp.crew.roster import FOLDER, TrustFolderError, read_roster, write_roster
from fieldapp.crew.tablet.request import make_key
from fieldapp.crew.tablet.taking_in import TrustRefusedError, held_roster, take_in
from fieldapp.crew.trust_file import LARGEST, NoTrustFileError, read_trust, trust_text
from tests.crew.offices import AT, CHEAP, LATER, SECRET, office, roster_of, signer_of


@pytest.fixture(scope="module")
def authority():
    return office()


@pytest.fixture(scope="module")
def ada(authority):
    return signer_of(authority)


@pytest.fixture(scope="module")
def bo(authority):
    return signer_of(authority, "Bo Lind", Role.CREW_LEAD)


def numbered(authority, number, *signers, revoked=(), until=LATER + timedelta(days=60)):
    issued = revocation_list(authority, revoked, number=number, at=AT, next_update=until)
    return replace(roster_of(authority, *signers), revocation_list=issued)


@pytest.fixture
def home(tmp_path):
    return tmp_path / "tablet"


@pytest.fixture
def known(home, authority, ada):
    """A tablet that took in list 5 with Ada Moor."""
    first = numbered(authority, 5, ada)
    return take_in(home, first, LATER, in_groups(first.fingerprint)).roster


def unchanged(home, known):
    return held_roster(home) == known


def test_first_time_the_fingerprint_of_the_office_is_compared(home, authority, ada):
    offered = numbered(authority, 1, ada)
    for said in ("", "9f3c 1e5a", in_groups("0" * 64)):
        with pytest.raises(FingerprintDiffersError, match="not the one given: nothing was written"):
            take_in(home, offered, LATER, said)
    assert held_roster(home) is None
    taken = take_in(home, offered, LATER, in_groups(offered.fingerprint))
    assert (taken.new, taken.here) == ((ada.person,), ())
    assert read_roster(home / FOLDER) == offered


def test_newer_list_replaces_an_older_one_and_forgets_nobody(home, known, authority, ada, bo):
    serial = ada.person.certificate.serial_number
    newer = numbered(authority, 6, bo, revoked=[Revoked(serial, LATER)])
    taken = take_in(home, newer, LATER)
    assert taken.roster.number == 6
    assert taken.roster.people == (ada.person, bo.person)
    assert taken.new == (bo.person,)
    assert len(read_roster(home / FOLDER).revocation_list) == 1


def test_older_list_never_replaces_a_newer_one(home, known, authority, ada, bo):
    with pytest.raises(TrustRefusedError, match="is number 4, this tablet has number 5"):
        take_in(home, numbered(authority, 4, ada, bo), LATER)
    assert unchanged(home, known)


def test_same_list_brings_people_and_another_of_the_same_number_is_refused(
    home, known, authority, ada, bo
):
    again = replace(known, people=(bo.person,))
    assert take_in(home, again, LATER).new == (bo.person,)
    with pytest.raises(TrustRefusedError, match="two different lists of number 5"):
        take_in(home, numbered(authority, 5, ada, until=LATER + timedelta(days=61)), LATER)


def test_office_of_the_same_name_is_another_office(home, known, ada):
    other = office()
    offered = numbered(other, 9, signer_of(other))
    with pytest.raises(
        TrustRefusedError, match="this tablet takes the word of Example grid office"
    ):
        take_in(home, offered, LATER, in_groups(offered.fingerprint))
    assert unchanged(home, known)


def test_list_that_ran_out_is_refused(home, known, authority, ada):
    stale = numbered(authority, 6, ada, until=LATER - timedelta(days=1))
    with pytest.raises(TrustRefusedError, match=r"ran out on 2026-03-11.*; nothing was taken in"):
        take_in(home, stale, LATER)
    assert unchanged(home, known)


def test_whose_key_is_on_this_tablet_is_told(home, authority):
    from fieldapp.crew.authority import enrol
    from fieldapp.crew.people import person_of

    made = make_key(home / "keys", "Cy Hale", SECRET, cost=CHEAP)
    cy = person_of(enrol(authority, "Cy Hale", Role.TECHNICIAN, made.public_key, AT))
    offered = replace(numbered(authority, 1), people=(cy,))
    assert take_in(home, offered, LATER, in_groups(offered.fingerprint)).here == (cy,)


@pytest.mark.parametrize("kind", ["file", "folder"])
def test_trust_is_read_from_a_file_or_a_folder(tmp_path, authority, ada, bo, kind):
    roster = numbered(authority, 3, ada, bo)
    place = tmp_path / "trust"
    if kind == "folder":
        write_roster(place, roster)
    else:
        place.write_bytes(trust_text(roster))
    assert read_trust(place) == roster


def test_trust_file_is_read_by_another_program(tmp_path, authority, ada):
    # RFC 7468 (2015), 5.2: text outside of the encapsulation boundaries is ignored.
    import ssl

    context = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    context.load_verify_locations(cadata=trust_text(numbered(authority, 3, ada)).decode())
    (read,) = context.get_ca_certs()
    assert read["subject"] == ((("commonName", "Example grid office"),),)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (b"", "is not an office's trust file"),
        (b"\0" * (LARGEST + 1), "far too large"),
        (b"-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n", "is damaged"),
    ],
    ids=["empty", "large", "torn"],
)
def test_file_that_is_no_trust_file_is_refused(tmp_path, text, words):
    path = tmp_path / "trust.pem"
    path.write_bytes(text)
    with pytest.raises(NoTrustFileError, match=words):
        read_trust(path)


def test_parts_of_two_offices_are_refused(tmp_path, authority, ada):
    path = tmp_path / "trust.pem"
    with pytest.raises(NoTrustFileError, match="no such file"):
        read_trust(path)
    other = office()
    path.write_bytes(trust_text(numbered(authority, 3, signer_of(other))))
    with pytest.raises(
        TrustFolderError, match="the certificate of Ada Moor is not the authority's"
    ):
        read_trust(path)
    path.write_bytes(trust_text(numbered(authority, 3)) + trust_text(numbered(other, 3)))
    with pytest.raises(NoTrustFileError, match="names 2 offices instead of one"):
        read_trust(path)
    mixed = replace(numbered(authority, 3), revocation_list=numbered(other, 3).revocation_list)
    path.write_bytes(trust_text(mixed))
    with pytest.raises(TrustFolderError, match="the list was not signed by the authority"):
        read_trust(path)
