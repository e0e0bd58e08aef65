"""Walks a screen and says what a technician in gloves, in the sun, could not touch or read."""

from itertools import combinations

from kivy.core.window import Window
from kivy.metrics import dp
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.label import Label
from kivy.uix.textinput import TextInput

from fieldapp.screens import theme
from fieldapp.screens.kit.drawn import Drawn, Target
from fieldapp.screens.kit.plate import Plate

LEAST_CONTRAST = 7.0
# White on the green and red of marks, and colours that carry a mark or a heavy line beside words.
MARK_CONTRAST = 4.5
_MARK_INKS = {"series1", "series2", "series3", "series4", "series5"}
_EDGE = 2
_SAME_COLOUR = 4


def findings(root):
    """All that is wrong on a screen, as sentences; an empty list is a sound screen."""
    widgets = [widget for widget in root.walk(restrict=True) if _seen(widget)]
    targets = [target for widget in widgets for target in _targets(widget)]
    return [
        *_small_targets(targets),
        *_near_targets(targets),
        *_plates_over_plates([widget for widget in widgets if isinstance(widget, Plate)]),
        *_texts(widgets),
        *_text_over_text(widgets),
        *_labels(widgets),
    ]


def false_grounds(root, picture):
    """Where the pixels under a text are not the ground its contrast was worked out for."""
    for widget in filter(_seen, root.walk(restrict=True)):
        for written in getattr(widget, "texts", ()):
            x, y, right, top = _ink_box(written)
            box = (x - 2, picture.height - top - 2, right + 2, picture.height - y + 2)
            colours = picture.crop(tuple(round(edge) for edge in box)).getcolors(1 << 20)
            _, most = max(colours)
            wanted = [round(255 * part) for part in theme.colour(written.ground)[:3]]
            if max(abs(a - b) for a, b in zip(most, wanted, strict=True)) > _SAME_COLOUR:
                yield f"{_name(widget)}: “{written.text}” does not lie on {written.ground}"


def _seen(widget):
    while widget is not None and widget is not Window:
        if getattr(widget, "opacity", 1) == 0:
            return False
        widget = widget.parent
    return True


def _targets(widget):
    if isinstance(widget, Drawn):
        return widget.targets()
    if isinstance(widget, (ButtonBehavior, TextInput)):
        name = getattr(widget, "tid", "") or type(widget).__name__
        return (Target(name, (*widget.to_window(*widget.pos), *widget.size), theme.TARGET),)
    return ()


def _small_targets(targets):
    for target in targets:
        _, _, width, height = target.box
        if min(width, height) < dp(target.least) - 0.5:
            yield f"{target.name}: target {width:.0f} x {height:.0f}, at least {target.least}"
        x, y = target.box[:2]
        if x < 0 or y < 0 or x + width > Window.width or y + height > Window.height:
            yield f"{target.name}: target off the window"


def _near_targets(targets):
    for one, other in combinations(targets, 2):
        (x1, y1, w1, h1), (x2, y2, w2, h2) = one.box, other.box
        gap = max(x2 - (x1 + w1), x1 - (x2 + w2), y2 - (y1 + h1), y1 - (y2 + h2))
        if gap < dp(theme.LEAST_GAP) - 0.5:
            word = f"gap {gap:.0f}" if gap >= 0 else "overlap"
            yield f"{one.name} and {other.name}: {word}, at least {theme.LEAST_GAP}"


def _plates_over_plates(plates):
    """Those that wait are no targets, but hide what they lie on all the same."""
    for one, other in combinations(plates, 2):
        if one.collide_widget(other) and one.parent is not other and other.parent is not one:
            yield f"{_name(one)} lies over {_name(other)}"


def _texts(widgets):
    for widget in widgets:
        for written in getattr(widget, "texts", ()):
            where = f"{_name(widget)}: “{written.text}”"
            if written.size < theme.LEAST_TEXT:
                yield f"{where} is {written.size}, at least {theme.LEAST_TEXT}"
            least = MARK_CONTRAST if written.ink in _MARK_INKS else LEAST_CONTRAST
            found = theme.contrast(written.ink, written.ground)
            if found < least:
                yield f"{where} contrast {found:.1f}, at least {least}"
            if not written.fits:
                yield f"{where} is clipped: it needs more room"
            x, y, right, top = _ink_box(written)
            if x < 0 or y < 0 or right > Window.width or top > Window.height:
                yield f"{where} is off the window"
            left, foot = widget.to_window(*widget.pos)
            if (
                x < left - _EDGE
                or right > left + widget.width + _EDGE
                or y < foot - _EDGE
                or top > foot + widget.height + _EDGE
            ):
                yield f"{where} is outside its widget"


def _text_over_text(widgets):
    written = [text for widget in widgets for text in getattr(widget, "texts", ())]
    for one, other in combinations(written, 2):
        a, b = _ink_box(one), _ink_box(other)
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
            yield f"“{one.text}” lies over “{other.text}”"


def _labels(widgets):
    for widget in widgets:
        if not isinstance(widget, (Label, TextInput)):
            continue
        if widget.font_size < dp(theme.LEAST_TEXT):
            yield f"{_name(widget)}: letters of {widget.font_size}, at least {theme.LEAST_TEXT}"
        texture = getattr(widget, "texture_size", (0, 0))
        if texture[0] > widget.width + 1 or texture[1] > widget.height + 1:
            yield f"{_name(widget)}: “{widget.text}” is clipped: it needs more room"


def _ink_box(written):
    """Left, bottom, right and top of the letters, without the room above and below them."""
    x, y, width, height = written.box
    size = dp(written.size)
    baseline = y + height - 0.965 * size
    below = 0.2 * size if set(written.text) & set("gjpqy,;()") else 0.0
    return (x, baseline - below, x + width, baseline + 0.76 * size)


def _name(widget):
    return getattr(widget, "tid", "") or type(widget).__name__
