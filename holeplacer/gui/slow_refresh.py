"""Slow refresh: a table follows the session when it can be seen, and a drag once it rests."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QWidget

from holeplacer.gui.session import Session

_PAUSE_MS = 30
_REST_MS = 120


class SlowRefresh(QObject):
    """Calls a widget's refresh after a change, at most some thirty times a second.

    What can't be seen is refreshed when it is shown.
    """

    def __init__(self, session: Session, refresh: Callable[[], None]) -> None:
        owner = getattr(refresh, "__self__", None)
        if not isinstance(owner, QWidget):
            raise TypeError("a method of a widget is refreshed")
        super().__init__(owner)
        self._session, self._owner, self._refresh = session, owner, refresh
        self._late = True
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._now)
        for signal in (session.plan_changed, session.evaluation_changed, session.unit_changed):
            signal.connect(self.soon)
        owner.installEventFilter(self)

    def soon(self) -> None:
        """Refresh once the present burst of changes is over."""
        self._late = True
        if not self._owner.isVisible():
            return
        if self._session.plan is not self._session.committed:
            self._timer.start(_REST_MS)
        elif not self._timer.isActive() or self._timer.interval() != _PAUSE_MS:
            self._timer.start(_PAUSE_MS)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self._owner and event.type() == QEvent.Type.Show and self._late:
            self._now()
        return False

    def _now(self) -> None:
        self._late = False
        self._refresh()
