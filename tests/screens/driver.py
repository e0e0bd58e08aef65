"""Drives a real window: real steps of the event loop and real touches, but a fake time."""

from kivy.base import EventLoop
from kivy.core.window import Window
from kivy.graphics.opengl import GL_RGBA, GL_UNSIGNED_BYTE, glReadPixels
from kivy.input.motionevent import MotionEvent
from PIL import Image

FRAME = 1 / 60
READING = 0.5


class Touch(MotionEvent):
    def __init__(self, x, y, number):
        super().__init__("test", number, {"x": x, "y": y}, is_touch=True, type_id="touch")
        self.profile = ["pos"]

    def depack(self, args):
        self.sx = args["x"] / (Window.width - 1.0)
        self.sy = args["y"] / (Window.height - 1.0)
        super().depack(args)


class FakeTime:
    def __init__(self):
        self.now = 1000.0

    def __call__(self):
        return self.now


class Driver:
    """Shows widgets, touches them, types, waits in fake time, and sees the pixels."""

    def __init__(self, fake_time):
        self.time = fake_time
        self._touches = 0

    def show(self, widget, place=None):
        """Put a widget on the window: all over it, or at (left, top, width, height)."""
        Window.add_widget(widget)
        if place:
            left, top, width, height = place
            widget.size_hint = (None, None)
            widget.size = (width, height)
            widget.pos = (left, Window.height - top - height)
        else:
            widget.size = Window.size
        self.frames(3)
        return widget

    def frames(self, count=2):
        for _ in range(count):
            self.time.now += FRAME
            EventLoop.idle()

    def wait(self, seconds):
        self.frames(max(1, round(seconds / FRAME)))

    def until(self, condition, seconds=5.0):
        end = self.time.now + seconds
        while not condition():
            assert self.time.now <= end, f"not so after {seconds} s of screen time"
            self.frames(1)

    def walk(self, root=None):
        todo = [root] if root else list(Window.children)
        while todo:
            widget = todo.pop(0)
            yield widget
            todo.extend(widget.children)

    def all(self, tid=None, kind=None):
        return [
            widget
            for widget in self.walk()
            if (tid is None or getattr(widget, "tid", None) == tid)
            and (kind is None or type(widget).__name__ == kind)
        ]

    def get(self, tid=None, kind=None):
        found = self.all(tid, kind)
        assert len(found) == 1, f"{len(found)} widgets for tid={tid} kind={kind}: {self.tids()}"
        return found[0]

    def tids(self):
        return sorted({widget.tid for widget in self.walk() if getattr(widget, "tid", "")})

    def texts(self):
        """All words on the window, as drawn."""
        return [written.text for widget in self.walk() for written in getattr(widget, "texts", ())]

    def begin(self, at):
        x, y = at if isinstance(at, tuple) else at.to_window(*at.center)
        assert 0 <= x < Window.width, f"off the window: {x}, {y}"
        assert 0 <= y < Window.height, f"off the window: {x}, {y}"
        self._touches += 1
        touch = Touch(x, y, self._touches)
        EventLoop.post_dispatch_input("begin", touch)
        self.frames(1)
        return touch

    def move(self, touch, at):
        touch.move({"x": at[0], "y": at[1]})
        EventLoop.post_dispatch_input("update", touch)
        self.frames(1)

    def end(self, touch):
        EventLoop.post_dispatch_input("end", touch)
        self.frames(2)

    def tap(self, at, hold=0.0):
        """Read, then touch a widget, a point, or the widget with a tid."""
        self.time.now += READING
        touch = self.begin(self.get(at) if isinstance(at, str) else at)
        if hold:
            self.wait(hold)
        self.end(touch)

    def tap_twice(self, at):
        """Touch the place of a widget twice, faster than anybody reads."""
        widget = self.get(at)
        point = widget.to_window(*widget.center)
        self.tap(point)
        self.end(self.begin(point))

    def drag(self, points):
        touch = self.begin(points[0])
        for point in points[1:]:
            self.move(touch, point)
        self.end(touch)

    def type(self, text):
        for letter in text:
            Window.dispatch("on_key_down", ord(letter), 0, letter, [])
            Window.dispatch("on_textinput", letter)
            Window.dispatch("on_key_up", ord(letter), 0)
            self.frames(1)

    def key(self, code):
        Window.dispatch("on_key_down", code, 0, None, [])
        Window.dispatch("on_key_up", code, 0)
        self.frames(1)

    def picture(self):
        Window.canvas.ask_update()
        self.frames(1)
        width, height = Window.system_size
        pixels = glReadPixels(0, 0, width, height, GL_RGBA, GL_UNSIGNED_BYTE)
        image = Image.frombytes("RGBA", (width, height), bytes(pixels))
        return image.transpose(Image.Transpose.FLIP_TOP_BOTTOM).convert("RGB")

    def shot(self, path):
        self.picture().save(path)

    def colour_at(self, widget, x, y):
        """RRGGBB at a point of a widget, in pixels from its upper left corner."""
        left, top = widget.to_window(widget.x, widget.top)
        pixel = self.picture().getpixel((round(left + x), round(Window.height - top + y)))
        return "{:02X}{:02X}{:02X}".format(*pixel)
