"""Count chart: what one more standoff buys: the largest span by count of holes."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from holeplacer.gui.form import RHYTHM
from holeplacer.gui.theme import with_even_figures
from holeplacer.units import LengthUnit, format_length

CurvePoints = tuple[tuple[int, float], ...]
"""(count of holes, largest span in mm), by rising count."""

_HEIGHT = 17 * RHYTHM
_BOTTOM, _TOP, _RIGHT = 34, 20, 12
_DOT = 3.5
_CHOOSE = "Choose a point to have the best places for so many holes proposed."
_WHICH = " Dots: largest span, figures on the left. Diamonds: largest deflection, on the right."


class CountChart(QWidget):
    """Points that can be chosen by click or by arrow keys and Return.

    Attributes:
        chosen: A count of holes was chosen.
    """

    chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._points: CurvePoints = ()
        self._deflections: CurvePoints = ()
        self._unit = LengthUnit.MM
        self._limit_mm = 0.0
        self._present = 0
        self._at = 0
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Largest span by count of holes")
        self.setToolTip(_CHOOSE)

    def show_curve(
        self,
        points: CurvePoints,
        limit_mm: float,
        unit: LengthUnit,
        present: int,
        deflections: CurvePoints = (),
    ) -> None:
        """Show a curve.

        Args:
            points: Count of holes and largest span, mm.
            limit_mm: The spacing entered, drawn as a line.
            unit: What to show spans in.
            present: Count the plan has.
            deflections: Count of holes and largest deflection, mm; a second curve.
        """
        if (points, limit_mm, unit, present, deflections) == (
            self._points, self._limit_mm, self._unit, self._present, self._deflections,
        ):  # fmt: skip
            return
        self._deflections = deflections
        self.setToolTip(f"{_CHOOSE}{_WHICH if deflections else ''}")
        self._points, self._limit_mm = points, limit_mm
        self._unit, self._present = unit, present
        counts = [count for count, _span in points]
        self._at = counts.index(present) if present in counts else len(points) // 2
        self._describe()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(32 * RHYTHM, _HEIGHT)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and self._points:
            step = 1 if key == Qt.Key.Key_Right else -1
            self._go_to(min(max(self._at + step, 0), len(self._points) - 1))
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._points:
            self.chosen.emit(self._points[self._at][0])
        else:
            super().keyPressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._points:
            self._go_to(self._nearest(event.position().x()))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self._points and event.button() is Qt.MouseButton.LeftButton:
            self._go_to(self._nearest(event.position().x()))
            self.chosen.emit(self._points[self._at][0])

    def paintEvent(self, _event: QPaintEvent) -> None:
        if not self._points:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(with_even_figures(self.font()))
        self._paint_frame(painter)
        self._paint_deflections(painter)
        self._paint_curve(painter)

    def _paint_frame(self, painter: QPainter) -> None:
        quiet = self.palette().color(QPalette.ColorRole.PlaceholderText)
        box = self._box()
        painter.setPen(QPen(self.palette().color(QPalette.ColorRole.Mid), 1))
        painter.drawLine(box.bottomLeft(), box.bottomRight())
        painter.setPen(quiet)
        top, low = self._greatest(), self._least()
        for value in (top, low):
            text = format_length(value, self._unit)
            place = QRectF(0, self._y(value) - 10, box.left() - 8, 20)
            painter.drawText(
                place, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, text
            )
        ends = QRectF(box.left() - 20, box.bottom() + 4, box.width() + 32, 16)
        painter.drawText(ends, Qt.AlignmentFlag.AlignLeft, f"{self._points[0][0]} holes")
        painter.drawText(ends, Qt.AlignmentFlag.AlignRight, f"{self._points[-1][0]} holes")
        if low <= self._limit_mm <= top:
            painter.setPen(QPen(quiet, 1, Qt.PenStyle.DashLine))
            y = self._y(self._limit_mm)
            painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y))

    def _paint_curve(self, painter: QPainter) -> None:
        text = self.palette().color(QPalette.ColorRole.Text)
        accent = self.palette().color(QPalette.ColorRole.Highlight)
        places = [QPointF(self._x(count), self._y(span)) for count, span in self._points]
        painter.setPen(QPen(text, 1))
        painter.drawPolyline(QPolygonF(places))
        for index, ((count, _span), place) in enumerate(zip(self._points, places, strict=True)):
            painter.setBrush(accent if count == self._present else text)
            size = _DOT + (1.5 if index == self._at else 0)
            painter.drawEllipse(place, size, size)
        count, span = self._points[self._at]
        mark = " (now)" if count == self._present else ""
        shown = format_length(span, self._unit)
        said = f"{count} holes: largest span {shown}{mark}"
        given = dict(self._deflections).get(count)
        if given is not None:
            bare = shown.removesuffix(f" {self._unit.value}")
            said = f"{count} holes: span {bare}, deflection {format_length(given, self._unit)}"
        painter.setPen(text)
        painter.drawText(QRectF(0, 0, self.width(), _TOP), Qt.AlignmentFlag.AlignLeft, said)
        if self.hasFocus():
            painter.setPen(QPen(accent, 1))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))

    def _paint_deflections(self, painter: QPainter) -> None:
        """The second curve: dashed, with hollow diamonds, its figures on the right."""
        if not self._deflections:
            return
        quiet = self.palette().color(QPalette.ColorRole.PlaceholderText)
        box, top = self._box(), max(mm for _count, mm in self._deflections)
        places = [
            QPointF(self._x(count), box.bottom() - mm / top * box.height())
            for count, mm in self._deflections
        ]
        painter.setPen(QPen(quiet, 1, Qt.PenStyle.DashLine))
        painter.drawPolyline(QPolygonF(places))
        painter.setPen(QPen(quiet, 1))
        painter.setBrush(self.palette().color(QPalette.ColorRole.Window))
        for place in places:
            steps = ((0, -_DOT), (_DOT, 0), (0, _DOT), (-_DOT, 0))
            painter.drawPolygon(QPolygonF([place + QPointF(*step) for step in steps]))
        right = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        for value, y in ((top, box.top()), (0.0, box.bottom())):
            text = format_length(value, self._unit)
            painter.drawText(QRectF(box.right() + 6, y - 10, 80, 20), right, text)

    def _right_room(self) -> float:
        if not self._deflections:
            return _RIGHT
        metrics = QFontMetricsF(with_even_figures(self.font()))
        top = max(mm for _count, mm in self._deflections)
        return metrics.horizontalAdvance(format_length(top, self._unit)) + 2 * RHYTHM

    def _box(self) -> QRectF:
        left = self._label_width() + RHYTHM
        width = max(self.width() - left - self._right_room(), 1)
        return QRectF(left, _TOP + 6, width, self.height() - _TOP - _BOTTOM)

    def _label_width(self) -> float:
        metrics = QFontMetricsF(with_even_figures(self.font()))
        texts = (format_length(value, self._unit) for value in (self._least(), self._greatest()))
        return max(metrics.horizontalAdvance(text) for text in texts)

    def _greatest(self) -> float:
        return max(span for _count, span in self._points)

    def _least(self) -> float:
        return min(span for _count, span in self._points)

    def _x(self, count: int) -> float:
        first, last = self._points[0][0], self._points[-1][0]
        share = (count - first) / max(last - first, 1)
        return self._box().left() + share * self._box().width()

    def _y(self, span: float) -> float:
        low, top = self._least(), self._greatest()
        share = (span - low) / (top - low) if top > low else 0.5
        return self._box().bottom() - share * self._box().height()

    def _nearest(self, x: float) -> int:
        return min(
            range(len(self._points)), key=lambda index: abs(self._x(self._points[index][0]) - x)
        )

    def _go_to(self, index: int) -> None:
        if index != self._at:
            self._at = index
            self._describe()
            self.update()

    def _describe(self) -> None:
        if self._points:
            count, span = self._points[self._at]
            given = dict(self._deflections).get(count)
            deflection = (
                "" if given is None else f", largest deflection {format_length(given, self._unit)}"
            )
            self.setAccessibleDescription(
                f"{count} holes, largest span {format_length(span, self._unit)}{deflection}; "
                "Return proposes it"
            )
