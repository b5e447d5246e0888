"""A canvas on the screen, and what tests do with its pointer."""

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication

from holeplacer.gui.canvas.view import CanvasView


class Hand:
    """A pointer over one widget: places on the sign in, mouse events out."""

    def __init__(self, view):
        self.view = view
        self.target = view.viewport()

    def px(self, place):
        return self.view.mapFromScene(QPointF(*place))

    def send(self, kind, px, *, button=Qt.MouseButton.NoButton, held=None, keys=None):
        held = Qt.MouseButton.NoButton if held is None else held
        keys = Qt.KeyboardModifier.NoModifier if keys is None else keys
        at = QPointF(px)
        event = QMouseEvent(kind, at, self.target.mapToGlobal(at), button, held, keys)
        QApplication.sendEvent(self.target, event)
        QApplication.processEvents()

    def press(self, px, button=Qt.MouseButton.LeftButton, keys=None):
        self.send(QEvent.Type.MouseButtonPress, px, button=button, held=button, keys=keys)

    def move(self, px, held=Qt.MouseButton.LeftButton, keys=None):
        self.send(QEvent.Type.MouseMove, px, held=held, keys=keys)

    def release(self, px, button=Qt.MouseButton.LeftButton, keys=None):
        self.send(QEvent.Type.MouseButtonRelease, px, button=button, keys=keys)

    def drag(self, start, end, *, button=Qt.MouseButton.LeftButton, keys=None, steps=6):
        """Press at one pixel, move in steps, let go at another."""
        self.press(start, button, keys)
        for step in range(1, steps + 1):
            share = step / steps
            self.move(start + (end - start) * share, button, keys)
        self.release(end, button, keys)

    def click(self, px, keys=None):
        self.press(px, keys=keys)
        self.release(px, keys=keys)


@pytest.fixture
def canvas(qtbot, session, theme):
    """The canvas, 900 x 500 pixels, all of the sign in sight."""
    view = CanvasView(session, theme)
    qtbot.addWidget(view)
    view.resize(900, 500)
    with qtbot.waitExposed(view):
        view.show()
    view.fit()
    QApplication.processEvents()
    return view


@pytest.fixture
def hand(canvas):
    """The pointer over the canvas."""
    return Hand(canvas)


@pytest.fixture
def holes(session):
    """Places of the holes by number, as the committed plan has them."""

    def places():
        return {hole.number: (hole.x_mm, hole.y_mm) for hole in session.committed.holes}

    return places
