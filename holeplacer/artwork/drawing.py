"""Drawing: what a format reader gives: curves as drawn, by contour, before chaining and scaling.

Coordinates are in drawing units (`Drawing.units`), y up, not yet scaled, turned or mirrored, and
never flattened: every curve is one of `geometry.curve`. Whatever a reader leaves out or changes
stands in its part of the account.
"""

from dataclasses import dataclass, field
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.account import ImportAccount
from holeplacer.geometry.curve import Curve


class FillRule(Enum):
    """Which areas a set of contours fills."""

    NONZERO = "nonzero"
    EVENODD = "evenodd"


@dataclass(frozen=True, eq=False, slots=True)
class DrawnSegment:
    """One curve of the artwork.

    Attributes:
        curve: In drawing units.
        layer: Layer it is on, "" if the format has none.
        kind: The artwork's own name of the entity, such as `SPLINE` or `path`.
    """

    curve: Curve
    layer: str
    kind: str


@dataclass(frozen=True, eq=False, slots=True)
class DrawnContour:
    """Curves that the artwork itself joins to one closed contour.

    Attributes:
        segments: Each ends where the next starts, the last where the first does (up to rounding,
            which the pipeline takes up). One closed curve is a contour of one segment.
        fill: Number in `Drawing.fills` of the element that fills it, shared by all contours of
            that element; None if the format knows no fill: then contours are nested by
            containment.
    """

    segments: tuple[DrawnSegment, ...]
    fill: int | None = None


@dataclass(frozen=True, eq=False, slots=True)
class LooseLines:
    """Many loose straight segments of one layer and kind, kept as one array.

    Attributes:
        xy: (n, 2, 2) start and end of each, drawing units.
        layer: As in `DrawnSegment`.
        kind: As in `DrawnSegment`.
    """

    xy: NDArray[np.float64]
    layer: str
    kind: str


@dataclass(frozen=True, eq=False, slots=True)
class Drawing:
    """A file's visible, chosen geometry.

    Attributes:
        contours: Closed contours, in the file's order.
        fills: Fill rule of each filled element; empty if the format knows none.
        loose: Open curves (also open polylines), still to be chained by their ends.
        lines: Loose straight segments in bulk; the same as `loose` ones, cheaper.
        account: What the reader read (entities by kind and layer), mended and ignored.
        units: Name in `units.DRAWING_UNITS_MM` of the unit the coordinates are in, or None if
            the file states none.
        layers: Every layer of the file: (name, entities on it, visible).
    """

    contours: tuple[DrawnContour, ...] = ()
    fills: tuple[FillRule, ...] = ()
    loose: tuple[DrawnSegment, ...] = ()
    lines: tuple[LooseLines, ...] = ()
    account: ImportAccount = field(default_factory=ImportAccount)
    units: str | None = None
    layers: tuple[tuple[str, int, bool], ...] = ()
