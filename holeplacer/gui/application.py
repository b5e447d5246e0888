"""Application: starts the window, opens what was asked for, and ends."""

from __future__ import annotations

import signal
import sys
from pathlib import Path

from PySide6.QtCore import QSettings, QTimer
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
    signal.signal(signal.SIGINT, lambda *_: app.quit())
    QTimer.singleShot(0, window, lambda: begin(window, arguments))
    return app.exec()


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
