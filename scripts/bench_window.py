"""Measures how long the first window takes, beside a bare PySide6 window in the same run.

From the start of the process to the end of the window's first painting, each in a fresh process
under the present platform; the best of several, ours and the bare one in turn.
"""

import os
import subprocess
import sys
import tempfile
import time

RUNS = 9

_WATCH = """
import sys, time
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication
class Watch(QObject):
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint:
            QTimer.singleShot(0, self.done)
            watched.removeEventFilter(self)
        return False
    def done(self):
        print(time.monotonic(), flush=True)
        QApplication.exit(0)
watch = Watch()
app = QApplication(sys.argv)
"""
_OURS = """
from holeplacer.gui import application
window = application.first_window(app)
window.installEventFilter(watch)
app.exec()
"""
_BARE = """
from PySide6.QtWidgets import QLabel, QMainWindow
window = QMainWindow()
window.setCentralWidget(QLabel("bare"))
window.resize(1280, 800)
window.installEventFilter(watch)
window.show()
app.exec()
"""


def rows() -> list[tuple[str, float, str, float, float]]:
    """What, our seconds, the peer, its seconds, ratio."""
    ours, bare = [], []
    with tempfile.TemporaryDirectory() as home:
        # Home of its own, so that no setting of the person counts; compiled modules are kept in
        # it as they are beside an installed program, and made by a first run that is not counted.
        places = dict.fromkeys(("HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"), home)
        environment = {**os.environ, **places, "PYTHONPYCACHEPREFIX": f"{home}/compiled"}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        for run in range(RUNS + 1):
            times = _seconds(_BARE, environment), _seconds(_OURS, environment)
            if run:
                bare.append(times[0])
                ours.append(times[1])
    mine, peer = min(ours), min(bare)
    return [("first window on the screen", mine, "bare PySide6 main window", peer, mine / peer)]


def _seconds(program: str, environment: dict[str, str]) -> float:
    begin = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-c", _WATCH + program],
        env=environment,
        stdout=subprocess.PIPE,
        check=True,
        timeout=60,
    )
    return float(done.stdout) - begin


if __name__ == "__main__":
    for row in rows():
        print(*row)
