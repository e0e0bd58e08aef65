"""One PAdES B-B signature put into a field of a PDF, at a time that is given."""

import asyncio
from collections.abc import Coroutine
from datetime import datetime

from asn1crypto.cms import ContentInfo
from asn1crypto.keys import PrivateKeyInfo
from asn1crypto.x509 import Certificate
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat
from pyhanko.sign.fields import SigSeedSubFilter
from pyhanko.sign.signers.cms_embedder import (
    PdfCMSEmbedder,
    SigIOSetup,
    SigMDPSetup,
    SigObjSetup,
)
from pyhanko.sign.signers.pdf_byterange import SignatureObject
from pyhanko.sign.signers.pdf_cms import SimpleSigner
from pyhanko_certvalidator.registry import SimpleCertificateStore

from fieldapp.crew.people import Signer
from fieldapp.record.writers import RevisionWriter

DIGEST = "sha256"
_RESERVED = 4096  # hexadecimal digits; certificate and signature take about 2,000


def sealed(
    writer: RevisionWriter,
    field: str,
    signer: Signer,
    at: datetime,
    meaning: str,
    rules: SigMDPSetup,
) -> bytes:
    """Return the document with the writer's changes and a signature over all of it."""
    steps = PdfCMSEmbedder().write_cms(field, writer, existing_fields_only=True)
    next(steps)
    signature = SignatureObject(
        timestamp=at,
        subfilter=SigSeedSubFilter.PADES,
        name=signer.person.name,
        reason=meaning,
        bytes_reserved=_RESERVED,
    )
    steps.send(SigObjSetup(signature, mdp_setup=rules))
    prepared, written = steps.send(SigIOSetup(DIGEST))
    steps.send(_finished(_proof(prepared.document_digest, signer)))
    document: bytes = written.getvalue()
    return document


def _finished(proof: Coroutine[None, None, ContentInfo]) -> ContentInfo:
    """Return what the library gives in its own time; nothing is waited for.

    `asyncio.run` would also watch for Ctrl-C, and puts the whole proof into words to do so.
    """
    loop = asyncio.new_event_loop()
    try:
        return loop.run_until_complete(proof)
    finally:
        loop.close()


async def _proof(digest: bytes, signer: Signer) -> ContentInfo:
    key = signer.key.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())
    # The authority's certificate is not carried along: no signature would cover it.
    certificate = Certificate.load(signer.person.certificate.public_bytes(Encoding.DER))
    by = SimpleSigner(certificate, PrivateKeyInfo.load(key), SimpleCertificateStore())
    return await by.async_sign(digest, DIGEST, use_pades=True)
