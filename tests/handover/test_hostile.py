"""A hand-over file made to hurt is refused whole, and nothing is written."""

import json
import stat
import struct
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path
from zipfile import ZIP_BZIP2, ZIP_DEFLATED, ZipFile, ZipInfo

import pytest
import rfc8785
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec, ed25519
from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509.oid import NameOID
from hypothesis import given
from hypothesis import strategies as st
from msgspec.json import encode

from fieldapp.crew.people import name_of
from fieldapp.handover import archive
from fieldapp.handover.archive import MANIFEST, SIGNATURE, packed, unpacked
from fieldapp.handover.errors import HandOverRefusedError
from fieldapp.handover.manifest import Signature
from fieldapp.handover.receiving import receive
from fieldapp.handover.sending import hand_over
from fieldapp.journal.lines.chain import framed, walk
from tests.handover.conftest import NUMBER

AT = datetime(2031, 5, 4, 9, 0, tzinfo=UTC)
JOURNAL = "journals/one.journal"


@pytest.fixture
def members(tablet):
    one = tablet("one", begun=True)
    one.permit("18:00")
    return unpacked(hand_over(one.home, NUMBER, AT))


@pytest.fixture
def home(tmp_path):
    return tmp_path / "receiving"


@pytest.fixture
def refused(home):
    """Takes a file in and returns why it was refused, once nothing was written."""

    def taking(content):
        with pytest.raises(HandOverRefusedError, match="Nothing was written") as caught:
            receive(content, home, "two", None)
        assert not home.exists()
        return caught.value.why

    return taking


def zipped(*members, kind=ZIP_DEFLATED):
    written = BytesIO()
    with ZipFile(written, "w") as file:
        for info, content in members:
            file.writestr(info, content, kind)
    return written.getvalue()


def relisted(members, raw, **changes):
    """The same file with another journal, and a list that names it."""
    chain = walk(raw)
    part = {"device": "one", "sequence": chain.head.sequence, "hash": chain.head.hash}
    listed = json.loads(members[MANIFEST]) | {"journals": [part]} | changes
    return packed({MANIFEST: rfc8785.dumps(listed), JOURNAL: raw})


def rewritten(members, *bodies):
    """A journal whose last entries are these, numbered and linked as they should be."""
    raw = members[JOURNAL].splitlines(keepends=True)[0]
    for body in bodies:
        chain = walk(raw)
        text = body.replace(b"PREVIOUS", chain.head.hash.encode())
        raw += framed(text.replace(b"NUMBER", b"%d" % (chain.head.sequence + 1)))[1]
    return raw


def entry(operations):
    return (
        b'{"device":"one","operations":' + operations + b',"previous":"PREVIOUS",'
        b'"sequence":NUMBER,"time":"2031-05-04T08:30:00.000+02:00"}'
    )  # fmt: skip


@pytest.mark.parametrize(
    "name",
    [
        "../evil.journal", "journals/../../evil", "/etc/passwd", "C:\\evil",
        "journals/..\\x.journal",
        "journals/a/b.journal", "journals/.journal", "journals/x.journal/", "JOURNALS/x.journal",
        "journals/x.journal\n", "extra.txt", "journals/" + "a" * 80 + ".journal",
        "journals/é.journal",
    ],
)  # fmt: skip
def test_name_that_is_not_of_a_hand_over_is_refused(members, refused, name):
    assert "not of a hand-over" in refused(zipped(*members.items(), (name, b"x")))


def test_name_cut_short_by_a_zero_is_refused(members, refused):
    content = zipped(*members.items(), ("handover.jsonX", b"x"))
    assert refused(content.replace(b"handover.jsonX", b"handover.json\0"))


@pytest.mark.parametrize("kind", [stat.S_IFLNK, stat.S_IFDIR, stat.S_IFIFO, stat.S_IFBLK])
def test_link_and_whatever_is_no_plain_file_is_refused(members, refused, kind):
    link = ZipInfo(JOURNAL)
    link.external_attr = (kind | 0o777) << 16
    parts = [(MANIFEST, members[MANIFEST]), (link, b"/etc/passwd")]
    assert "not a plain file" in refused(zipped(*parts))


@pytest.mark.filterwarnings("ignore:Duplicate name")
@pytest.mark.parametrize("name", [MANIFEST, JOURNAL, "journals/ONE.journal"])
def test_name_that_comes_twice_is_refused(members, refused, name):
    assert "same name" in refused(zipped(*members.items(), (name, b"{}")))


def test_bomb_is_refused_before_it_is_unpacked(members, refused, monkeypatch):
    monkeypatch.setattr(archive, "LARGEST", 1_000_000)
    monkeypatch.setattr(archive, "LARGEST_PICTURES", 0)
    bomb = b'["' + b"0" * 2_000_000
    content = zipped((MANIFEST, members[MANIFEST]), (JOURNAL, bomb))
    assert len(content) < 10_000
    assert "too large" in refused(content)
    many = [(f"journals/{number}.journal", b"0" * 600_000) for number in range(2)]
    assert "too large" in refused(zipped((MANIFEST, members[MANIFEST]), *many))
    assert "too large" in refused(zipped((MANIFEST, b" " * 70_000), (JOURNAL, b"")))
    assert "larger than" in refused(bytes(1_000_001))


def test_size_that_the_file_lies_about_is_refused(members, refused):
    content = bytearray(zipped((MANIFEST, members[MANIFEST]), (JOURNAL, members[JOURNAL])))
    size = len(members[JOURNAL]).to_bytes(4, "little")
    for lie in (b"\x01\0\0\0", b"\xff\xff\xff\x7f"):
        assert refused(bytes(content).replace(size, lie))


def test_too_many_parts_are_refused(members, refused):
    parts = [(f"journals/{number}.journal", b"") for number in range(30)]
    assert "more than" in refused(zipped(*members.items(), *parts))


@pytest.mark.parametrize("far_off", [False, True], ids=["plain", "zip64"])
def test_list_of_parts_that_fills_the_memory_is_refused_before_it_is_read(
    refused, monkeypatch, far_off
):
    monkeypatch.setattr(archive, "ZipFile", None)  # reads the whole list at once
    size = 2_000_000
    end = struct.pack("<4s4H2LH", b"PK\5\6", 0, 0, 9, 9, 0 if far_off else size, 0, 0)
    if far_off:
        beyond = struct.pack("<4sQ2H2L4Q", b"PK\6\6", 44, 45, 45, 0, 0, 9, 9, size, 0)
        end = beyond + struct.pack("<4sLQL", b"PK\6\7", 0, size, 1) + end
    assert "more than 24 parts" in refused(bytes(size) + end)


@pytest.mark.parametrize("name", ["CON", "nul.x", "one.", "Lpt1"])
def test_names_that_some_disk_cannot_keep_are_refused(members, refused, name):
    for changes in (
        {"job": name},
        {"journals": [{"device": name, "sequence": 1, "hash": "0" * 64}]},
    ):
        listed = json.loads(members[MANIFEST]) | changes
        why = refused(packed({**members, MANIFEST: rfc8785.dumps(listed)}))
        assert why == f"{name} in it cannot be the name of a folder or a file"


def test_journal_named_like_that_of_this_tablet_but_for_capitals_is_refused(tablet):
    other, here = tablet("ONE", begun=True), tablet("one")
    with pytest.raises(HandOverRefusedError, match="ONE in it and one here differ in capitals"):
        receive(hand_over(other.home, NUMBER, AT), here.home, "one", None)
    assert [*here.files()] == [Path("device")]


def test_journal_named_like_one_that_is_here_but_for_capitals_is_refused(tablet):
    first, second, here = (tablet(name, begun=name != "two") for name in ("one", "ONE", "two"))
    receive(hand_over(first.home, NUMBER, AT), here.home, "two", None)
    before = here.files()
    with pytest.raises(HandOverRefusedError, match="ONE in it and one here differ in capitals"):
        receive(hand_over(second.home, NUMBER, AT), here.home, "two", None)
    assert here.files() == before


def test_job_named_like_one_that_is_here_but_for_capitals_is_refused(tablet):
    other, here = tablet("one", begun=True), tablet("two")
    (here.home / "jobs" / NUMBER.lower()).mkdir(parents=True)
    with pytest.raises(HandOverRefusedError, match="here differ in capitals alone"):
        receive(hand_over(other.home, NUMBER, AT), here.home, "two", None)


def test_other_compression_is_refused(members, refused):
    assert refused(zipped(*members.items(), kind=ZIP_BZIP2))


@pytest.mark.parametrize("content", [b"", b"PK\x05\x06" + bytes(18), b"no zip", bytes(9999)])
def test_what_is_no_zip_is_refused(refused, content):
    assert refused(content)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (b"", "list of journals cannot be read"),
        (b"[" * 60_000, "list of journals cannot be read"),
        (b"[]", "list of journals cannot be read"),
        (b'{"format":' + b"9" * 5000 + b"}", "list of journals cannot be read"),
    ],
)
def test_list_that_is_no_list_is_refused(members, refused, text, words):
    assert words in refused(packed({**members, MANIFEST: text}))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"format": 2}, "format 2"),
        ({"job": "../x"}, "cannot be read"),
        ({"job": "KM\n"}, "cannot be read"),
        ({"job": "OTHER"}, "says that it is job OTHER, and holds job KM"),
        ({"extra": 1}, "cannot be read"),
        ({"journals": []}, "cannot be read"),
        ({"made": 5}, "cannot be read"),
    ],
)
def test_list_that_says_something_else_is_refused(members, refused, changes, words):
    listed = rfc8785.dumps(json.loads(members[MANIFEST]) | changes)
    assert words in refused(packed({**members, MANIFEST: listed}))


@pytest.mark.parametrize(
    "change",
    [{"sequence": 1}, {"sequence": 2**53 - 1}, {"sequence": -1}, {"hash": "0" * 64}, {"hash": "0"},
     {"device": "../one"}, {"device": "other"}],
)  # fmt: skip
def test_head_that_is_not_that_of_the_journal_is_refused(members, refused, change):
    listed = json.loads(members[MANIFEST])
    listed["journals"][0] |= change
    assert refused(packed({**members, MANIFEST: rfc8785.dumps(listed)}))


def test_journal_that_is_missing_or_not_on_the_list_is_refused(members, refused):
    assert "is missing" in refused(packed({MANIFEST: members[MANIFEST]}))
    more = {**members, "journals/other.journal": members[JOURNAL]}
    assert "not on its list" in refused(packed(more))
    listed = json.loads(members[MANIFEST])
    listed["journals"] *= 2
    assert "twice" in refused(packed({**members, MANIFEST: rfc8785.dumps(listed)}))
    listed["journals"] = [listed["journals"][0] | {"device": "two"}]
    other = {MANIFEST: rfc8785.dumps(listed), "journals/two.journal": members[JOURNAL]}
    assert "written by" in refused(packed(other))


def test_every_bit_of_the_journal_counts(members, refused):
    for place in range(0, len(members[JOURNAL]), 211):
        raw = bytearray(members[JOURNAL])
        raw[place] ^= 1 << place % 8
        assert "not the journal" in refused(packed({**members, JOURNAL: bytes(raw)}))


SETTLED = (
    b'{"after":0,"aside":[{"device":"two","event":%b,"place":1}],"kept":"one","kind":"Settled",'
    b'"reason":"x"}'
)
EVENT = b'{"at":"2031-05-04T08:01:00+02:00","by":"x","sequence":1,"what":%b}'


@pytest.mark.parametrize(
    ("operations", "words"),
    [
        (b"[" * 900 + b"]" * 900, "nested more than 64 deep"),
        (b'[["insert","events",2,{"a":' + b"9" * 400 + b"}]]", "beyond"),
        (b'[["insert","events",2,{"a":' + b"9" * 5000 + b"}]]", "not the journal"),
        (b'[["insert","events",2,{"a":0.5}]]', "is a float"),
        (b'[["insert","events",2,{"a":1,"a":2}]]', "no tablet wrote this"),
        (b'[ ["insert","events",2,{}]]', "no tablet wrote this"),
        ('[["insert","events",2,{"a":"e\u0301"}]]'.encode(), "not in Unicode form NFC"),
        (b'[["insert","events",1,{}]]', "no tablet wrote this"),
        (b'[["insert","heads",true,{}]]', "no tablet wrote this"),
        (b'[["insert","heads",1,{"two":[true,"' + b"0" * 64 + b'"]}]]', "no tablet wrote this"),
        (b'[["insert","people",1,{}]]', "no tablet wrote this"),
        (b'[["remove","events",1]]', "no tablet wrote this"),
        (b'[["insert","events",2,{}]]', "does not add up to a job"),
        (b'[["insert","events",2,' + EVENT % b'{"kind":"Unknown"}' + b"]]", "add up to a job"),
        (
            b'[["insert","events",2,'
            + EVENT % b'{"entry":"pull","kind":"Ended","note":""}'
            + b"]]",
            "add up to a job",
        ),
        (b'[["insert","events",2,' + EVENT % SETTLED % b"{}" + b"]]", "add up to a job"),
        (b'[["insert","events",2,' + EVENT % SETTLED % (EVENT % SETTLED % b"{}") + b"]]",
         "add up to a job"),
        (b'[["insert","heads",1,{"two":5}]]', "no tablet wrote this"),
        (b'[["insert","heads",1,{"two":[0,"' + b"0" * 64 + b'"]}]]', "no tablet wrote this"),
        (b'[["insert","heads",1,{"two":[1,"0"]}]]', "no tablet wrote this"),
        (b"[" + b",".join(
            b'["insert","events",%d,' % place + EVENT % b'{"done":"x","kind":"MadeSafe"}' + b"]"
            for place in range(2, 14)
        ) + b"]", "a number to more events than a job can"),
    ],
    ids=["deep", "large", "huge", "float", "key twice", "other bytes", "not NFC", "number twice",
         "yes for a number", "yes for a head",
         "other table", "removed", "no event", "unknown event", "end without start",
         "settled without event", "settled in settled", "heads of no shape", "head of nothing",
         "head without hash", "one number"],
)  # fmt: skip
def test_entry_that_no_tablet_writes_is_refused(members, refused, operations, words):
    raw = rewritten(members, entry(operations))
    why = refused(relisted(members, raw) if walk(raw).head.sequence == 2 else packed(
        {**members, JOURNAL: raw}
    ))  # fmt: skip
    assert words in why


@pytest.mark.parametrize("text", [b"{}", b"[" * 9999, b'{"certificate":"x","signature":"eA=="}'])
def test_signature_that_cannot_be_read_is_refused(members, refused, text):
    assert refused(packed({**members, SIGNATURE: text}))


@given(st.binary(max_size=300), st.integers(0, 400))
def test_no_bytes_stop_the_reading(content, place):
    whole = packed({MANIFEST: b"{}" * 50, JOURNAL: b"x" * 50})
    for raw in (content, whole[:place] + content + whole[place:]):
        try:
            unpacked(raw)
        except HandOverRefusedError:
            continue


def test_signature_over_something_else_and_of_another_kind_is_refused(members, refused):
    key = ec.generate_private_key(ec.SECP256R1())
    over_other = signature_by(key, key.sign(b"other", ec.ECDSA(hashes.SHA256())))
    assert "not over what it holds" in refused(packed({**members, SIGNATURE: over_other}))
    other_kind = ed25519.Ed25519PrivateKey.generate()
    text = signature_by(other_kind, other_kind.sign(members[MANIFEST]))
    assert "not used here" in refused(packed({**members, SIGNATURE: text}))


def test_name_in_a_certificate_writes_no_line_of_its_own():
    certificate = named_by_itself(ec.generate_private_key(ec.SECP256R1()), "Eve\nsigned by Ada")
    assert name_of(certificate) == "Eve\ufffdsigned by Ada"


def signature_by(key, signature):
    """A certificate that a key gives itself, and a signature beside it."""
    certificate = named_by_itself(key, "Eve")
    return encode(Signature(certificate.public_bytes(Encoding.PEM).decode(), signature))


def named_by_itself(key, called):
    """A certificate that a key gives itself."""
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, called)])
    return (
        x509.CertificateBuilder().subject_name(name).issuer_name(name).serial_number(1)
        .public_key(key.public_key()).not_valid_before(AT).not_valid_after(AT.replace(year=2040))
        .sign(key, hashes.SHA256() if isinstance(key, ec.EllipticCurvePrivateKey) else None)
    )  # fmt: skip
