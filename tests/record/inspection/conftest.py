"""What the attacks are measured with."""

import pytest

from fieldapp.record.verification import DAMAGED, verify
from tests.record import specimen as made


@pytest.fixture(scope="session")
def roster():
    return made.roster()


@pytest.fixture(scope="session")
def found(roster):
    """Return all findings about a file in one text, which must say more than “damaged”."""

    def findings_of(pdf, by=roster):
        findings = verify(pdf, by).findings
        assert DAMAGED not in findings
        assert all("; " in finding and finding.endswith(".") for finding in findings), (
            "a finding says what is wrong, and what to do"
        )
        return "\n".join(findings)

    return findings_of
