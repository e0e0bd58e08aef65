"""`fieldapp check` names every fault with its line, and says what is sound."""

import pytest

from fieldapp.demo.player import checklist_text, sheet_text
from fieldapp.places import checklists

ON_AN_ENERGISED_UNIT = sorted(
    path.parent.name
    for path in checklists().glob("*/checklist.toml")
    if path.parent.name != "vacuum_treatment"
)


def planted(text, *changes):
    """Return the text with faults planted, and the lines where they are."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    lines = text.splitlines()
    return text, [
        next(n for n, line in enumerate(lines, 1) if new.splitlines()[0] in line)
        for _, new in changes
    ]


def test_five_planted_faults_name_five_lines(fieldapp, tmp_path):
    text, lines = planted(
        checklist_text(),
        ('kind = "hold"', 'kind = "holding"'),
        ('formula = "margin_cold"', 'formula = "margin_colder"'),
        ('unit = "turns"', 'unit = "furlong"'),
        ('waive = "lead"', 'waive = "anybody"'),
        ('undone_by = ["joint_touched"]', 'undone_by = ["joint_torched"]'),
    )
    path = tmp_path / "checklist.toml"
    path.write_text(text, encoding="utf-8")
    code, output, _ = fieldapp("check", path)
    assert code == 1
    for line in lines:
        assert f"{path}:{line}: " in output


def test_sound_files_are_said_to_be(fieldapp, tmp_path):
    (tmp_path / "checklist.toml").write_text(checklist_text(), encoding="utf-8")
    (tmp_path / "sheet.toml").write_text(sheet_text(), encoding="utf-8")
    code, output, _ = fieldapp("check", tmp_path / "checklist.toml", tmp_path / "sheet.toml")
    assert code == 0
    assert "sound: checklist “Hookup to an energised unit”, revision" in output
    assert "sound: job sheet" in output


def test_date_in_the_future_is_told_with_its_line(fieldapp, tmp_path):
    text, lines = planted(sheet_text(), ("calibrated = 2026-03-12", "calibrated = 2026-12-12"))
    path = tmp_path / "sheet.toml"
    path.write_text(text, encoding="utf-8")
    code, output, _ = fieldapp("check", path)
    assert code == 1
    assert f"{path}:{lines[0]}: " in output
    assert "lies in the future" in output


def test_lead_who_is_also_the_technician_is_told(fieldapp, tmp_path):
    text = sheet_text().replace('name = "Ruth Calderon"', 'name = "Maren Holtby"')
    path = tmp_path / "sheet.toml"
    path.write_text(text, encoding="utf-8")
    code, output, _ = fieldapp("check", path)
    assert code == 1
    assert "Maren Holtby" in output


def test_missing_file_folder_and_rubbish_are_each_one_line(fieldapp, tmp_path):
    (tmp_path / "rubbish.toml").write_bytes(b"\xff\xfe\x00[[[")
    code, output, complaint = fieldapp(
        "check", tmp_path / "none.toml", tmp_path, tmp_path / "rubbish.toml"
    )
    assert code == 1
    assert complaint == ""
    assert "no such file: check the name" in output
    assert "is a folder" in output
    assert len(output.splitlines()) == 3


NOT_USED = """
[[constant]]
id = "spare"
label = "Spare"
value = "3 min"
source = "common practice"

[[phase]]
id = "arrive\""""


def doubtful(tmp_path):
    text, _ = planted(checklist_text(), ('\n[[phase]]\nid = "arrive"', NOT_USED))
    path = tmp_path / "checklist.toml"
    path.write_text(text, encoding="utf-8")
    return path, text[: text.index('id = "spare"')].count("\n") + 1


def test_warning_is_told_with_its_line_and_the_file_is_sound_all_the_same(fieldapp, tmp_path):
    path, line = doubtful(tmp_path)
    code, output, _ = fieldapp("check", path)
    assert code == 0
    assert f'{path}:{line}: warning: constant "spare": no limit and no formula' in output
    assert output.endswith("91 steps, 1 warning\n")


def test_strict_takes_a_warning_for_a_problem(fieldapp, tmp_path):
    path, _ = doubtful(tmp_path)
    assert fieldapp("check", "--strict", path)[0] == 1
    path.write_text(checklist_text(), encoding="utf-8")
    assert fieldapp("check", "--strict", path)[0] == 0


def test_with_a_job_sheet_a_limit_that_no_reading_decides_is_a_warning(fieldapp, tmp_path):
    path, sheet = tmp_path / "checklist.toml", tmp_path / "sheet.toml"
    path.write_text(checklist_text(), encoding="utf-8")
    text, _ = planted(sheet_text(), ('accuracy = "2 hPa"', 'accuracy = "190 hPa"'))
    sheet.write_text(text, encoding="utf-8")
    code, output, _ = fieldapp("check", path, "--sheet", sheet)
    assert code == 0
    assert 'entry "reached"' in output
    assert "is known to ±190 hPa, and the limits leave 166.65 hPa" in output.replace("\xa0", " ")


def test_with_a_job_sheet_a_missing_instrument_is_a_problem_of_the_sheet(fieldapp, tmp_path):
    path, sheet = tmp_path / "checklist.toml", tmp_path / "sheet.toml"
    path.write_text(checklist_text(), encoding="utf-8")
    text, _ = planted(sheet_text(), ('id = "absolute_gauge"', 'id = "another_gauge"'))
    sheet.write_text(text, encoding="utf-8")
    code, output, _ = fieldapp("check", path, "--sheet", sheet)
    assert code == 1
    assert f"{sheet}:" in output
    assert 'instrument "absolute_gauge": is missing' in output


def test_a_sheet_that_is_none_is_said_before_anything_else(fieldapp, tmp_path):
    path = tmp_path / "checklist.toml"
    path.write_text(checklist_text(), encoding="utf-8")
    code, output, _ = fieldapp("check", path, "--sheet", path)
    assert (code, output) == (1, f"{path}: this is no sound job sheet: check it first\n")


@pytest.mark.parametrize("name", ON_AN_ENERGISED_UNIT)
def test_instruments_of_the_demo_decide_every_limit_of_every_list_of_its_course(
    fieldapp, tmp_path, name
):
    (tmp_path / "sheet.toml").write_text(sheet_text(), encoding="utf-8")
    path = checklists() / name / "checklist.toml"
    code, output, _ = fieldapp("check", "--strict", "--sheet", tmp_path / "sheet.toml", path)
    assert (code, "warning" in output) == (0, False), output
