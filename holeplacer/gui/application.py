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
    app.setApplicationName(NAME)
    app.setApplicationDisplayName(NAME)
    app.setOrganizationName(NAME)
    settings = QSettings()
    theme = Theme(app, chosen_theme(settings))
    window = MainWindow(theme, settings)
    window.show()
    signal.signal(signal.SIGINT, lambda *_: app.quit())
    QTimer.singleShot(0, window, lambda: begin(window, arguments))
    return app.exec()


def begin(window: MainWindow, arguments: list[str]) -> None:
    """Once the window is on the screen: offer what a crash left, open what was asked for."""
    window.offer_leftovers()
    if arguments:
        window.open_file(Path(arguments[0]))


def chosen_theme(settings: QSettings) -> Choice:
    """The colours chosen last time."""
    kept = str(settings.value("theme", Choice.SYSTEM.value))
    known = {choice.value: choice for choice in Choice}
    return known.get(kept, Choice.SYSTEM)
