"""Stage: a form bound to the plan. Typing makes a new plan; a new plan fills the form."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt, QTimer, Signal
from PySide6.QtGui import QShowEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QDoubleSpinBox, QFrame, QScrollArea, QWidget

from holeplacer.errors import HoleplacerError
from holeplacer.gui.form import Form, Row
from holeplacer.gui.length_field import LengthField
from holeplacer.gui.rail import StageState
from holeplacer.gui.session import Session
from holeplacer.units import format_length

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan

Read = Callable[["Plan"], float | None]
Write = Callable[["Plan", float | None], "Plan"]

_PAUSE_MS = 30
_REST_MS = 120


class Stage(QScrollArea):
    """One stage's form, scrolled if it is longer than the window.

    Forms follow the plan at most thirty times a second, so that a drag is never kept waiting.

    Attributes:
        state_changed: `state` may be another one: for the rail.
    """

    NAME = ""
    RULES: tuple[str, ...] = ()
    """Rules whose findings belong to this stage."""

    state_changed = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session = session
        self.form = Form()
        self._lengths: list[tuple[Row, LengthField, Read]] = []
        self._last_step: tuple[QWidget, Plan | None, int] | None = None
        self.setWidget(self.form)
        self.setWidgetResizable(True)
        self.form.setAutoFillBackground(False)  # the ground is the viewport's
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(_PAUSE_MS)
        self._timer.timeout.connect(self._refresh)
        for signal in (
            session.plan_changed,
            session.layout_changed,
            session.evaluation_changed,
            session.problem_changed,
            session.unit_changed,
            session.selection_changed,
            session.busy_changed,
        ):
            signal.connect(self.refresh_soon)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh_soon()  # what was not seen may have lagged behind

    # --- what a stage says and shows ---

    def state(self) -> StageState:
        """What the rail says of this stage."""
        raise NotImplementedError

    def show_plan(self, plan: Plan) -> None:
        """Fill the form's own parts from a plan; lengths are filled already."""
        raise NotImplementedError

    def open_findings(self) -> int:
        """How many of this stage's rules are broken; notes are not counted."""
        evaluation = self.session.evaluation
        if evaluation is None:
            return 0
        return sum(item.broken and item.rule in self.RULES for item in evaluation.findings)

    def refresh_soon(self) -> None:
        """Fill the form again once the present burst of changes is over, or a drag rests."""
        if self.session.plan is not self.session.committed:
            self._timer.start(_REST_MS)
        elif not self._timer.isActive() or self._timer.interval() != _PAUSE_MS:
            self._timer.start(_PAUSE_MS)

    def _refresh(self) -> None:
        plan = self.session.plan
        self.form.setEnabled(plan is not None)
        if plan is not None:
            for _row, field, read in self._lengths:
                field.set_unit(self.session.unit)
                field.set_mm(read(plan))
            self.show_plan(plan)
        self.state_changed.emit()

    # --- binding ---

    def length(
        self,
        name: str,
        read: Read,
        write: Write,
        *,
        least_mm: float = 0.0,
        most_mm: float = 1e5,
        step_mm: float = 1.0,
        empty: str | None = None,
    ) -> Row:
        """Add a length bound to the plan.

        Args:
            name: What it is; also names the undo step.
            read: Its value in a plan.
            write: The plan with another value.
            least_mm: Least value taken.
            most_mm: Greatest value taken.
            step_mm: One step of the arrows.
            empty: Shown where no value is given; None if one has to be.
        """
        field = LengthField(name, least_mm=least_mm, most_mm=most_mm, step_mm=step_mm, empty=empty)
        row = self.form.row(name, field)
        self._lengths.append((row, field, read))
        field.entered.connect(
            lambda value, stepped: self._write(row, field, name, write, value, stepped)
        )
        return row

    def push(self, plan: Plan, text: str, source: QWidget | None = None) -> None:
        """Commit a plan as one step; with a source, as one with its steps just before."""
        gesture = None if source is None else self._gesture_of(source)
        self.session.push(plan, text, gesture)
        if source is not None and gesture is not None:
            self._last_step = (source, self.session.committed, gesture)

    def shown(self, mm: float) -> str:
        """A length in the unit the person chose."""
        return format_length(mm, self.session.unit)

    def _write(
        self,
        row: Row,
        field: LengthField,
        name: str,
        write: Write,
        value: float | None,
        stepped: bool,
    ) -> None:
        plan = self.session.committed
        if plan is None:
            return
        try:
            changed = write(plan, value)
        except HoleplacerError as error:
            row.error.say(str(error))
            return
        row.error.say("")
        what = name[:1].lower() + name[1:]
        text = f"Clear {what}" if value is None else f"Set {what} to {self.shown(value)}"
        self.push(changed, text, field if stepped else None)

    def _gesture_of(self, source: QWidget) -> int:
        """Steps of one entry that follow one another are one gesture."""
        last = self._last_step
        if last is None or last[0] is not source or last[1] is not self.session.committed:
            return self.session.new_gesture()
        return last[2]


def show_number(spin: QDoubleSpinBox, value: float) -> None:
    """Show a number; text being typed is left alone, since its value is not taken yet."""
    if abs(spin.value() - value) > 0.5 * 10.0 ** -spin.decimals():
        with QSignalBlocker(spin):
            spin.setValue(value)


class Choice(QComboBox):
    """A list to choose from, each entry with a value behind it.

    Attributes:
        chosen: The person chose another entry: its value.
    """

    chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(8)
        self._entries: tuple[tuple[str, object], ...] = ()
        self.activated.connect(self._activated)

    def offer(self, entries: Iterable[tuple[str, object]], chosen: object) -> None:
        """Show these entries (text, value), one of them chosen."""
        entries = tuple(entries)
        with QSignalBlocker(self):
            if entries != self._entries:
                self._entries = entries
                self.clear()
                for row, (text, _value) in enumerate(entries):
                    self.addItem(text)
                    self.setItemData(row, text, Qt.ItemDataRole.ToolTipRole)
            values = [value for _text, value in entries]
            self.setCurrentIndex(values.index(chosen) if chosen in values else -1)

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()  # turning the wheel scrolls the form, it does not change the plan

    def _activated(self, row: int) -> None:
        self.chosen.emit(self._entries[row][1])
