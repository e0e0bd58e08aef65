"""`fieldapp blank` prints a checklist; what is not sound is told and nothing is written."""

import io

import pypdf
import pytest

from fieldapp.demo.player import checklist_text, sheet_text
from fieldapp.places import checklists


@pytest.mark.parametrize(("paper", "width"), [("a4", 595.28), ("letter", 612)])
def test_folder_and_sheet_become_a_pdf_on_the_paper_asked_for(fieldapp, tmp_path, paper, width):
    sheet, out = tmp_path / "sheet.toml", tmp_path / "blank.pdf"
    sheet.write_text(sheet_text(), encoding="utf-8")
    folder = checklists() / "rest_test"
    code, output, _ = fieldapp("blank", folder, "--sheet", sheet, "--out", out, "--paper", paper)
    assert (code, output) == (0, f"{out}\n")
    page = pypdf.PdfReader(io.BytesIO(out.read_bytes())).pages[0]
    assert float(page.mediabox.width) == pytest.approx(width, abs=0.01)
    assert "SP-T2-2026-01" in page.extract_text()


def test_faults_of_checklist_and_sheet_are_told_and_nothing_is_written(fieldapp, tmp_path):
    path, sheet, out = (tmp_path / name for name in ("list.toml", "sheet.toml", "blank.pdf"))
    path.write_text(checklist_text().replace('unit = "turns"', 'unit = "furlong"', 1), "utf-8")
    sheet.write_text(sheet_text().replace("[site]", "[sight]"), encoding="utf-8")
    code, output, _ = fieldapp("blank", path, "--sheet", sheet, "--out", out)
    assert code == 1
    assert f"{path}:" in output
    assert f"{sheet}:" in output
    assert not out.exists()


def test_folder_without_a_checklist_is_one_line(fieldapp, tmp_path):
    code, _, complaint = fieldapp("blank", tmp_path, "--out", tmp_path / "blank.pdf")
    assert code == 2
    assert complaint.count("\n") == 1
    assert "no such file" in complaint
