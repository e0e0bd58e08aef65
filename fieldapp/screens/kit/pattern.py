"""The patterns that show what a volume holds: oil, vacuum, air; also outside and range."""

from __future__ import annotations

from functools import lru_cache

from kivy.graphics.texture import Texture

from fieldapp.screens import theme

# Width and height of one tile, in dp.
TILES = {
    "oil": (24, 16),
    "vacuum": (12, 12),
    "air": (16, 16),
    "outside": (12, 12),
    "range": (8, 8),
}
WORDS = {"oil": "oil", "vacuum": "vacuum", "air": "air", "outside": "outside", "range": "range"}
_SAMPLES = 4
_RING, _RING_LINE = 2.6, 1.8
_HATCH = 2.0
_STRIPE = 2
# Left, top, right and bottom; the second dash goes on in the next tile.
_OIL_DASHES = ((2, 3, 13, 5), (14, 11, 24, 13), (0, 11, 1, 13))


def role_at(pattern: str, x: float, y: float) -> str:
    """The colour role of a pattern at a point of its tile, in dp from the upper left corner."""
    if pattern == "oil":
        dashed = any(_inside(dash, x, y) for dash in _OIL_DASHES)
        return "oildash" if dashed else "oil"
    if pattern == "range":
        return "band" if x < _STRIPE else "paper"
    if pattern == "air":
        rings = (_on_ring(x - 4, y - 4), _on_ring(x - 12, y - 12))
        return "ink" if any(rings) else "paper"
    rising = _on_hatch(x + y)
    falling = pattern == "outside" and _on_hatch(x - y)
    return "ink" if rising or falling else "paper"


def texture_of(pattern: str, density: float = 1.0) -> Texture:
    """A repeating tile of a pattern in the look in use."""
    return _texture(pattern, theme.look(), density)


@lru_cache(maxsize=32)
def _texture(pattern: str, look: theme.Look, density: float) -> Texture:
    width, height = (round(side * density) for side in TILES[pattern])
    texture = Texture.create(size=(width, height), colorfmt="rgb")
    texture.wrap = "repeat"
    texture.mag_filter = texture.min_filter = "nearest"
    texture.blit_buffer(_pixels(pattern, look, width, height), colorfmt="rgb", bufferfmt="ubyte")
    return texture


def _pixels(pattern: str, look: theme.Look, width: int, height: int) -> bytes:
    tile_width, tile_height = TILES[pattern]
    rows = []
    for row in reversed(range(height)):
        for column in range(width):
            roles = [
                role_at(
                    pattern,
                    (column + (across + 0.5) / _SAMPLES) / width * tile_width,
                    (row + (down + 0.5) / _SAMPLES) / height * tile_height,
                )
                for across in range(_SAMPLES)
                for down in range(_SAMPLES)
            ]
            rows.append(_mixed(roles, look))
    return b"".join(rows)


def _mixed(roles: list[str], look: theme.Look) -> bytes:
    colours = [theme.colour(role, look) for role in roles]
    return bytes(
        round(255 * sum(colour[part] for colour in colours) / len(colours)) for part in range(3)
    )


def _inside(box: tuple[float, float, float, float], x: float, y: float) -> bool:
    left, top, right, bottom = box
    return left <= x < right and top <= y < bottom


def _on_ring(x: float, y: float) -> bool:
    distance = (x * x + y * y) ** 0.5
    return bool(abs(distance - _RING) <= _RING_LINE / 2)


def _on_hatch(along: float) -> bool:
    off = along % 12
    return min(off, 12 - off) <= _HATCH / 2 * 2**0.5
