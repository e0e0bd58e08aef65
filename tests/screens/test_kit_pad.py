"""The signature pad keeps strokes, lists go by pages, and a reason can be typed or touched."""

import pytest
from kivy.base import EventLoop

from fieldapp.screens import theme
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.note import NoteEntry
from fieldapp.screens.kit.pad import LONGEST_STROKE, SignaturePad
from fieldapp.screens.kit.paging import PagedRows, Pager, page_start
from fieldapp.screens.kit.plate import Plate
from tests.screens.findings import findings

PAD = (800, 300, 400, 200)
REASONS = ["meter is coarse", "no other meter", "rain", "engineer agreed", "another pad"]


@pytest.fixture
def pad(driver):
    return driver.show(SignaturePad(tid="pad"), PAD)


def test_stroke_is_kept_from_the_upper_left(driver, pad):
    heard: list[SignaturePad] = []
    pad.bind(on_stroke=heard.append)
    driver.drag([(pad.x + 40, pad.top - 20), (pad.x + 200, pad.top - 100)])
    assert pad.strokes == [
        [
            (pytest.approx(0.1, abs=0.01), pytest.approx(0.1, abs=0.01)),
            (pytest.approx(0.5, abs=0.01), pytest.approx(0.5, abs=0.01)),
        ]
    ]
    assert len(heard) == 1
    assert driver.colour_at(pad, 120, 60) == theme.SUN.ink


def test_stroke_that_leaves_the_pad_stays_on_its_edge(driver, pad):
    driver.drag([(pad.x + 40, pad.y + 40), (pad.x - 300, pad.y + 40)])
    assert pad.strokes[0][-1][0] == 0.0


def test_each_touch_is_a_stroke_and_clear_takes_all(driver, pad):
    driver.tap((pad.x + 50, pad.y + 100))
    driver.drag([(pad.x + 60, pad.y + 100), (pad.x + 90, pad.y + 120)])
    assert [len(stroke) for stroke in pad.strokes] == [1, 2]
    pad.clear()
    driver.frames()
    assert pad.strokes == []
    assert driver.colour_at(pad, 50, 100) == theme.SUN.key


def test_endless_stroke_is_cut_before_it_breaks(driver, pad):
    touch = driver.begin((pad.x + 10, pad.y + 100))
    for step in range(1, LONGEST_STROKE + 51):
        touch.move({"x": pad.x + 10 + step % 100 * 3, "y": pad.y + 100 + step % 7})
        EventLoop.post_dispatch_input("update", touch)
    driver.end(touch)
    assert [len(stroke) for stroke in pad.strokes] == [LONGEST_STROKE, 52]
    assert pad.strokes[1][0] == pad.strokes[0][-1]


def test_closed_pad_takes_no_ink(driver, pad):
    pad.open = False
    driver.drag([(pad.x + 40, pad.y + 40), (pad.x + 90, pad.y + 40)])
    assert pad.strokes == []
    assert pad.targets() == ()


def test_pad_is_fit_for_gloves(pad):
    assert findings(pad) == []


@pytest.mark.parametrize(
    ("start", "pages", "count", "shown", "wanted"),
    [(0, 1, 20, 6, 6), (6, 1, 8, 6, 2), (2, -1, 8, 6, 0), (0, 1, 4, 6, 0), (9, 0, 3, 6, 0)],
)
def test_page_stops_at_both_ends(start, pages, count, shown, wanted):
    assert page_start(start, pages, count, shown) == wanted


@pytest.fixture
def rows(driver):
    made = PagedRows(rows=[Plate(tid=f"row {at}", first=f"row {at}") for at in range(8)])
    return driver.show(made, (232, 26, 1024, 236))


def names(rows):
    return [row.tid for row in reversed(rows.children)]


def test_rows_that_fit_are_shown_by_pages(driver, rows):
    assert (names(rows), rows.shown) == (["row 0", "row 1"], 2)
    rows.page(1)
    driver.frames()
    assert names(rows) == ["row 2", "row 3"]
    assert findings(rows) == []


def test_swipe_turns_the_page_and_touches_no_row(driver, rows):
    heard: list[Plate] = []
    for row in rows.rows:
        row.bind(on_touched=heard.append)
    x, y = rows.center
    driver.drag([(x, y - 60), (x, y + 20), (x, y + 60)])
    assert (names(rows), heard) == (["row 2", "row 3"], [])
    driver.drag([(x, y + 60), (x, y), (x, y - 60)])
    assert (names(rows), heard) == (["row 0", "row 1"], [])


def test_pager_waits_at_the_ends(driver):
    pager, heard = Pager(count=9, start=0, shown=4), []
    pager.bind(on_down=lambda _: heard.append("down"), on_up=lambda _: heard.append("up"))
    driver.show(pager, (24, 300, 166, 208))
    assert driver.texts() == ["Down", "5 more", "Up", "the first"]
    driver.tap("up")
    driver.tap("down")
    assert heard == ["down"]
    pager.start = 5
    driver.frames()
    driver.tap("up")
    assert heard == ["down", "up"]
    assert findings(pager) == []


@pytest.fixture
def note(driver):
    root, heard = Drawn(ground="paper"), []
    note = NoteEntry(title="Why is 0.46 Ω kept?", reasons=REASONS, place=[0, 78, 0, 0])
    note.bind(on_kept=lambda _, text: heard.append(text), on_left=lambda _: heard.append(None))
    root.add_widget(note)
    driver.show(root)
    return note, heard


def test_nothing_is_kept_without_a_reason(driver, note):
    driver.tap("keep")
    driver.tap("back")
    assert note[1] == [None]
    assert driver.get("keep").kind == "waiting"


def test_common_reason_is_one_touch(driver, note):
    driver.tap("reason 1")
    assert driver.get("reason 1").kind == "held"
    driver.tap("keep")
    assert note[1] == ["no other meter"]


def test_own_words_are_kept_as_typed(driver, note):
    driver.tap("note")
    driver.type("worn clamp, 2,5 mm")
    driver.tap("keep")
    assert note[1] == ["worn clamp, 2,5 mm"]


def test_field_lies_in_the_upper_half(driver, note):
    assert driver.get("note").y > 400


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
def test_note_is_fit_for_gloves(driver, note, look):
    theme.switch_look(look)
    driver.frames()
    assert findings(note[0]) == []
