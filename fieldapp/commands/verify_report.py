"""What `fieldapp verify` says of one file, and of all of them, in words and as JSON."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fieldapp.checklist.problems import in_one_line
from fieldapp.commands.verify_trust import Trust
from fieldapp.crew.people import name_of
from fieldapp.record.findings import Findings, SignedBy
from fieldapp.record.following import Relation

SOUND, NOT_SOUND, UNREADABLE = "sound", "not sound", "cannot be read"
CODES = {SOUND: 0, NOT_SOUND: 1, UNREADABLE: 2}
_SHOWN = 16


@dataclass(frozen=True, slots=True)
class Report:
    """One file: what was found, or in one line why it cannot be read."""

    path: Path
    findings: Findings | None = None
    trust: Trust | None = None
    complaint: str = ""

    @property
    def verdict(self) -> str:
        """The verdict in a word or two."""
        if self.findings is None:
            return UNREADABLE
        return SOUND if self.findings.sound else NOT_SOUND

    @property
    def notes(self) -> tuple[str, ...]:
        """What is worth knowing although nothing is wrong with it."""
        of_trust = self.trust.notes if self.trust else ()
        return (*of_trust, *(self.findings.notes if self.findings else ()))


def in_words(report: Report) -> str:
    """Return what was found about a file that can be read, a line each."""
    assert report.findings is not None  # noqa: S101 - who cannot be read is told in one line
    lines = (f"{report.path}: {report.verdict}", *_lines(report, report.findings))
    return "\n  ".join(map(in_one_line, lines))


def relation_in_words(relation: Relation) -> str:
    """Return what one record says of another."""
    words = f"{relation.place}: {'' if relation.right else 'finding: '}{relation.words}"
    return in_one_line(words)


def summary(reports: Sequence[Report], relations: Sequence[Relation]) -> str:
    """Return in one line how many are sound."""
    counted = Counter(report.verdict for report in reports)
    parts = [f"{counted[verdict]:,} {verdict}" for verdict in CODES if counted[verdict]]
    wrong = sum(not relation.right for relation in relations)
    parts += [f"{wrong:,} at odds with another record"] if wrong else []
    return f"{len(reports):,} files: {', '.join(parts)}"


def as_json(reports: Sequence[Report], relations: Sequence[Relation]) -> dict[str, Any]:
    """Return everything that was found, as plain data."""
    counted = Counter(report.verdict for report in reports)
    return {
        "files": [_file(report) for report in reports],
        "relations": [
            {"file": one.place, "says": one.words, "right": one.right} for one in relations
        ],
        "summary": {"files": len(reports), **{verdict: counted[verdict] for verdict in CODES}},
    }


def _lines(report: Report, findings: Findings) -> Iterator[str]:
    if findings.record:
        heading, journal = findings.record["heading"], findings.record["journal"]
        yield (
            f"record {heading.get('number')}, revision {heading.get('revision')}, journal head "
            f"{str(journal.get('hash'))[:_SHOWN]}…; the pages {findings.pages}"
        )
    for signer in findings.signers:
        yield (
            f"signed by {signer.name}, {signer.role}, {signer.time:%Y-%m-%d %H:%M:%S %z}, "
            f"key {signer.fingerprint[:_SHOWN]}…"
        )
    if report.trust:
        yield f"authority {report.trust.roster.fingerprint[:_SHOWN]}… from {report.trust.place}"
    yield from (f"note: {note}" for note in report.notes)
    yield from (f"finding: {finding}" for finding in findings.findings)


def _file(report: Report) -> dict[str, Any]:
    findings = report.findings or Findings((report.complaint,))
    record = findings.record or {"heading": {}, "journal": {}}
    heading = record["heading"]
    return {
        "file": str(report.path),
        "verdict": report.verdict,
        "findings": list(findings.findings),
        "notes": list(report.notes),
        "number": heading.get("number"),
        "revision": heading.get("revision"),
        "follows": heading.get("follows"),
        "program": heading.get("program"),
        "journal_head": record["journal"].get("hash"),
        "pages": str(findings.pages),
        "signers": [_signer(one) for one in findings.signers],
        "authority": _authority(report.trust),
    }


def _signer(signed: SignedBy) -> dict[str, str]:
    return {
        "name": signed.name,
        "role": signed.role,
        "time": signed.time.isoformat(),
        "key": signed.fingerprint,
    }


def _authority(trust: Trust | None) -> dict[str, Any] | None:
    if trust is None:
        return None
    return {
        "name": name_of(trust.roster.authority),
        "key": trust.roster.fingerprint,
        "list": trust.roster.number,
        "from": str(trust.place),
    }
