"""Size: the papers that sheets and rolls are sold in, mm."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources
from holeplacer.errors import InputError

LONGEST_MM = 14_400 * 25.4 / 72
"""Longest side of a page that every reader takes: 14 400 units of 1/72 in, 200 in (PDF reference,
appendix on limits). A larger one would have to be scaled, which many readers do not tell."""


@dataclass(frozen=True)
class PaperSize:
    """A sheet of paper, upright.

    Attributes:
        name: What a person asks for it by.
        title: As it is written.
        width_mm, height_mm: Its sides, the shorter first.
    """

    name: str
    title: str
    width_mm: float
    height_mm: float

    @property
    def landscape(self) -> "PaperSize":
        """The same sheet lying on its side."""
        return PaperSize(self.name, self.title, self.height_mm, self.width_mm)


@cache
def paper_sizes() -> tuple[PaperSize, ...]:
    """Every sheet that is known, in the table's order."""
    return tuple(
        PaperSize(row["name"], row["title"], float(row["width_mm"]), float(row["height_mm"]))
        for row in resources.table("paper_sizes")
    )


def paper_size(name: str) -> PaperSize:
    """The sheet of that name, capitals or not.

    Raises:
        InputError: There is none.

    >>> paper_size("a4").height_mm
    297.0
    """
    known = {size.name.casefold(): size for size in paper_sizes()}
    if name.casefold() not in known:
        names = ", ".join(size.name for size in paper_sizes())
        raise InputError(f"there is no paper {name[:40]!r}", remedy=f"take one of {names}")
    return known[name.casefold()]


@cache
def roll_widths() -> tuple[tuple[str, float], ...]:
    """Names and widths of rolls that are sold, mm."""
    return tuple((row["name"], float(row["width_mm"])) for row in resources.table("roll_widths"))
