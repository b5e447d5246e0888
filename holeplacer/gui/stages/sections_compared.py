"""Compared: the plan's division beside the two usual ones, to look at and to take."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelection, QObject, QSignalBlocker, Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QPushButton, QSizePolicy, QTableView

from holeplacer.gui.divider import Divider
from holeplacer.gui.form import RHYTHM, quiet
from holeplacer.gui.row_table import Index, RowModel
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.stages.stage import Stage
from holeplacer.units import LengthUnit, format_length

if TYPE_CHECKING:
    from holeplacer.cutting.cut_figures import CutFigures
    from holeplacer.cutting.division import Division
    from holeplacer.gui.session import Session
    from holeplacer.plan.plan import Plan
    from holeplacer.seams.alternatives import Alternative

YOURS = "yours"
ROWS = (
    "Seams", "Weld", "Sections", "Sheets", "Scrap", "Cut length", "Pierces", "Cutting",
    "Welding", "Too near", "Fit no sheet",
)  # fmt: skip
_UNKNOWN = "–"
_SHORT = {"straight split": "straight", "letters singly": "letters"}


@dataclass(frozen=True)
class Way:
    """One way to divide the sign, as its column says it.

    Attributes:
        name: What it is called; `yours` for the plan's own.
        figures: One per row.
        bad: Rows whose figure breaks a rule.
    """

    name: str
    figures: tuple[str, ...]
    bad: frozenset[int] = frozenset()


class WayModel(RowModel):
    """Figures as rows, ways as columns.

    Attributes:
        ways: One per column.
    """

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__((), parent)
        self.ways: tuple[Way, ...] = ()
        self.rows: tuple[str, ...] = ROWS

    def show_ways(self, ways: tuple[Way, ...]) -> None:
        """Show other figures; the columns stay where they are if their names do."""
        if ways == self.ways:
            return
        if [way.name for way in ways] == [way.name for way in self.ways]:
            self.ways = ways
            self.tell_changed(0, len(ROWS) - 1)
            return
        self.beginResetModel()
        self.ways = ways
        self.titles = tuple(_SHORT.get(way.name, way.name) for way in ways)
        self.endResetModel()

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        if orientation is Qt.Orientation.Vertical and role == Qt.ItemDataRole.DisplayRole:
            return ROWS[section]
        return super().headerData(section, orientation, role)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        way, row = self.ways[index.column()], index.row()
        if role == Qt.ItemDataRole.DisplayRole:
            return f"▲ {way.figures[row]}" if row in way.bad else way.figures[row]
        if role == Qt.ItemDataRole.AccessibleTextRole:
            broken = ", breaks a rule" if row in way.bad else ""
            return f"{way.name}, {ROWS[row]}: {way.figures[row]}{broken}"
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.FontRole and row in way.bad:
            font = QFont()
            font.setBold(True)
            return font
        return None


class ComparedGroup(QObject):
    """Rows of a form: the table, and the act that takes the way looked at."""

    def __init__(self, stage: Stage, divider: Divider) -> None:
        super().__init__(stage)
        self._stage, self._divider = stage, divider
        self._shown = SectionsShown.of(stage.session)
        self._heading = stage.form.heading("Beside other ways")
        self.model = WayModel(self)
        self.view = _view(self.model)
        stage.form.wide(self.view)
        self._told = quiet()
        stage.form.wide(self._told)
        self.take = QPushButton()
        stage.form.wide(self.take)
        self.view.selectionModel().selectionChanged.connect(self._look)
        self.take.clicked.connect(self._take)
        self._shown.changed.connect(self._follow)

    def show_plan(self, plan: Plan) -> None:
        """Show the figures of a plan and of the other ways."""
        compared = self._divider.compared
        seen = bool(plan.sections.stock) and (bool(compared) or self._divider.last is not None)
        for part in (self._heading, self.view):
            part.setVisible(seen)
        ways = [_own(self._stage.session, plan, self._divider.division)] if seen else []
        unit = self._stage.session.unit
        ways += [_other(plan, item.way, item.division, unit) for item in compared]
        self.model.show_ways(tuple(ways))
        self._fit()
        self._follow()

    def _fit(self) -> None:
        head = self.view.horizontalHeader().sizeHint().height()
        each = self.view.verticalHeader().defaultSectionSize()
        self.view.setFixedHeight(head + len(ROWS) * each + 2 * self.view.frameWidth())

    def _look(self, selected: QItemSelection) -> None:
        columns = {index.column() for index in selected.indexes()}
        name = self.model.ways[min(columns)].name if columns else YOURS
        for item in self._divider.compared:
            if item.way.name == name:
                self._shown.look_at(name, item.way.seams)
                return
        self._shown.look_at("", ())

    def _follow(self) -> None:
        """Column, words and button as what is looked at has them."""
        name = self._shown.looked_at
        names = [way.name for way in self.model.ways]
        if not name and self.view.selectionModel().hasSelection():
            with QSignalBlocker(self.view.selectionModel()):
                self.view.clearSelection()
            self.view.viewport().update()
        self.take.setVisible(name in names)
        self.take.setText(f"Take these seams ({name})")
        more = len(names) > 1
        self._told.say(
            "Its seams are drawn dashed on the sign." if name
            else "Choose a column to see its seams on the sign." if more else ""
        )  # fmt: skip

    def _take(self) -> None:
        self._divider.take(self._shown.looked_at)


def _own(session: Session, plan: Plan, division: Division | None) -> Way:
    from holeplacer.seams import seams, sections

    layout, unit = session.layout, session.unit
    if layout is None:
        return Way(YOURS, (_UNKNOWN,) * len(ROWS))
    weld = float(sections.weld_lengths(layout.outline, plan.seams).sum())
    parts = sections.sections(layout.outline, plan.seams)
    near = seams.too_near(plan, layout.axis, plan.seams)
    misfits = len(seams.misfits(plan.sections, parts))
    return _way(YOURS, plan, (len(plan.seams), weld, len(parts), near, misfits), division, unit)


def _other(plan: Plan, way: Alternative, division: Division, unit: LengthUnit) -> Way:
    facts = (len(way.seams), way.weld_mm, way.sections, way.too_near, way.misfits)
    return _way(way.name, plan, facts, division, unit)


def _way(
    name: str, plan: Plan, facts: tuple[int, float, int, int, int], division: Division | None,
    unit: LengthUnit,
) -> Way:  # fmt: skip
    count, weld, sections, near, misfits = facts
    bad = {ROWS.index("Too near")} if near else set()
    bad |= {ROWS.index("Fit no sheet")} if misfits else set()
    whole = None if division is None else division.whole
    feed = plan.sections.feeds.weld_mm_min
    figures = (
        str(count),
        long_words(weld, unit),
        str(sections),
        *_cut_words(division, whole, unit),
        _UNKNOWN if feed is None else minutes_words(weld / feed),
        str(near),
        str(misfits),
    )
    return Way(name, figures, frozenset(bad))


def _cut_words(
    division: Division | None, whole: CutFigures | None, unit: LengthUnit
) -> tuple[str, str, str, str, str]:
    """Sheets, scrap, cut length, pierces and time."""
    if division is None or division.layout is None or whole is None:
        return (_UNKNOWN,) * 5
    minutes = whole.minutes
    return (
        str(len(division.layout.sheets)),
        f"{100 * whole.scrap_share:.0f} %",
        long_words(whole.cut_mm, unit),
        str(whole.pierces),
        _UNKNOWN if minutes is None else minutes_words(minutes),
    )


def long_words(mm: float, unit: LengthUnit) -> str:
    """A long length for reading: metres or feet from one on."""
    if unit is LengthUnit.INCH:
        feet = mm / 304.8
        return f"{feet:.1f} ft" if feet >= 1 else format_length(mm, unit)
    return f"{mm / 1000:.2f} m" if mm >= 1000 else f"{mm:.0f} mm"


def minutes_words(minutes: float) -> str:
    """A rough time: `12 min`, `1 h 20`."""
    if minutes < 1:
        return f"{60 * minutes:.0f} s"
    if minutes < 60:
        return f"{minutes:.0f} min"
    hours, rest = divmod(round(minutes), 60)
    return f"{hours} h {rest:02d}"


def _view(model: WayModel) -> QTableView:
    view = QTableView()
    view.setModel(model)
    view.setAccessibleName("Ways to divide the sign")
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectColumns)
    view.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    view.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
    view.setTabKeyNavigation(False)
    view.setWordWrap(False)
    view.verticalHeader().setDefaultSectionSize(3 * RHYTHM)
    view.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
    return view
