"""The frame is light: it is on the screen before the core is even imported."""

import subprocess
import sys

from holeplacer.gui.frame import MENUS, Frame

LIGHT = """
import sys
from PySide6.QtWidgets import QApplication
app = QApplication([])
from holeplacer.gui import application
window = application.first_window(app)
app.processEvents()
heavy = {"numpy", "scipy", "shapely", "ezdxf", "lxml", "msgspec"} & set(sys.modules)
ours = [name for name in sys.modules if name.startswith("holeplacer.gui.stages")]
print(sorted(heavy), ours, window.isVisible())
"""


def test_first_window_needs_no_core(tmp_path):
    """Showing it imports neither numpy nor a form."""
    places = {
        "HOME": str(tmp_path),
        "XDG_CONFIG_HOME": str(tmp_path),
        "QT_QPA_PLATFORM": "offscreen",
    }
    import os

    done = subprocess.run(
        [sys.executable, "-c", LIGHT],
        env={**os.environ, **places},
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    assert done.stdout.strip() == "[] [] True"


def test_place_is_remembered(qtbot, theme, settings):
    """The window comes back where it was."""
    first = Frame(theme, settings)
    qtbot.addWidget(first)
    first.resize(701, 503)  # what fits the smallest screen
    settings.setValue("window/place", first.saveGeometry())
    second = Frame(theme, settings)
    qtbot.addWidget(second)
    assert (second.width(), second.height()) == (701, 503)


def test_menus_are_named(qtbot, theme, settings):
    """All titles are there at once, so that the bar does not jump."""
    frame = Frame(theme, settings)
    qtbot.addWidget(frame)
    assert [action.text() for action in frame.menuBar().actions()] == list(MENUS)
