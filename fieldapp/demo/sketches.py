"""Draws the invented pictures of the demo: simple sketches of what its crew photographed."""

from collections.abc import Callable
from io import BytesIO
from typing import TYPE_CHECKING

from fieldapp.places import assets

if TYPE_CHECKING:
    from PIL.ImageDraw import ImageDraw

SIZE = (1600, 1200)
_SKY, _GROUND, _STEEL, _DARK, _OIL, _MARK = (
    "#C9D6DC", "#8F8B7C", "#A9B2B5", "#20272B", "#6B4A1B", "#F9A800",
)  # fmt: skip


def sketch(name: str) -> bytes:
    """Return the picture called `name` as a JPEG; it says that it is invented."""
    from PIL import Image, ImageDraw, ImageFont

    image = Image.new("RGB", SIZE, _SKY)
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, 900, *SIZE), _GROUND)
    _SCENES.get(name.partition(".")[0], _plate)(draw)
    font = ImageFont.truetype(str(assets() / "fonts" / "B612-Regular.otf"), 44)
    draw.rectangle((0, 1110, 1600, 1200), _DARK)
    draw.text((40, 1130), f"{name}: invented picture of the demo", "white", font)
    out = BytesIO()
    image.save(out, "JPEG", quality=88)
    return out.getvalue()


def _ports(draw: "ImageDraw") -> None:
    draw.rectangle((300, 120, 1300, 960), _STEEL, _DARK, 8)
    for top in (260, 700):
        draw.rectangle((1300, top + 50, 1440, top + 130), _STEEL, _DARK, 8)
        draw.rectangle((1410, top, 1460, top + 180), _DARK)
        draw.rectangle((1120, top + 60, 1220, top + 120), _MARK, _DARK, 5)


def _barrier(draw: "ImageDraw") -> None:
    draw.rectangle((520, 180, 1080, 900), _STEEL, _DARK, 8)
    for left in range(120, 1500, 330):
        draw.rectangle((left, 640, left + 30, 1020), _DARK)
        draw.line((left + 15, 720, left + 345, 720), _MARK, 18)
        draw.line((left + 15, 860, left + 345, 860), _MARK, 18)


def _bond(draw: "ImageDraw") -> None:
    draw.rectangle((100, 480, 1500, 600), "#B8743A", _DARK, 8)
    draw.rectangle((700, 400, 900, 680), _STEEL, _DARK, 8)
    draw.ellipse((760, 440, 840, 520), _DARK)
    draw.line((800, 680, 800, 820, 1000, 960, 1500, 1000), "#2F7A3B", 40, joint="curve")


def _bridge(draw: "ImageDraw") -> None:
    draw.rectangle((60, 620, 1540, 720), _STEEL, _DARK, 8)
    draw.polygon(((700, 540), (900, 670), (700, 800)), _STEEL, _DARK, 8)
    draw.line((900, 540, 900, 800), _DARK, 16)
    draw.line((420, 620, 420, 360, 1180, 360, 1180, 620), _OIL, 40, joint="curve")
    draw.rectangle((740, 310, 860, 410), _MARK, _DARK, 6)


def _blank(draw: "ImageDraw") -> None:
    draw.rectangle((60, 520, 900, 700), _STEEL, _DARK, 8)
    draw.rectangle((900, 380, 990, 840), _DARK)
    draw.rectangle((1000, 380, 1070, 840), _STEEL, _DARK, 8)
    for top in (430, 590, 750):
        draw.rectangle((1070, top, 1130, top + 40), _DARK)


def _plate(draw: "ImageDraw") -> None:
    draw.rectangle((420, 260, 1180, 840), _STEEL, _DARK, 8)
    for top in (380, 500, 620, 740):
        draw.line((500, top, 1100, top), _DARK, 10)


_SCENES: dict[str, Callable[["ImageDraw"], None]] = {
    "ports": _ports,
    "barrier": _barrier,
    "bond": _bond,
    "bridge": _bridge,
    "blank": _blank,
}
