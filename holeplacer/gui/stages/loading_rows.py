"""Loading rows: rows of a form, each bound to one figure of what the person decided about loads."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QSignalBlocker
from PySide6.QtWidgets import QCheckBox, QWidget

from holeplacer.errors import HoleplacerError
from holeplacer.gui.form import Row
from holeplacer.gui.quantity_field import QuantityField
from holeplacer.gui.stages.stage import Choice, Stage

if TYPE_CHECKING:
    from holeplacer.gui.quantity_kind import QuantityKind
    from holeplacer.loads.loading import Loading
    from holeplacer.plan.plan import Plan

When = Callable[["Loading"], bool]
Entries = Iterable[tuple[str, object]]


@dataclass(frozen=True)
class _Bound:
    """A row, when it is of use, and how it is filled."""

    row: Row
    when: When
    fill: Callable[[Loading], None]


def _always(_loading: Loading) -> bool:
    return True


class LoadingRows(QObject):
    """Makes rows on a stage's form, fills them from the plan and hides those of no use now."""

    def __init__(self, stage: Stage) -> None:
        super().__init__(stage)
        self._stage = stage
        self._bound: list[_Bound] = []
        self._headings: list[tuple[QWidget, When]] = []

    def show_plan(self, plan: Plan) -> None:
        """Fill every row; hide those that don't matter for this loading."""
        for bound in self._bound:
            seen = bound.when(plan.loading)
            bound.row.show(seen)
            if seen:
                bound.fill(plan.loading)
        for widget, when in self._headings:
            widget.setVisible(when(plan.loading))

    def only_when(self, widget: QWidget, when: When) -> None:
        """Hide a widget where it is of no use."""
        self._headings.append((widget, when))

    def quantity(
        self, name: str, path: str, kind: QuantityKind, *, empty: str | None = None,
        note: str = "", when: When = _always,
    ) -> Row:  # fmt: skip
        """Add a figure with its unit; `path` is its attribute, such as `asce7.kz`."""
        field = QuantityField(name, kind, empty=empty)
        row = self._stage.form.row(name, field, note)

        def entered(value: float | None) -> None:
            unit = self._stage.session.unit
            self._write(row, path, value, _step_name(name, value, lambda v: kind.show(v, unit)))

        field.entered.connect(entered)

        def fill(loading: Loading) -> None:
            field.set_value(read(loading, path), self._stage.session.unit)

        self._bound.append(_Bound(row, when, fill))
        return row

    def length(
        self, name: str, path: str, *, most_mm: float = 1e6, step_mm: float = 100.0,
        least_mm: float = 0.0, empty: str | None = None, note: str = "", when: When = _always,
    ) -> Row:  # fmt: skip
        """Add a length."""

        def write(plan: Plan, mm: float | None) -> Plan:
            return changed(plan, path, mm)

        row = self._stage.length(
            name, lambda plan: read(plan.loading, path), write,
            least_mm=least_mm, most_mm=most_mm, step_mm=step_mm, empty=empty,
        )  # fmt: skip
        row.say(note)
        self._bound.append(_Bound(row, when, lambda _loading: None))
        return row

    def choice(
        self, name: str, path: str, entries: Entries, *, note: str = "", when: When = _always
    ) -> Row:
        """Add a list to choose from."""
        offered = tuple(entries)
        field = Choice()
        row = self._stage.form.row(name, field, note)

        def chosen(value: object) -> None:
            text = next(text for text, one in offered if one == value)
            what = name[:1].lower() + name[1:]
            self._write(row, path, value, f"Choose {what}: {text}")

        field.chosen.connect(chosen)

        def fill(loading: Loading) -> None:
            field.offer(offered, read(loading, path))

        self._bound.append(_Bound(row, when, fill))
        return row

    def tick(
        self, name: str, path: str, words: str, *, note: str = "", when: When = _always
    ) -> Row:
        """Add a box to tick."""
        box = QCheckBox(words)
        row = self._stage.form.row(name, box, note)
        what = name[:1].lower() + name[1:]

        def toggled(on: bool) -> None:
            self._write(row, path, on, f"{'Count' if on else 'Leave out'} {what}")

        def fill(loading: Loading) -> None:
            with QSignalBlocker(box):
                box.setChecked(bool(read(loading, path)))

        box.toggled.connect(toggled)
        self._bound.append(_Bound(row, when, fill))
        return row

    def _write(self, row: Row, path: str, value: object, text: str) -> None:
        plan = self._stage.session.committed
        if plan is None:
            return
        try:
            made = changed(plan, path, value)
        except HoleplacerError as error:
            row.error.say(str(error))
            return
        row.error.say("")
        self._stage.push(made, text)


def read(loading: Loading, path: str) -> Any:
    """The figure at a path, such as `asce7.kz`; None where a part on the way is not there."""
    part: Any = loading
    for name in path.split("."):
        part = getattr(part, name, None)
    return part


def changed(plan: Plan, path: str, value: object) -> Plan:
    """The plan with another figure at a path.

    Raises:
        InputError: The figure can't be meant.
    """
    from holeplacer.loads import validity
    from holeplacer.plan import edit

    loading = _replaced(plan.loading, path.split("."), value)
    return edit.with_loading(plan, validity.checked(loading))


def _replaced(part: Any, path: list[str], value: object) -> Any:
    first, *rest = path
    return replace(part, **{first: _replaced(getattr(part, first), rest, value) if rest else value})


def _step_name(name: str, value: float | None, show: Callable[[float], str]) -> str:
    what = name[:1].lower() + name[1:]
    return f"Clear {what}" if value is None else f"Set {what} to {show(value)}"
