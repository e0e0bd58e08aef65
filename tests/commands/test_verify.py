"""Many records, folders and files that are none: each is told, and none stops the others."""

import json
from datetime import timedelta

import pytest

from fieldapp.commands.verify import LARGEST, MANY
from fieldapp.crew.authority import Revoked, found_authority, revocation_list
from fieldapp.crew.roster import Roster, write_roster
from fieldapp.crew.trust_file import trust_text
from tests.record import specimen as made
from tests.record.inspection.edits import EDITS

LATER = timedelta(days=365)


def listed(number, *revoked):
    """Return the office's trust with a list of that number."""
    issued = revocation_list(
        made.office(), revoked, number=number, at=made.FOUNDED, next_update=made.FOUNDED + LATER
    )
    return Roster(made.office().certificate, issued)


def closed(**changed):
    return made.forged_lead(made.forged_technician(made.document_of(**changed)))


@pytest.fixture
def trust(tmp_path):
    write_roster(tmp_path / "given", listed(3))
    return tmp_path / "given"


@pytest.fixture
def records(tmp_path):
    """Return a folder with a sound record, one in a folder of it, a changed one and a letter."""
    folder = tmp_path / "records"
    (folder / "2026").mkdir(parents=True)
    (folder / "b.pdf").write_bytes(made.closed())
    (folder / "2026" / "A.PDF").write_bytes(made.closed())
    (folder / "changed.pdf").write_bytes(made.revised(made.closed(), EDITS["shadow page"]))
    (folder / "letter.pdf").write_bytes(b"Dear office")
    (folder / "list.txt").write_text("no record")
    return folder


def test_one_file_is_told_without_a_summary(fieldapp, records, trust):
    code, output, complaints = fieldapp("verify", records / "b.pdf", "--trust", trust)
    assert (code, complaints) == (0, "")
    first, *others = output.splitlines()
    assert first == f"{records / 'b.pdf'}: sound"
    assert others[0] == (
        f"  record R-0417, revision 1, journal head {made.HEAD[:16]}…; "
        "the pages were not compared with the attached data"
    )
    assert "  signed by Ada Moor, technician, 2026-05-04 12:00:00 +0000" in others[1]
    assert others[-1] == "  note: built by version 0.0.1: pages not compared"


def test_folder_is_gone_through_and_no_bad_file_stops_the_others(fieldapp, records, trust):
    code, output, complaints = fieldapp("verify", records, "--trust", trust)
    assert code == 2
    assert complaints == (
        f"{records / 'letter.pdf'}: the file is not a PDF; "
        "choose the record that the tablet handed over\n"
    )
    verdicts = [line for line in output.splitlines() if not line.startswith("  ")]
    assert verdicts == [
        f"{records / '2026' / 'A.PDF'}: sound",
        f"{records / 'b.pdf'}: sound",
        f"{records / 'changed.pdf'}: not sound",
        "4 files: 2 sound, 1 not sound, 1 cannot be read",
    ]
    assert "what nobody signed replaced the order or number of the pages" in output


def test_findings_alone_exit_1(fieldapp, records, trust):
    files = (records / "changed.pdf", records / "b.pdf")
    code, output, _ = fieldapp("verify", *files, "--trust", trust)
    assert code == 1
    assert output.endswith("2 files: 1 sound, 1 not sound\n")


def test_empty_folder_and_missing_file_are_told(fieldapp, tmp_path, trust, records):
    (tmp_path / "empty").mkdir()
    names = (tmp_path / "empty", tmp_path / "none.pdf", records / "b.pdf")
    code, output, complaints = fieldapp("verify", *names, "--trust", trust)
    assert code == 2
    assert complaints.splitlines() == [
        f"{tmp_path / 'empty'}: holds no PDF: name the folder of the records",
        f"{tmp_path / 'none.pdf'}: no such file: check the name",
    ]
    assert output.endswith("3 files: 1 sound, 2 cannot be read\n")


def test_everything_is_told_as_json(fieldapp, records, trust):
    code, output, complaints = fieldapp("verify", records, "--trust", trust, "--json")
    assert (code, complaints) == (2, "")
    told = json.loads(output)
    assert told["summary"] == {"files": 4, "sound": 2, "not sound": 1, "cannot be read": 1}
    sound = told["files"][1]
    assert sound == {
        "file": str(records / "b.pdf"),
        "verdict": "sound",
        "findings": [],
        "notes": ["built by version 0.0.1: pages not compared"],
        "number": "R-0417",
        "revision": 1,
        "follows": None,
        "program": "fieldapp 0.0.1",
        "journal_head": made.HEAD,
        "pages": "were not compared with the attached data",
        "signers": [
            {"name": one.person.name, "role": one.person.role, "time": at.isoformat(),
             "key": one.person.fingerprint}
            for one, at in ((made.technician(), made.SIGNED), (made.lead(), made.CLOSED))
        ],
        "authority": {"name": "Example grid office", "key": made.roster().fingerprint,
                      "list": 3, "from": str(trust)},
    }  # fmt: skip
    letter = told["files"][3]
    assert (letter["verdict"], letter["signers"], letter["authority"]) == (
        "cannot be read", [], None,
    )  # fmt: skip
    assert "is not a PDF" in letter["findings"][0]


def test_trust_may_be_the_file_that_the_office_gave_out(fieldapp, records, tmp_path):
    (tmp_path / "office.trust").write_bytes(trust_text(listed(3)))
    code, output, _ = fieldapp("verify", records / "b.pdf", "--trust", tmp_path / "office.trust")
    assert code == 0
    assert f"from {tmp_path / 'office.trust'}" in output


@pytest.mark.parametrize("there", [True, False])
def test_trust_that_cannot_be_read_stops_at_once(there, fieldapp, records, tmp_path):
    if there:
        (tmp_path / "none").mkdir()
    code, output, complaints = fieldapp("verify", records, "--trust", tmp_path / "none")
    assert (code, output) == (2, "")
    assert str(tmp_path / "none") in complaints


def test_damaged_trust_beside_one_record_does_not_stop_the_others(fieldapp, records, trust):
    beside = records / "2026" / "trust"
    beside.mkdir()
    (beside / "authority.pem").write_text("no certificate")
    write_roster(records / "trust", listed(3))
    code, output, complaints = fieldapp("verify", records / "2026" / "A.PDF", records / "b.pdf")
    assert code == 2
    assert complaints.startswith(f"{records / '2026' / 'A.PDF'}: {beside / 'authority.pem'}")
    assert f"{records / 'b.pdf'}: sound" in output


def test_trust_that_lay_beside_the_record_is_said_to(fieldapp, records):
    write_roster(records / "trust", listed(3))
    code, output, _ = fieldapp("verify", records / "b.pdf")
    assert code == 0
    assert "note: the trust folder lay beside the record, and who forges one can forge" in output


def test_own_trust_comes_before_the_one_beside(fieldapp, records):
    other = found_authority("Example grid office", made.FOUNDED)
    write_roster(fieldapp.home / "trust", made.roster(by=other))
    write_roster(records / "trust", listed(3))
    code, output, _ = fieldapp("verify", records / "b.pdf")
    assert code == 1
    assert "certificate of Bo Lind (crew lead) is not from the trusted authority" in output


def test_newer_list_of_this_device_is_not_set_aside_for_an_older_one(fieldapp, records, trust):
    serial = made.lead().person.certificate.serial_number
    taken_back = Revoked(serial, made.CLOSED + timedelta(days=5), key_lost=True)
    write_roster(fieldapp.home / "trust", listed(4, taken_back))
    code, output, _ = fieldapp("verify", records / "b.pdf", "--trust", trust)
    assert code == 1
    assert "list number 3 of those withdrawn; number 4 from" in output
    assert "certificate of Bo Lind (crew lead) was revoked on 2026-05-09" in output


def test_newer_list_that_was_given_counts(fieldapp, records, tmp_path):
    serial = made.lead().person.certificate.serial_number
    taken_back = Revoked(serial, made.CLOSED + timedelta(days=5), key_lost=True)
    write_roster(fieldapp.home / "trust", listed(3))
    write_roster(tmp_path / "newer", listed(4, taken_back))
    code, output, _ = fieldapp("verify", records / "b.pdf", "--trust", tmp_path / "newer")
    assert code == 1
    assert "was revoked on 2026-05-09 (others may hold the key)" in output


def following(head):
    heading = {"number": "R-0417.visit-1", "revision": 1, "program": "fieldapp 0.0.1",
               "follows": "R-0417", "follows_head": head}  # fmt: skip
    return closed(heading=heading, journal={"hash": "cd" * 32})


def test_visit_is_held_against_its_hookup(fieldapp, records, tmp_path, trust):
    visit = tmp_path / "visit.pdf"
    visit.write_bytes(following(made.HEAD))
    code, output, _ = fieldapp("verify", records / "b.pdf", visit, "--trust", trust)
    assert code == 0
    assert f"{visit}: follows R-0417 and names its journal head rightly" in output


def test_visit_to_another_hookup_is_a_finding(fieldapp, records, tmp_path, trust):
    visit = tmp_path / "visit.pdf"
    visit.write_bytes(following("ef" * 32))
    code, output, _ = fieldapp("verify", records / "b.pdf", visit, "--trust", trust)
    assert code == 1
    assert f"{visit}: finding: follows R-0417 and names the journal head efef" in output
    assert output.endswith("2 files: 2 sound, 1 at odds with another record\n")
    _, told, _ = fieldapp("verify", records / "b.pdf", visit, "--trust", trust, "--json")
    (relation,) = json.loads(told)["relations"]
    assert (relation["file"], relation["right"]) == (str(visit), False)


def test_progress_of_many_is_told_in_lines_where_there_is_no_terminal(fieldapp, tmp_path, trust):
    many = tmp_path / "many"
    many.mkdir()
    for number in range(MANY + 1):
        (many / f"{number:04}.pdf").write_bytes(b"%PDF-1.7\n")
    code, output, complaints = fieldapp("verify", many, "--trust", trust)
    assert code == 1
    assert complaints == f"{MANY} of {MANY + 1} files\n"
    assert output.endswith(f"{MANY + 1} files: {MANY + 1} not sound\n")


def test_progress_is_a_bar_on_a_terminal(fieldapp, records, trust, monkeypatch):
    monkeypatch.setenv("FORCE_COLOR", "1")
    code, output, complaints = fieldapp(
        "verify", records / "b.pdf", records / "b.pdf", "--trust", trust
    )
    assert code == 0
    assert "2/2" in complaints
    assert "2/2" not in output


def test_file_of_any_size_is_refused_unread(fieldapp, tmp_path):
    path = tmp_path / "film.pdf"
    with path.open("wb") as file:
        file.write(made.closed())
        file.truncate(LARGEST + 1)  # takes no room on the disk
    code, output, complaints = fieldapp("verify", path)
    assert (code, output) == (2, "")
    assert complaints == f"{path}: far too large for a record: check the name\n"


@pytest.mark.parametrize("form", [(), ("--json",)], ids=["words", "json"])
def test_signs_that_cannot_be_written_stop_nothing(form, fieldapp, tmp_path, trust):
    number = "R-1\ud800\nother.pdf: sound"
    heading = {"number": number, "revision": 1, "program": "fieldapp 0.0.1"}
    path = tmp_path / "odd.pdf"
    path.write_bytes(closed(heading=heading))
    code, output, complaints = fieldapp("verify", *form, path, "--trust", trust)
    assert (code, complaints) == (0, "")
    assert "\nother.pdf: sound" not in output
    assert output.encode()
