"""Pictures of a job: kept in its folder under their SHA-256, found again, checked, made smaller."""

import hashlib
import warnings
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from fieldapp.errors import FieldAppError
from fieldapp.job.events import Entered, Event
from fieldapp.journal.folders import looked_into
from fieldapp.journal.lines import disk
from fieldapp.whole import write_whole

if TYPE_CHECKING:
    from PIL import Image

FOLDER = "pictures"
MOST_BYTES = 40 * 2**20
MOST_POINTS = 80_000_000
ENDINGS = {"JPEG": "jpg", "MPO": "jpg", "PNG": "png"}
"""How a kept picture's name ends; MPO is a JPEG with a small one of itself behind it."""

_TAKE_ANOTHER = "take another"


class PictureRefusedError(FieldAppError):
    """A file was not kept as a picture."""

    def __init__(self, name: str, why: str, then: str = _TAKE_ANOTHER) -> None:
        super().__init__(f"{name}: NOT SAVED, {why}: {then}.")
        self.name = name
        self.why = why


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture that is kept: the name of the file chosen, its SHA-256, and where it lies."""

    name: str
    sha256: str
    path: Path


def keep(folder: Path, source: Path) -> Picture:
    """Return the picture once its bytes are on the disk in the job's folder, whole and synced."""
    content = _content(source)
    ending = _ending(source.name, content)
    sha256 = hashlib.sha256(content).hexdigest()
    path = folder / FOLDER / f"{sha256}.{ending}"
    try:
        if disk.content(path) != content:
            write_whole(path, content)
    except OSError as problem:
        if disk.is_lack_of_space(problem):
            raise PictureRefusedError(
                source.name, "the disk has no space left", "remove files that are not needed, "
                "then take it again"
            ) from problem  # fmt: skip
        why = f"the disk does not take it ({problem.strerror or problem})"
        raise PictureRefusedError(source.name, why, "look at the tablet’s storage") from problem
    return Picture(source.name, sha256, path)


def path_of(folder: Path, sha256: str) -> Path | None:
    """Return where a picture of a job lies; None if it is not there."""
    paths = (folder / FOLDER / f"{sha256}.{ending}" for ending in sorted({*ENDINGS.values()}))
    return next((path for path in paths if path.is_file()), None)


def named_in(events: Iterable[Event]) -> dict[str, str]:
    """Return the SHA-256 of every picture that the events name, each with its file's name."""
    entered = (event.what for event in events if isinstance(event.what, Entered))
    return {
        what.fields["sha256"]: what.fields.get("photo", "")
        for what in entered
        if what.fields.get("sha256")
    }


def check(folder: Path, wanted: dict[str, str]) -> tuple[str, ...]:
    """Return what is wrong with the pictures of a job, each in a sentence.

    `wanted` is what `named_in` gives: each must be there, and be what it was when it was kept.
    """
    kept = looked_into(folder / FOLDER)
    missing = tuple(
        f"picture {name} ({sha256[:12]}) is missing"
        for sha256, name in wanted.items()
        if path_of(folder, sha256) is None
    )
    changed = tuple(
        f"picture {wanted.get(path.stem, path.name)} ({path.stem[:12]}) "
        "is not the one that was kept"
        for path in kept
        if path.suffix.removeprefix(".") in ENDINGS.values() and not _unchanged(path)
    )
    return missing + changed


def scaled(path: Path, points: int) -> bytes:
    """Return a picture as a JPEG whose longer side has at most so many points, upright.

    The same file gives the same bytes, and what the camera wrote beside the picture (place,
    owner, serial) is left out.
    """
    from PIL import Image, ImageOps

    with _readable(path.name), Image.open(path, formats=("JPEG", "PNG")) as opened:
        opened.draft("RGB", (points, points))
        upright = ImageOps.exif_transpose(opened)
        upright.thumbnail((points, points), Image.Resampling.LANCZOS)
        plain = _on_white(upright)
    out = BytesIO()
    plain.save(out, "JPEG", quality=85, optimize=False, progressive=False)
    return out.getvalue()


def _on_white(image: "Image.Image") -> "Image.Image":
    from PIL import Image

    if "A" not in image.getbands() and "transparency" not in image.info:
        return Image.frombytes("RGB", image.size, image.convert("RGB").tobytes())
    seen = image.convert("RGBA")
    ground = Image.new("RGB", image.size, "white")
    ground.paste(seen, mask=seen.getchannel("A"))
    return ground


def _content(source: Path) -> bytes:
    try:
        with source.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    except OSError as problem:
        why = f"it cannot be read ({problem.strerror or problem})"
        raise PictureRefusedError(source.name, why) from problem
    if len(content) > MOST_BYTES:
        why = f"it is larger than {MOST_BYTES // 2**20} MB"
        raise PictureRefusedError(source.name, why, "take it with fewer points")
    return content


def _ending(name: str, content: bytes) -> str:
    """Return the ending for a picture that can be read to its end, or refuse it."""
    from PIL import Image

    with _readable(name), Image.open(BytesIO(content), formats=("JPEG", "PNG")) as opened:
        if opened.width * opened.height > MOST_POINTS:
            raise _too_many_points(name)
        opened.load()
        return ENDINGS[opened.format or ""]


@contextmanager
def _readable(name: str) -> Iterator[None]:
    """Say in one line why a picture cannot be read, whatever its decoder says."""
    from PIL import Image, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            yield
    except FileNotFoundError as problem:
        raise PictureRefusedError(name, "it is not there") from problem
    except UnidentifiedImageError as problem:
        raise PictureRefusedError(name, "it is no JPEG or PNG picture") from problem
    except Image.DecompressionBombError as problem:
        raise _too_many_points(name) from problem
    except (OSError, SyntaxError, ValueError) as problem:  # what its decoders raise of a torn file
        raise PictureRefusedError(name, "its end is missing or it is damaged") from problem


def _too_many_points(name: str) -> PictureRefusedError:
    why = f"it has more than {MOST_POINTS // 10**6} million points"
    return PictureRefusedError(name, why, "take it with fewer points")


def _unchanged(path: Path) -> bool:
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest() == path.stem
    except OSError:
        return False
