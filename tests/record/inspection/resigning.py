"""A signature made again over a file that was changed, as its holder could."""

import asyncio
import hashlib
import re

from asn1crypto.cms import ContentInfo
from asn1crypto.keys import PrivateKeyInfo
from asn1crypto.x509 import Certificate
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat
from pyhanko.sign.signers.pdf_cms import SimpleSigner
from pyhanko_certvalidator.registry import SimpleCertificateStore

RANGE = re.compile(rb"/ByteRange \[(\d+) (\d+) (\d+) [\d ]+\] *")


def last_place(pdf):
    """Return where the last signature begins and ends."""
    found = [*RANGE.finditer(pdf)][-1]
    return int(found[2]), int(found[3])


def proof_in(pdf):
    """Return the last signature of a file."""
    begins, ends = last_place(pdf)
    return ContentInfo.load(bytes.fromhex(pdf[begins + 1 : ends - 1].decode()), strict=False)


def with_proof(pdf, proof, fill=b"0", place=None):
    """Return the file with another last signature, where it stands or where it says it does."""
    begins, ends = place or last_place(pdf)
    written = proof.dump().hex().upper().encode()
    return pdf[: begins + 1] + written.ljust(ends - begins - 2, fill) + pdf[ends - 1 :]


def with_ranges(pdf, *ranges):
    """Return the file with other ranges of what the last signature covers."""
    found = [*RANGE.finditer(pdf)][-1]
    told = b"/ByteRange [" + b" ".join(b"%d" % one for one in ranges)
    assert len(told) < len(found[0])
    return pdf[: found.start()] + (told + b"]").ljust(len(found[0])) + pdf[found.end() :]


def resigned(pdf, signer, *, digest="sha256", place=None, **named):
    """Return the file with its last signature made again by the signer, over its ranges."""
    ranges = [int(one) for one in re.findall(rb"\d+", [*RANGE.finditer(pdf)][-1][0])]
    covered = b"".join(
        pdf[ranges[place] : ranges[place] + ranges[place + 1]] for place in range(0, len(ranges), 2)
    )
    return with_proof(
        pdf, proof_of(hashlib.new(digest, covered).digest(), signer, digest, **named), place=place
    )


def proof_of(hashed, signer, digest, **named):
    key = signer.key.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())
    certificate = Certificate.load(signer.person.certificate.public_bytes(Encoding.DER))
    by = SimpleSigner(certificate, PrivateKeyInfo.load(key), SimpleCertificateStore())
    return asyncio.run(by.async_sign(hashed, digest, **{"use_pades": True, **named}))
