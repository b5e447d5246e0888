"""Layer list: which layers of the drawing are read."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

Layers = tuple[tuple[str, int, bool], ...]

_NAME = Qt.ItemDataRole.UserRole
_MOST_ROWS = 6


class LayerList(QListWidget):
    """One check box per layer.

    Attributes:
        chosen: Other layers are to be read: their names.
    """

    chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Layers to read")
        self.itemChanged.connect(self._changed)

    def show_layers(self, layers: Layers, read: tuple[str, ...] | None) -> None:
        """Show all layers of a file and which are read; None reads the visible ones."""
        with QSignalBlocker(self):
            if [name for name, _count, _seen in layers] != self._names():
                self.clear()
                for name, _count, _seen in layers:
                    item = QListWidgetItem()
                    item.setData(_NAME, name)
                    item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsUserCheckable
                                  | Qt.ItemFlag.ItemIsSelectable)  # fmt: skip
                    self.addItem(item)
            for row, (name, count, seen) in enumerate(layers):
                item = self.item(row)
                on = seen if read is None else name in read
                hidden = "" if seen else ", hidden in the drawing"
                entities = "1 entity" if count == 1 else f"{count} entities"
                item.setText(f"{name or 'without a layer'}: {entities}{hidden}")
                item.setToolTip(item.text())
                item.setCheckState(Qt.CheckState.Checked if on else Qt.CheckState.Unchecked)
        rows = min(max(len(layers), 1), _MOST_ROWS)
        height = self.sizeHintForRow(0) if layers else 0
        self.setFixedHeight(rows * height + 2 * self.frameWidth())

    def _names(self) -> list[str]:
        return [self.item(row).data(_NAME) for row in range(self.count())]

    def _changed(self, _item: QListWidgetItem) -> None:
        items = (self.item(row) for row in range(self.count()))
        on = tuple(i.data(_NAME) for i in items if i.checkState() is Qt.CheckState.Checked)
        self.chosen.emit(on)
