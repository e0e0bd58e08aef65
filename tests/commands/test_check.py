"""`fieldapp check` names every fault with its line, and says what is sound."""

from fieldapp.demo.player import checklist_text, sheet_text


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
