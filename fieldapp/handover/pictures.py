"""The pictures of a job on their way: those its events name, each the one that was kept."""

import warnings
from collections.abc import Iterable
from hashlib import sha256
from io import BytesIO
from pathlib import Path

from fieldapp.handover.copying import Copied, CopyDiffersError
from fieldapp.handover.errors import HandOverRefusedError
from fieldapp.journal.lines import disk
from fieldapp.journal.lines.chain import Body
from fieldapp.journal.pictures import ENDINGS, FOLDER, MOST_POINTS, path_of
from fieldapp.journal.tablets.union import events_of
from fieldapp.whole import make_folder, write_whole


def named_by(bodies: Iterable[Body]) -> dict[str, str]:
    """Return the SHA-256 of every picture that entries name, each with its file's name."""
    given = (event["what"].get("fields", {}) for event in events_of(bodies))
    return {fields["sha256"]: fields.get("photo", "") for fields in given if fields.get("sha256")}


def whole_pictures(folder: Path, named: Iterable[str]) -> tuple[Path, ...]:
    """Return where the pictures of a job lie that are there and are what was kept."""
    paths = (path_of(folder, each) for each in sorted(named))
    return tuple(path for path in paths if path and _is_whole(path))


def demand_picture(name: str, content: bytes) -> None:
    """Refuse what is not a picture, or is one that takes too much memory to look at."""
    from PIL import Image, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(BytesIO(content), formats=("JPEG", "PNG")) as opened:
                points, ending = opened.width * opened.height, ENDINGS[opened.format or ""]
    except Image.DecompressionBombError as reason:
        raise HandOverRefusedError(f"picture {name} in it has too many points") from reason
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, KeyError) as reason:
        raise HandOverRefusedError(f"picture {name} in it is no JPEG or PNG picture") from reason
    if points > MOST_POINTS:
        raise HandOverRefusedError(f"picture {name} in it has too many points")
    if not name.endswith(f".{ending}"):
        raise HandOverRefusedError(f"picture {name} in it is of another kind than it says")


def keep_picture(folder: Path, name: str, content: bytes) -> None:
    """Write a picture into a job's folder, unless it is there."""
    path = folder / FOLDER / name
    if disk.content(path) != content:
        write_whole(path, content)


def copy_picture(source: Path, target: Path) -> Copied:
    """Copy a picture to another place, if it is the one that was kept, and read it back."""
    with disk.named_trouble(source):
        content = source.read_bytes()
    if sha256(content).hexdigest() != source.stem:
        why = "not copied, it is not the one kept"
        return Copied(source, target, refused=f"{source}: {why}", why=why)
    if disk.content(target) != content:
        with disk.named_trouble(target):
            make_folder(target.parent)
            write_whole(target, content)
        if target.read_bytes() != content:
            raise CopyDiffersError(target)
    return Copied(source, target)


def _is_whole(path: Path) -> bool:
    try:
        return sha256(path.read_bytes()).hexdigest() == path.stem
    except OSError:
        return False
