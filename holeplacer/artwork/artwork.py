"""Artwork: a file's bytes on the way in, an outline with its account on the way out."""

from dataclasses import dataclass

from holeplacer.artwork.account import ImportAccount
from holeplacer.outline.drawn import DrawnCurves
from holeplacer.outline.outline import Outline


@dataclass(frozen=True)
class ArtworkFile:
    """The customer's file as it came; kept whole in the plan.

    Attributes:
        name: File name without folder.
        data: Its bytes.
    """

    name: str
    data: bytes


@dataclass(frozen=True, eq=False)
class Artwork:
    """What reading made of a file.

    Attributes:
        outline: Pieces with counters at final size.
        drawn: The curves it was flattened from.
        account: What was read, mended and ignored.
        units: Drawing unit that was applied, a name of `units.DRAWING_UNITS_MM`.
        units_stated: Whether the file itself stated it.
        layers: Every layer of the file with what is on it: (name, entities, visible).
        scale: Factor from the artwork as drawn to the sign, units not counted.
    """

    outline: Outline
    drawn: DrawnCurves
    account: ImportAccount
    units: str
    units_stated: bool
    layers: tuple[tuple[str, int, bool], ...]
    scale: float
