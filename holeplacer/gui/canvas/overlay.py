"""Overlay: marks and stretches drawn over the sign, made once for canvas and ribbon."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from holeplacer.gui.session import Session

if TYPE_CHECKING:
    from holeplacer.gui.canvas.hole_symbol import HoleMark
    from holeplacer.gui.canvas.stretches import Stretch, Stretches


class Overlay(QObject):
    """What views draw of the holes; there is one for each session.

    Attributes:
        changed: `marks` or `stretches` are others.
    """

    changed = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        self.marks: tuple[HoleMark, ...] = ()
        self.stretches: tuple[Stretch, ...] = ()
        self._finder: Stretches | None = None
        # A plan may change without an evaluation following at once (a worker makes its outline).
        self._lag = QTimer(self)
        self._lag.setSingleShot(True)
        self._lag.setInterval(0)
        self._lag.timeout.connect(self._refresh)
        session.plan_changed.connect(self._lag.start)
        session.evaluation_changed.connect(self._refresh)
        session.selection_changed.connect(self._remark)
        session.unit_changed.connect(self._refresh)
        self._refresh()

    @staticmethod
    def of(session: Session) -> Overlay:
        """The overlay of a session."""
        for child in session.children():
            if isinstance(child, Overlay):
                return child
        return Overlay(session)

    def _refresh(self) -> None:
        self._lag.stop()
        layout, evaluation = self._session.layout, self._session.evaluation
        if layout is None or evaluation is None:
            self.stretches = ()
        else:
            if self._finder is None:
                from holeplacer.gui.canvas.stretches import Stretches  # not with the window

                self._finder = Stretches()
            self.stretches = self._finder.broken(layout, evaluation, self._session.unit)
        self._remark()

    def _remark(self) -> None:
        session = self._session
        self.marks = ()
        if session.plan is not None:
            from holeplacer.gui.canvas.marks import hole_marks

            self.marks = hole_marks(
                session.plan, session.evaluation, session.selected_holes, session.unit
            )
        self.changed.emit()
