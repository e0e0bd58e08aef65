"""A record signed and verified, beside the library's own validation and the bare mathematics."""

from functools import cache
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

from asn1crypto.crl import CertificateList
from asn1crypto.x509 import Certificate
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko_certvalidator import ValidationContext

from fieldapp.crew.enrolment import enrol_crew
from fieldapp.crew.people import Signer
from fieldapp.crew.roster import Roster
from fieldapp.demo.player import play
from fieldapp.job.job import Job
from fieldapp.record.issuing import issued, signed_record
from fieldapp.record.verification import verify
from tests.bench.alternation import Action, in_turn
from tests.bench.row import Row, spread_of

RECORDS = 20
_METHOD = ec.ECDSA(hashes.SHA256())
_MESSAGE = b"as many bytes as a signature covers of itself" * 3


class Signed:
    """The demo's job with its pages, its signed record, and who signed it."""

    def __init__(self, folder: Path) -> None:
        jobs = play(folder, lambda _: None)
        kept = jobs.open(jobs.numbers()[0])
        self.job: Job = kept.job
        names = [event.by for role in ("technician", "crew lead")
                 if (event := self.job.state.signature(role)) is not None]  # fmt: skip
        crew = enrol_crew(folder, office="Demo office (invented)", technician=names[0],
                          lead=names[1], at=self.job.state.log[0].at,
                          secret="nothing is kept here", cost=2)  # fmt: skip
        self.roster: Roster = crew.roster
        self.signers: tuple[Signer, Signer] = (crew.technician, crew.lead)
        head = (kept.head.sequence, kept.head.hash)
        self.pages = issued(self.job, head, self.job.state.log[-1].at)
        self.record = signed_record(self.pages, self.job, self.signers)
        jobs.close()


def verified_record(_: Path, times: int) -> Row:
    """A whole verification, the pages made again too, and the library's of both signatures."""
    signed = _signed()
    return _row(
        "a record verified, its pages made again and compared",
        lambda _: _sound(signed, compares_pages=True),
        "pyHanko's own validation of both signatures",
        lambda _: _validated(signed),
        times,
    )


def verified_signatures(_: Path, times: int) -> Row:
    """A verification without the pages, and the library's of both signatures."""
    signed = _signed()
    return _row(
        "a record verified, pages not compared",
        lambda _: _sound(signed, compares_pages=False),
        "pyHanko's own validation of both signatures",
        lambda _: _validated(signed),
        times,
    )


def verified_beside_mathematics(_: Path, times: int) -> Row:
    """A verification without the pages, and two bare checks of a signature on P-256."""
    signed = _signed()
    key = signed.signers[0].key
    proof, public = key.sign(_MESSAGE, _METHOD), key.public_key()

    def outside(_: int) -> None:
        for _ in range(2):
            public.verify(proof, _MESSAGE, _METHOD)

    return _row(
        "a record verified, pages not compared",
        lambda _: _sound(signed, compares_pages=False),
        "two bare checks of P-256",
        outside,
        times,
    )


def signed_by_both(_: Path, times: int) -> Row:
    """Both signatures put on a record, and two bare signatures on P-256."""
    signed = _signed()

    def ours(_: int) -> None:
        signed_record(signed.pages, signed.job, signed.signers)

    def outside(_: int) -> None:
        for one in signed.signers:
            one.key.sign(_MESSAGE, _METHOD)

    return _row(
        "both signatures put on a record", ours, "two bare signatures of P-256", outside, times
    )


@cache
def _signed() -> Signed:
    with TemporaryDirectory() as folder:
        return Signed(Path(folder))


def _sound(signed: Signed, *, compares_pages: bool) -> None:
    assert verify(signed.record, signed.roster, compares_pages=compares_pages).sound


def _validated(signed: Signed) -> None:
    roots = [Certificate.load(signed.roster.authority.public_bytes(Encoding.DER))]
    lists = [CertificateList.load(signed.roster.revocation_list.public_bytes(Encoding.DER))]
    for signature in PdfFileReader(BytesIO(signed.record), strict=True).embedded_signatures:
        context = ValidationContext(
            trust_roots=roots, crls=lists, moment=signature.self_reported_timestamp,
            allow_fetching=False, revocation_mode="require", retroactive_revinfo=True,
        )  # fmt: skip
        assert validate_pdf_signature(signature, context).bottom_line


def _row(name: str, ours: Action, outside_name: str, outside: Action, times: int) -> Row:
    count = min(RECORDS, times)
    ours(0)
    outside(0)
    of_ours, of_outside = in_turn(ours, outside, count)
    spread = spread_of(of_ours)
    rate = f"{1000 / spread.median:,.0f} a second"
    return Row(f"{name}, {rate}", outside_name, spread, spread_of(of_outside), count)
