"""Import account as a list: all that was read, mended and ignored; entries with a place jump.

Entries that say the same are one line with their number; unfolded it lists their places.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHeaderView, QTreeWidget, QTreeWidgetItem, QWidget

from holeplacer.gui.form import RHYTHM

if TYPE_CHECKING:
    from holeplacer.artwork.account import Entry, ImportAccount

_PLACE = Qt.ItemDataRole.UserRole
_MOST_HEIGHT = 30 * RHYTHM


class AccountList(QTreeWidget):
    """Three groups: read, mended, ignored; a fourth for what offset and bosses changed.

    Attributes:
        place_wanted: An entry with a place was chosen: x, y in mm.
    """

    place_wanted = Signal(float, float)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("What was read, mended and ignored")
        self.setHeaderLabels(("What", "Count"))
        self.setRootIsDecorated(True)
        self.setWordWrap(True)
        self.setIndentation(2 * RHYTHM)
        header = self.header()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        self._shown: tuple[ImportAccount, tuple[Entry, ...]] | None = None
        self.itemActivated.connect(self._jump)
        self.itemClicked.connect(self._jump)
        self.itemExpanded.connect(self._fit)
        self.itemCollapsed.connect(self._fit)

    def show_account(self, account: ImportAccount, changes: tuple[Entry, ...]) -> None:
        """Show an account, and what was changed afterwards."""
        if self._shown is not None and self._shown == (account, changes):
            return
        self._shown = (account, changes)
        self.clear()
        self._group("Read", account.read)
        self._group("Mended", account.mended)
        self._group("Ignored", account.ignored)
        if changes:
            self._group("Changed by offset and bosses", changes)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._fit()

    def _group(self, name: str, entries: tuple[Entry, ...]) -> None:
        total = sum(entry.count for entry in entries)
        group = _item(name, total)
        self.addTopLevelItem(group)
        alike: dict[tuple[str, str], list[Entry]] = {}
        for entry in entries:
            alike.setdefault((entry.what, entry.where), []).append(entry)
        for same in alike.values():
            group.addChild(_line(same) if len(same) > 1 else _entry(same[0]))
        group.setExpanded(name != "Read" and bool(entries))

    def _jump(self, item: QTreeWidgetItem) -> None:
        place = item.data(0, _PLACE)
        if place is not None:
            self.place_wanted.emit(*place)

    def _fit(self) -> None:
        """As high as what is shown, up to a limit."""
        self.doItemsLayout()
        bottom, item = 0, self.topLevelItem(0)
        while item is not None:
            bottom = max(bottom, self.visualItemRect(item).bottom() + self.verticalOffset())
            item = self.itemBelow(item)
        shown = min(bottom + RHYTHM // 2, _MOST_HEIGHT)
        self.setFixedHeight(self.header().height() + shown + 2 * self.frameWidth())


def _line(same: list[Entry]) -> QTreeWidgetItem:
    """Entries that say the same as one line with their number, folded; below it their places."""
    line = _item(_text(same[0]), sum(entry.count for entry in same))
    line.setToolTip(0, _text(same[0]))
    for entry in same:
        if entry.xy_mm is None:
            line.addChild(_item("elsewhere", entry.count))
            continue
        x, y = entry.xy_mm
        place = _item(f"→ x {x:.1f}, y {y:.1f} mm", entry.count)
        place.setData(0, _PLACE, entry.xy_mm)
        line.addChild(place)
    return line


def _entry(entry: Entry) -> QTreeWidgetItem:
    jumps = "→ " if entry.xy_mm is not None else ""
    item = _item(f"{jumps}{_text(entry)}", entry.count)
    item.setToolTip(0, _text(entry))
    item.setData(0, _PLACE, entry.xy_mm)
    return item


def _item(text: str, count: int) -> QTreeWidgetItem:
    item = QTreeWidgetItem((text, str(count)))
    item.setTextAlignment(1, Qt.AlignmentFlag.AlignRight)
    return item


def _text(entry: Entry) -> str:
    return f"{entry.what}, {entry.where}" if entry.where else entry.what
