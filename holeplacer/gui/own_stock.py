"""Own stock: metals and standoff sizes of the person's own, kept from one job to the next."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, QSettings, Signal

from holeplacer.errors import HoleplacerError, InputError

if TYPE_CHECKING:
    from holeplacer.sheet.metal import Metal
    from holeplacer.standoffs.standoff import Standoff

_METALS, _STANDOFFS = "own/metals", "own/standoffs"
_LONGEST_NAME = 60

Item = TypeVar("Item", "Metal", "Standoff")


class OwnStock(QObject):
    """What the person saved, in the settings. What can't be read there counts as not there.

    Attributes:
        changed: Something was kept or forgotten.
    """

    changed = Signal()

    def __init__(self, settings: QSettings, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._settings = settings

    def metals(self) -> tuple[Metal, ...]:
        """Every metal kept, by name."""
        import msgspec

        from holeplacer.plan import validity
        from holeplacer.sheet.metal import Metal

        def read(text: str) -> tuple[Metal, ...]:
            return msgspec.json.decode(text, type=tuple[Metal, ...])

        return self._read(_METALS, read, validity.checked_metal)

    def standoffs(self) -> tuple[Standoff, ...]:
        """Every standoff size kept, by name."""
        import msgspec

        from holeplacer.plan import validity
        from holeplacer.standoffs.standoff import Standoff

        def read(text: str) -> tuple[Standoff, ...]:
            return msgspec.json.decode(text, type=tuple[Standoff, ...])

        return self._read(_STANDOFFS, read, validity.checked_standoff)

    def keep_metal(self, metal: Metal) -> None:
        """Keep a metal; one of the same name is replaced.

        Raises:
            InputError: It has no name, the table's, or a figure that can't be meant.
        """
        from holeplacer.plan import validity
        from holeplacer.sheet import metal as metals

        _check_name(metal.name, {item.name for item in metals.metals()})
        validity.checked_metal(metal)
        self._save(_METALS, _with(self.metals(), metal))

    def keep_standoff(self, standoff: Standoff) -> None:
        """Keep a standoff size; one of the same name is replaced.

        Raises:
            InputError: It has no name, the table's, or a figure that can't be meant.
        """
        from holeplacer.plan import validity
        from holeplacer.standoffs import standoff as standoffs

        taken = {item.name for item in standoffs.standoffs()} | {standoffs.OWN}
        _check_name(standoff.name, taken)
        validity.checked_standoff(standoff)
        self._save(_STANDOFFS, _with(self.standoffs(), standoff))

    def forget_metal(self, name: str) -> None:
        """Keep a metal no longer; plans that use it have it with them."""
        self._save(_METALS, [item for item in self.metals() if item.name != name])

    def forget_standoff(self, name: str) -> None:
        """Keep a standoff size no longer; plans that use it have it with them."""
        self._save(_STANDOFFS, [item for item in self.standoffs() if item.name != name])

    def _read(
        self, key: str, read: Callable[[str], tuple[Item, ...]], check: Callable[[Item], Item]
    ) -> tuple[Item, ...]:
        import msgspec

        try:
            return tuple(check(item) for item in read(str(self._settings.value(key, "[]"))))
        except (msgspec.MsgspecError, HoleplacerError):
            return ()

    def _save(self, key: str, items: Sequence[Metal] | Sequence[Standoff]) -> None:
        import msgspec

        self._settings.setValue(key, msgspec.json.encode(items).decode())
        self.changed.emit()


def _with(kept: tuple[Item, ...], item: Item) -> list[Item]:
    """Those kept with one more, in place of one of the same name; by name."""
    found = [other for other in kept if other.name != item.name]
    found.append(item)
    found.sort(key=_folded_name)
    return found


def _folded_name(item: Metal | Standoff) -> str:
    return item.name.casefold()


def _check_name(name: str, taken: set[str]) -> None:
    if not name.strip() or len(name) > _LONGEST_NAME:
        raise InputError("it needs a name of its own", remedy="type one")
    if name in taken:
        raise InputError(f"{name!r} is in the table already", remedy="take another name")
