"""Form: labelled rows on an eight-pixel rhythm, each with its limit or source, and its error."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import (
    QApplication,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QToolButton,
    QWidget,
)

from holeplacer.gui.theme import with_seen_edges

RHYTHM = 8
_LABEL_WIDTH = 112


class WrappedLabel(QLabel):
    """Words that wrap; hidden while empty."""

    def __init__(self, text: str = "", role: QPalette.ColorRole | None = None) -> None:
        super().__init__(text)
        self.setWordWrap(True)
        self.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        if role is not None:
            self.setForegroundRole(role)
        if not text:
            self.hide()

    def say(self, text: str) -> None:
        """Show these words, or nothing."""
        if text != self.text():
            self.setText(text)
        self.setVisible(bool(text))


def quiet(text: str = "") -> WrappedLabel:
    """Words that explain: a limit, a source, what a value does."""
    return WrappedLabel(text, QPalette.ColorRole.PlaceholderText)


class ErrorLine(WrappedLabel):
    """What is wrong, in place: a triangle and a sentence."""

    def __init__(self) -> None:
        super().__init__("", QPalette.ColorRole.BrightText)

    def say(self, text: str) -> None:
        """Show this sentence, or nothing."""
        super().say(f"▲ {text}" if text else "")


class PrimaryButton(QPushButton):
    """The one act of a stage: filled with the accent."""

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self._colour()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._colour()

    def _colour(self) -> None:
        common = QApplication.palette()
        own = QPalette()  # with nothing set, so that all but these two follows the window
        group, role = QPalette.ColorGroup, QPalette.ColorRole
        for state in (group.Active, group.Inactive):
            own.setColor(state, role.Button, common.color(state, role.Highlight))
            own.setColor(state, role.ButtonText, common.color(state, role.HighlightedText))
        if own.color(role.Button) != self.palette().color(role.Button):
            self.setPalette(own)


class ActButton(QPushButton):
    """A button whose words wrap."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.setAccessibleName(text)
        self._words = QLabel(text)
        self._words.setWordWrap(True)
        self._words.setForegroundRole(QPalette.ColorRole.ButtonText)
        self._words.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._inside = QHBoxLayout(self)
        self._inside.setContentsMargins(RHYTHM, RHYTHM // 2, RHYTHM, RHYTHM // 2)
        self._inside.addWidget(self._words)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)

    @property
    def words(self) -> str:
        """What it says."""
        return self._words.text()

    def sizeHint(self) -> QSize:
        return self._inside.totalSizeHint()

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._inside.totalHeightForWidth(width)


class Disclosure(QToolButton):
    """A line that unfolds what stands below it."""

    def __init__(self, text: str, content: QWidget) -> None:
        super().__init__()
        self._content = content
        self.setText(text)
        self.setCheckable(True)
        self.setAutoRaise(True)
        self.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.toggled.connect(self._unfold)
        self._unfold(False)

    def _unfold(self, unfolded: bool) -> None:
        self.setArrowType(Qt.ArrowType.DownArrow if unfolded else Qt.ArrowType.RightArrow)
        self._content.setVisible(unfolded)


class Row:
    """One labelled entry with what stands below it.

    Attributes:
        label: Its name.
        entry: The widget.
        note: The limit or source, quiet.
        error: Why what was typed is not taken.
    """

    def __init__(self, label: QLabel, entry: QWidget, note: WrappedLabel, error: ErrorLine) -> None:
        self.label, self.entry, self.note, self.error = label, entry, note, error
        self._noted = bool(note.text())

    def say(self, note: str) -> None:
        """Put the limit or source below it."""
        self._noted = bool(note)
        self.note.say(note)

    def show(self, shown: bool) -> None:
        """Show or hide the whole row."""
        for part in (self.label, self.entry):
            part.setVisible(shown)
        self.note.setVisible(shown and self._noted)
        self.error.setVisible(shown and bool(self.error.text()))


class Form(QWidget):
    """Rows below one another under headings."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(2 * RHYTHM, RHYTHM, 2 * RHYTHM, RHYTHM)
        self._grid.setHorizontalSpacing(RHYTHM)
        self._grid.setVerticalSpacing(RHYTHM // 2)
        self._grid.setColumnMinimumWidth(0, _LABEL_WIDTH)
        self._grid.setColumnStretch(1, 1)
        self._next = 0
        self._draw_edges()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._draw_edges()

    def _draw_edges(self) -> None:
        own, role = with_seen_edges(QApplication.palette()), QPalette.ColorRole.Window
        if own.color(role) != self.palette().color(role):
            self.setPalette(own)

    def heading(self, text: str) -> QLabel:
        """Begin a group."""
        label = QLabel(text)
        font = label.font()
        font.setBold(True)
        label.setFont(font)
        label.setContentsMargins(0, RHYTHM if self._next else 0, 0, 0)
        self.wide(label)
        return label

    def row(self, name: str, entry: QWidget, note: str = "") -> Row:
        """Add a labelled entry.

        Args:
            name: What it is; also read out by screen readers.
            entry: The widget; if it has a signal `refused`, its sentence is told here.
            note: The limit or source.
        """
        label = QLabel(name)
        label.setWordWrap(True)
        label.setBuddy(entry)
        if not entry.accessibleName():
            entry.setAccessibleName(name)
        row = Row(label, entry, quiet(note), ErrorLine())
        self._grid.addWidget(label, self._next, 0, Qt.AlignmentFlag.AlignVCenter)
        self._grid.addWidget(entry, self._next, 1)
        self._grid.addWidget(row.note, self._next + 1, 0, 1, 2)
        self._grid.addWidget(row.error, self._next + 2, 0, 1, 2)
        self._next += 3
        refused = getattr(entry, "refused", None)
        if refused is not None:
            refused.connect(row.error.say)
        return row

    def wide(self, widget: QWidget) -> None:
        """Add a widget over the whole width."""
        self._grid.addWidget(widget, self._next, 0, 1, 2)
        self._next += 1

    def side_by_side(self, *widgets: QWidget) -> QWidget:
        """Add widgets beside one another, of equal width."""
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(RHYTHM)
        for widget in widgets:
            row.addWidget(widget, 1)
        self.wide(line)
        return line

    def end(self) -> None:
        """Keep all rows at the top."""
        self._grid.setRowStretch(self._next, 1)
