"""`fieldapp verify`: whether a record is whole, by whom it was signed, and every finding."""

from pathlib import Path

import click

from fieldapp.commands.setting import Setting, UnreadableFileError, content_of
from fieldapp.crew.roster import Roster, find_roster, read_roster
from fieldapp.record.findings import Findings
from fieldapp.record.verification import UnreadableRecordError
from fieldapp.record.verification import verify as examine

FINDINGS, UNREADABLE = 1, 2


@click.command(short_help="Say whether records are whole and who signed them.")
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "--trust",
    type=click.Path(path_type=Path, file_okay=False),
    help="The office’s trust folder; else “trust” in the home, else beside the record.",
)
@click.pass_obj
def verify(setting: Setting, files: tuple[Path, ...], trust: Path | None) -> int:
    """Say whether FILES are whole and who signed them. Exit 0 sound, 1 findings, 2 unreadable."""
    return max(_verify(path, setting, trust) for path in files)


def _verify(path: Path, setting: Setting, trust: Path | None) -> int:
    try:
        content = content_of(path)
        folder = find_roster(path, setting.home, trust)
        roster = read_roster(folder) if folder else None
        findings = examine(content, roster)
    except UnreadableFileError as fault:
        click.echo(str(fault), err=True)
        return UNREADABLE
    except UnreadableRecordError as fault:
        click.echo(f"{path}: {fault}", err=True)
        return UNREADABLE
    click.echo(f"{path}: {'sound' if findings.sound else 'not sound'}")
    for words in _words(findings, folder, roster):
        click.echo(f"  {words}")
    return 0 if findings.sound else FINDINGS


def _words(findings: Findings, folder: Path | None, roster: Roster | None) -> list[str]:
    words = [
        f"signed by {signer.name}, {signer.role}, {signer.time:%Y-%m-%d %H:%M:%S %z}, "
        f"key {signer.fingerprint[:16]}…"
        for signer in findings.signers
    ]
    if roster is not None:
        words.append(f"authority {roster.fingerprint[:16]}… from {folder}")
    return words + [f"finding: {finding}" for finding in findings.findings]
