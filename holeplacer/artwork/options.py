"""How artwork is to be read: what the person decided about units, layers, size and level."""

from dataclasses import dataclass


@dataclass(frozen=True)
class KnownDistance:
    """Two points of the artwork and the true distance between them.

    Attributes:
        x1, y1, x2, y2: The points, mm, in the artwork's coordinates as drawn (units applied,
            no scale, rotation or mirror).
        distance_mm: Their distance on the finished sign.
    """

    x1: float
    y1: float
    x2: float
    y2: float
    distance_mm: float


@dataclass(frozen=True)
class ReadOptions:
    """All decisions that turn a file into an outline.

    At most one of `width_mm`, `height_mm`, `known` and `scale` (other than 1) is given. Mirror,
    then rotation, then scale are applied about the origin of the artwork.

    Attributes:
        units: Name in `units.DRAWING_UNITS_MM`; None takes what the file states and raises
            `UnitsMissing` if it states none.
        layers: Layers to read; None reads all that are visible (not frozen, not off).
        width_mm: Overall width after rotation.
        height_mm: Overall height after rotation.
        known: Scale by a known distance.
        scale: Plain factor.
        rotation_rad: Turn that levels the sign, + anticlockwise.
        mirror: Mirrored left to right, as seen from behind.
        tolerance_mm: Furthest that a flattened curve may stray from the drawn one, final size.
        chain_mm: Ends of loose segments no further apart than this are joined, final size.
    """

    units: str | None = None
    layers: tuple[str, ...] | None = None
    width_mm: float | None = None
    height_mm: float | None = None
    known: KnownDistance | None = None
    scale: float = 1.0
    rotation_rad: float = 0.0
    mirror: bool = False
    tolerance_mm: float = 0.02
    chain_mm: float = 0.1
