"""Rail: the stages of the job in order, each with its main figure and whether something is open."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRect, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPalette, QPolygonF
from PySide6.QtWidgets import (
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from holeplacer.gui.form import RHYTHM
from holeplacer.gui.theme import with_even_figures

WIDTH = 200
_ENTRY_HEIGHT = 9 * RHYTHM
_STATE = Qt.ItemDataRole.UserRole
_MARK = 9


@dataclass(frozen=True)
class StageState:
    """What the rail says of one stage.

    Attributes:
        name: The stage.
        figure: One line: its main figure, with unit.
        open_count: How many findings or questions wait there.
        open_word: What waits, such as `finding` or `question`.
        ready: Whether there is anything to say yet.
    """

    name: str
    figure: str = ""
    open_count: int = 0
    open_word: str = "finding"
    ready: bool = False

    @property
    def word(self) -> str:
        """The state in words; the mark beside it says the same by its shape."""
        if self.open_count:
            plural = "" if self.open_count == 1 else "s"
            return f"{self.open_count} {self.open_word}{plural}"
        return "nothing open" if self.ready else ""


class Rail(QListWidget):
    """One entry per stage; the chosen one's form is shown.

    Attributes:
        chosen: Number of the stage the person chose.
    """

    chosen = Signal(int)

    def __init__(self, names: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Stages of the job")
        self.setItemDelegate(_EntryDelegate(self))
        self.setFixedWidth(WIDTH)
        self.setFrameShape(QListWidget.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.viewport().setBackgroundRole(QPalette.ColorRole.Window)
        for name in names:
            item = QListWidgetItem(name)
            item.setSizeHint(QSize(WIDTH, _ENTRY_HEIGHT))
            self.addItem(item)
        self.show_states(tuple(StageState(name) for name in names))
        self.setCurrentRow(0)
        self.currentRowChanged.connect(self.chosen)

    def show_states(self, states: tuple[StageState, ...]) -> None:
        """Show what each stage is at, in order."""
        for row, state in enumerate(states):
            item = self.item(row)
            if item.data(_STATE) == state:
                continue
            item.setData(_STATE, state)
            spoken = ", ".join(part for part in (state.name, state.figure, state.word) if part)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
            item.setToolTip(f"{state.figure}\n{state.word}".strip())

    def sizeHint(self) -> QSize:
        return QSize(WIDTH, self.count() * _ENTRY_HEIGHT)


class _EntryDelegate(QStyledItemDelegate):
    """Paints an entry: name, figure, mark and word."""

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        del option, index
        return QSize(WIDTH, _ENTRY_HEIGHT)

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        state = index.data(_STATE)
        colours, box = option.palette, option.rect
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        if chosen:
            painter.fillRect(box, colours.color(QPalette.ColorRole.Base))
            bar = QRect(box.left(), box.top(), RHYTHM // 2, box.height())
            painter.fillRect(bar, colours.color(QPalette.ColorRole.Highlight))
        if option.state & QStyle.StateFlag.State_HasFocus and chosen:
            painter.setPen(colours.color(QPalette.ColorRole.Highlight))
            painter.drawRect(box.adjusted(0, 0, -1, -1))
        inner = box.adjusted(2 * RHYTHM, RHYTHM, -RHYTHM, -RHYTHM)
        line = inner.height() // 3
        bold = with_even_figures(option.font)
        bold.setBold(True)
        painter.setFont(bold)
        painter.setPen(colours.color(QPalette.ColorRole.Text))
        painter.drawText(inner, Qt.AlignmentFlag.AlignTop, state.name)
        painter.setFont(with_even_figures(option.font))
        painter.setPen(colours.color(QPalette.ColorRole.PlaceholderText))
        _draw_elided(painter, inner.adjusted(0, line, 0, 0), state.figure)
        _draw_state(painter, inner.adjusted(0, 2 * line, 0, 0), state, colours)
        painter.restore()


def _draw_elided(painter: QPainter, box: QRect, text: str) -> None:
    metrics = QFontMetrics(painter.font())
    shown = metrics.elidedText(text, Qt.TextElideMode.ElideRight, box.width())
    painter.drawText(box, Qt.AlignmentFlag.AlignTop, shown)


def _draw_state(painter: QPainter, box: QRect, state: StageState, colours: QPalette) -> None:
    """A triangle where something is open, a tick where nothing is, and the word."""
    if not state.word:
        return
    role = QPalette.ColorRole.BrightText if state.open_count else QPalette.ColorRole.PlaceholderText
    colour = colours.color(role)
    painter.setPen(colour)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    height = QFontMetrics(painter.font()).height()
    left, top = box.left(), box.top() + (height - _MARK) / 2
    if state.open_count:
        painter.setBrush(colour)
        corners = ((0, _MARK), (_MARK, _MARK), (_MARK / 2, 0))
        painter.drawPolygon(QPolygonF([QPointF(left + x, top + y) for x, y in corners]))
    else:
        tick = ((0, _MARK * 0.55), (_MARK * 0.4, _MARK * 0.95), (_MARK, _MARK * 0.1))
        painter.drawPolyline(QPolygonF([QPointF(left + x, top + y) for x, y in tick]))
    _draw_elided(painter, box.adjusted(_MARK + RHYTHM - 2, 0, 0, 0), state.word)
