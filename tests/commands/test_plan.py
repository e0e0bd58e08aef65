"""`fieldapp plan` prints the answers in the office's order, refusals on a line each, or a page."""

import json

from fieldapp.demo.player import sheet_text


def written(tmp_path, *changes):
    text = sheet_text()
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    path = tmp_path / "sheet.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_answers_stand_in_the_office_s_order(fieldapp, tmp_path):
    code, output, complaints = fieldapp("plan", written(tmp_path))
    assert (code, complaints) == (0, "")
    questions = (
        "How wet?",
        "How much water?",
        "How long?",
        "How many cartridges?",
        "What vacuum, and how long to it?",
        "How much oil does the skid take?",
        "Hoses: velocity and pressures",
        "What holds spilled oil?",
        "Does the spill rule count this oil?",
        "Which PCB class?",
        "How near to live parts?",
        "What would out of service cost?",
    )
    lines = output.splitlines()
    assert [line for line in lines if line in questions] == list(questions)
    assert "permits no energised work" in output
    assert "6 cartridges, somewhere from 1 to 13" in output


def test_each_refusal_stands_on_one_line(fieldapp, tmp_path):
    path = written(tmp_path, ('pump_speed = "60 L/min"\n', ""), ('"24 mg/kg"', '"90 mg/kg"'))
    code, output, _ = fieldapp("plan", path)
    assert code == 0
    lines = output.splitlines()
    assert (
        "  Time to the target: the sheet does not state “Vacuum pump, through the hoses”: "
        "add pump_speed to [plan]." in lines
    )
    assert sum("wetter than this method can say" in line for line in lines) == 5


def test_sheet_with_problems_is_told_as_by_check(fieldapp, tmp_path):
    path = written(tmp_path, ('elevation = "1500 m"', 'elevation = "15000 m"'))
    code, output, _ = fieldapp("plan", path)
    assert code == 1
    assert output == fieldapp("check", path)[1]
    assert "look at the figure again" in output


def test_json_holds_the_same_answers(fieldapp, tmp_path):
    code, output, _ = fieldapp("plan", written(tmp_path), "--json")
    plan = json.loads(output)
    assert code == 0
    assert [answer["id"] for answer in plan["answers"]][:3] == ["wet", "water", "time"]
    assert plan["curve"]["sample"][0] == 52


def test_missing_file_is_one_line(fieldapp, tmp_path):
    code, _, complaints = fieldapp("plan", tmp_path / "none.toml")
    assert code == 2
    assert "no such file" in complaints


def test_page_is_written(fieldapp, tmp_path):
    out = tmp_path / "plan.pdf"
    code, output, _ = fieldapp("plan", written(tmp_path), "--out", out)
    assert (code, output.splitlines()[-1]) == (0, str(out))
    assert out.read_bytes().startswith(b"%PDF-")


def test_page_beside_json_leaves_the_json_alone(fieldapp, tmp_path):
    out = tmp_path / "plan.pdf"
    _, output, complaints = fieldapp("plan", written(tmp_path), "--json", "--out", out)
    assert json.loads(output)["number"] == "SP-T2-2026-01"
    assert complaints.strip() == str(out)
