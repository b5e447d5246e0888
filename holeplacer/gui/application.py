"""Application: starts the window, opens what was asked for, and ends."""

from __future__ import annotations

import signal
import socket
import sys
from pathlib import Path

from PySide6.QtCore import QSettings, QSocketNotifier, QTimer
from PySide6.QtGui import QSessionManager
from PySide6.QtWidgets import QApplication

from holeplacer.gui.main_window import MainWindow
from holeplacer.gui.theme import Choice, Theme

NAME = "Holeplacer"


def run(arguments: list[str]) -> int:
    """Show the window until it is closed.

    Args:
        arguments: One file to open; none shows how to begin.

    Returns:
        Exit status.
    """
    app = QApplication([sys.argv[0]])
    window = first_window(app)
    heed_signals(app)
    heed_session(app, window)
    QTimer.singleShot(0, window, lambda: begin(window, arguments))
    return app.exec()


def heed_signals(app: QApplication) -> None:
    """End when the terminal or the system asks; what is unsaved is kept for the next start.

    Python looks at its signals only when some of its code runs, and none does while Qt waits; so
    each signal also writes to a socket that Qt watches.
    """
    reader, writer = socket.socketpair()
    writer.setblocking(False)
    signal.set_wakeup_fd(writer.fileno())
    notifier = QSocketNotifier(reader.fileno(), QSocketNotifier.Type.Read, app)
    notifier.activated.connect(lambda: reader.recv(64))

    def unhook(kept: socket.socket = writer) -> None:
        """Keeps the socket for as long as Python may write to it."""
        if kept.fileno() >= 0:
            signal.set_wakeup_fd(-1)

    app.aboutToQuit.connect(lambda: unhook())
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, lambda *_: app.exit(0))


def heed_session(app: QApplication, window: MainWindow) -> None:
    """Lose nothing when the person logs out, or the program is told to end."""
    app.commitDataRequest.connect(lambda manager: end_session(window, manager))
    app.aboutToQuit.connect(window.keep_unsaved)


def end_session(window: MainWindow, manager: QSessionManager) -> None:
    """Before a logout: ask what becomes of unsaved changes, or keep them if nothing may be asked.

    Args:
        window: The window.
        manager: The system's, which waits for this to return.
    """
    if not manager.allowsInteraction():
        window.keep_unsaved()
        return
    goes_on = window.may_end_session()
    manager.release()
    if not goes_on:
        manager.cancel()


def first_window(app: QApplication) -> MainWindow:
    """The window on the screen, with nothing open yet."""
    app.setApplicationName(NAME)
    app.setOrganizationName(NAME)
    settings = QSettings()
    theme = Theme(app, chosen_theme(settings))
    window = MainWindow(theme, settings)
    window.show()
    return window


def begin(window: MainWindow, arguments: list[str]) -> None:
    """Once the window is on the screen: set it up, offer what a crash left, open what is asked."""
    bench = window.furnish()
    bench.offer_leftovers()
    if arguments:
        bench.files.open_file(Path(arguments[0]))


def chosen_theme(settings: QSettings) -> Choice:
    """The colours chosen last time."""
    kept = str(settings.value("theme", Choice.SYSTEM.value))
    known = {choice.value: choice for choice in Choice}
    return known.get(kept, Choice.SYSTEM)
