"""Status line: what just happened, what is being worked on, counts, zoom, where the pointer is."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QLabel, QProgressBar, QPushButton, QStatusBar, QToolButton, QWidget

from holeplacer.gui.form import RHYTHM
from holeplacer.gui.session import Session
from holeplacer.gui.theme import with_even_figures
from holeplacer.units import MM_PER_INCH, LengthUnit, format_length

_NOTICE_MS = 8000


class StatusLine(QStatusBar):
    """The window's last line."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.setSizeGripEnabled(False)
        self._bar = QProgressBar()
        self._bar.setFixedSize(15 * RHYTHM, RHYTHM + 4)
        self._bar.setTextVisible(False)
        self._bar.setAccessibleName("Progress")
        self._work = QLabel()
        self._stop = QPushButton("Stop")
        self._stop.clicked.connect(session.cancel)
        self._counts = QLabel()
        self._zoom = QLabel()
        self._place = QLabel()
        self._unit = QToolButton()
        self._unit.setAutoRaise(True)
        self._unit.setToolTip("Show lengths in the other unit")
        self._unit.clicked.connect(self._other_unit)
        for label in (self._counts, self._zoom, self._place):
            label.setFont(with_even_figures(label.font()))
        # Of one size whatever they say: else every move of the pointer lays the window out anew.
        for label, widest in (
            (self._place, "x −88888.88 mm   y −88888.88 mm"),
            (self._counts, "888 holes   ▲ 888 findings"),
        ):
            label.setFixedSize(label.fontMetrics().size(0, widest) + QSize(RHYTHM, 0))
        for part in (
            self._work, self._bar, self._stop, self._counts, self._place, self._zoom, self._unit,
        ):  # fmt: skip
            self.addPermanentWidget(part)
        session.notice.connect(lambda text: self.showMessage(text, _NOTICE_MS))
        session.busy_changed.connect(self._show_work)
        session.evaluation_changed.connect(self._show_counts)
        session.plan_changed.connect(self._show_counts)
        session.unit_changed.connect(self._show_unit)
        self._show_work()
        self._show_counts()
        self._show_unit()

    def show_place(self, x_mm: float, y_mm: float) -> None:
        """The pointer is there."""
        unit = self._session.unit
        self._place.setText(f"x {format_length(x_mm, unit)}   y {format_length(y_mm, unit)}")

    def forget_place(self) -> None:
        """The pointer is elsewhere."""
        self._place.setText("")

    def show_scale(self, px_per_mm: float) -> None:
        """The canvas shows so many pixels a millimetre."""
        true_size = self.logicalDpiX() / MM_PER_INCH
        share = 100 * px_per_mm / true_size
        self._zoom.setText(f"zoom {share:.0f} %" if share >= 10 else f"zoom {share:.1f} %")

    def _show_work(self) -> None:
        busy, share = self._session.busy, self._session.progress
        for part in (self._work, self._bar, self._stop):
            part.setVisible(bool(busy))
        self._stop.setVisible(self._session.evaluator.can_stop)
        self._work.setText(f"{busy} …" if busy else "")
        if busy:
            self._bar.setRange(0, 0 if share is None else 1000)
            self._bar.setValue(0 if share is None else round(1000 * share))

    def _show_counts(self) -> None:
        plan, evaluation = self._session.plan, self._session.evaluation
        if plan is None:
            self._counts.setText("")
            return
        holes = "1 hole" if len(plan.holes) == 1 else f"{len(plan.holes)} holes"
        if evaluation is None or not plan.holes:
            self._counts.setText(holes if plan.holes else "no holes yet")
            return
        broken = evaluation.broken
        found = "1 finding" if broken == 1 else f"{broken} findings"
        self._counts.setText(f"{holes}   ▲ {found}" if broken else f"{holes}   ✓ no findings")

    def _show_unit(self) -> None:
        inch = self._session.unit is LengthUnit.INCH
        self._unit.setText("inches" if inch else "millimetres")
        self._unit.setAccessibleName("Lengths in inches" if inch else "Lengths in millimetres")
        self.forget_place()

    def _other_unit(self) -> None:
        inch = self._session.unit is LengthUnit.INCH
        self._session.set_unit(LengthUnit.MM if inch else LengthUnit.INCH)
