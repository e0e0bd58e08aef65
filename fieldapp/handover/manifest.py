"""What a hand-over file says of itself: the job, its journals with their heads, and who signs."""

from typing import Annotated, TypeVar

from cryptography import x509
from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding
from msgspec import DecodeError, Meta, Struct
from msgspec.json import decode, encode

from fieldapp.crew.people import Signer, issued_by, name_of, role_of
from fieldapp.crew.roster import Roster
from fieldapp.handover.errors import HandOverRefusedError

FORMAT = 1
_PURPOSE = b"fieldapp hand-over, format 1\n"

_Kind = TypeVar("_Kind")
Name = Annotated[str, Meta(pattern=r"\A[A-Za-z0-9][A-Za-z0-9._-]{0,63}\Z")]
Hash = Annotated[str, Meta(pattern=r"\A[0-9a-f]{64}\Z")]
Number = Annotated[int, Meta(ge=1, le=2**53 - 1)]


class Part(Struct, frozen=True, forbid_unknown_fields=True):
    """One journal, and the entry it ends with."""

    device: Name
    sequence: Number
    hash: Hash


class Manifest(Struct, frozen=True, forbid_unknown_fields=True):
    """The job and the heads of all its journals: this is what is signed."""

    format: int
    job: Name
    made: Annotated[str, Meta(max_length=40)]
    journals: Annotated[tuple[Part, ...], Meta(min_length=1, max_length=20)]


class Signature(Struct, frozen=True, forbid_unknown_fields=True):
    """A person's signature over the manifest, with their certificate."""

    certificate: Annotated[str, Meta(max_length=20_000)]
    signature: Annotated[bytes, Meta(max_length=200)]


def manifest_in(text: bytes) -> Manifest:
    """Return what the manifest says."""
    manifest = _decoded(text, Manifest, "its list of journals cannot be read")
    if manifest.format != FORMAT:
        raise HandOverRefusedError(
            f"it is of format {manifest.format}, this version reads format {FORMAT}"
        )
    devices = [part.device for part in manifest.journals]
    if len(devices) != len({device.casefold() for device in devices}):
        raise HandOverRefusedError("it names a journal twice")
    return manifest


def signed(manifest: bytes, signer: Signer) -> bytes:
    """Return a person's signature over a manifest (ECDSA, P-256, SHA-256)."""
    certificate = signer.person.certificate.public_bytes(Encoding.PEM).decode()
    signature = signer.key.sign(_PURPOSE + manifest, ec.ECDSA(hashes.SHA256()))
    return encode(Signature(certificate, signature))


def signer_words(manifest: bytes, text: bytes | None, roster: Roster | None) -> str:
    """Return who signed a manifest, as far as the trust folder vouches for them."""
    if text is None:
        return "unsigned: nobody vouches for it"
    certificate = _certificate(text, manifest)
    who = f"{name_of(certificate)}, {role_of(certificate)}"
    if roster is None:
        return f"signed by someone who says they are {who}; there is no trust folder to ask"
    if not issued_by(certificate, roster.authority):
        return f"signed by someone who says they are {who}; the office does not know them"
    if roster.revocation_list.get_revoked_certificate_by_serial_number(certificate.serial_number):
        return f"signed by {who}, whose certificate the office took back"
    return f"signed by {who}"


def _certificate(text: bytes, manifest: bytes) -> x509.Certificate:
    """Return whose signature it is, once it is known to be over this manifest."""
    found = _decoded(text, Signature, "its signature cannot be read")
    try:
        certificate = x509.load_pem_x509_certificate(found.certificate.encode())
        key = certificate.public_key()
    except (ValueError, UnsupportedAlgorithm) as reason:
        raise HandOverRefusedError("the certificate in it cannot be read") from reason
    if not isinstance(key, ec.EllipticCurvePublicKey):
        raise HandOverRefusedError("its signature is of a kind that is not used here")
    try:
        key.verify(found.signature, _PURPOSE + manifest, ec.ECDSA(hashes.SHA256()))
    except InvalidSignature as reason:
        raise HandOverRefusedError("its signature is not over what it holds") from reason
    return certificate


def _decoded(text: bytes, kind: type[_Kind], otherwise: str) -> _Kind:
    try:
        return decode(text, type=kind)
    except (DecodeError, UnicodeDecodeError, RecursionError) as reason:
        raise HandOverRefusedError(otherwise) from reason
