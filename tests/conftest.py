"""Settings that must stand before any test, or any library a test imports, is loaded."""

import atexit
import os
import shutil
import tempfile

import hypothesis

SCREEN_SETTINGS = {
    "KIVY_CLIPBOARD": "dummy",
    "KIVY_DPI": "96",
    "KIVY_LOG_MODE": "PYTHON",
    "KIVY_METRICS_DENSITY": "1",
    "KIVY_METRICS_FONTSCALE": "1",
    "KIVY_NO_ARGS": "1",
    "KIVY_NO_CONSOLELOG": "1",
    "KIVY_NO_FILELOG": "1",
    "SDL_VIDEODRIVER": "offscreen",
}

for name, value in SCREEN_SETTINGS.items():
    os.environ.setdefault(name, value)
if "KIVY_HOME" not in os.environ:
    home = tempfile.mkdtemp(prefix="fieldapp-kivy-")
    os.environ["KIVY_HOME"] = home
    atexit.register(shutil.rmtree, home, ignore_errors=True)

# A slow or busy machine is no reason to fail.
hypothesis.settings.register_profile("steady", deadline=None, derandomize=True)
hypothesis.settings.load_profile("steady")
