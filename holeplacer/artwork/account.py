"""Import account: everything a file held, and what became of it."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Entry:
    """One line of the account.

    Attributes:
        what: What it is, such as `SPLINE` or `two overlapping contours united`.
        where: Layer, element or place (`x 120.3, y 88.0 mm`).
        count: How many.
        xy_mm: Place on the sign, if it has one, so that the window can jump there.
    """

    what: str
    where: str
    count: int = 1
    xy_mm: tuple[float, float] | None = None


@dataclass(frozen=True)
class ImportAccount:
    """All that was read, mended and ignored; nothing is lost silently.

    Attributes:
        read: Entities that became contours, by kind and layer.
        mended: What was changed where the meaning was plain: gaps joined, duplicates dropped,
            overlaps united.
        ignored: What was left out and why: frozen layers, text, strokes without fill, open
            contours (with the gap's size and place).
    """

    read: tuple[Entry, ...] = ()
    mended: tuple[Entry, ...] = ()
    ignored: tuple[Entry, ...] = ()
