"""Shapes: what the decoders make of entities, and the plain bounds every number must keep.

Each decoder takes all records of its kinds at once. An entity that can't be used gets a fault
that says why and spoils no other; one that could be used with a change gets a note.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_tags import Floats, Indices
from holeplacer.geometry.curve import Curve

LARGEST = 1e10
"""Largest coordinate that makes sense in any unit: beyond it rounding eats the outline."""

NOT_A_NUMBER = "with a coordinate that is not a number"
TOO_LARGE = "with a coordinate beyond all bounds"
WITHOUT_LENGTH = "without length"
TILTED = "in a plane that is tilted against the drawing"
SEEN_FROM_ABOVE = "not level: read as seen from above"

LEVEL = 1e-6
"""Sine of the tilt, or share of the size in z, that is still rounding."""


@dataclass(frozen=True, eq=False)
class Shapes:
    """What could be made of the entities; keys are record numbers.

    Attributes:
        line: (n,) records of the usable LINEs, rising.
        line_xy: (n, 2, 2) their ends.
        curves: All other usable entities.
        faults: Why an entity can't be used.
        notes: What was changed in a usable one.
    """

    line: Indices = field(default_factory=lambda: np.zeros(0, dtype=np.intp))
    line_xy: Floats = field(default_factory=lambda: np.zeros((0, 2, 2)))
    curves: dict[int, Curve] = field(default_factory=dict)
    faults: dict[int, str] = field(default_factory=dict)
    notes: dict[int, str] = field(default_factory=dict)

    def with_all(self, other: "Shapes") -> "Shapes":
        """These shapes and those of another decoder; at most one of them has lines."""
        has_lines = self if len(self.line) else other
        return Shapes(
            line=has_lines.line,
            line_xy=has_lines.line_xy,
            curves=self.curves | other.curves,
            faults=self.faults | other.faults,
            notes=self.notes | other.notes,
        )


def sides(records: Records, chosen: Indices) -> Floats:
    """Which way each entity's plane looks, by its extrusion direction (210, 220, 230).

    Returns:
        1 from above, -1 from below (its x runs to the left, by the arbitrary axis algorithm of
        the DXF reference), 0 tilted.
    """
    x, y = records.column(chosen, 210, 0.0), records.column(chosen, 220, 0.0)
    z = records.column(chosen, 230, 1.0)
    with np.errstate(over="ignore", invalid="ignore"):
        tilt = np.hypot(x, y)
        length = np.hypot(tilt, z)
        level = ((tilt <= LEVEL * length) & np.isfinite(length)) | (length == 0)
    return np.where(level, np.where(z < 0, -1.0, 1.0), 0.0)


def bounds_fault(values: Floats) -> NDArray[np.object_]:
    """Per row of (n, k) numbers the fault that lies in them, "" for none."""
    finite = np.isfinite(values).all(axis=1)
    small = (np.abs(np.where(np.isfinite(values), values, 0.0)) <= LARGEST).all(axis=1)
    endless = np.isinf(values).any(axis=1)
    faults = np.full(len(values), "", dtype=object)
    faults[~small | endless] = TOO_LARGE
    faults[~finite & ~endless] = NOT_A_NUMBER
    return faults


def add_fault(faults: NDArray[np.object_], where: NDArray[np.bool_], fault: str) -> None:
    """Give a fault to entities that have none yet."""
    faults[where & (faults == "")] = fault


def spans(values: Floats, first: Indices) -> Floats:
    """Largest less smallest of each run of values, 0 for empty runs and those not finite.

    Args:
        values: (n,) numbers.
        first: (m + 1,) row where each run starts; the last entry is n.
    """
    result = np.zeros(len(first) - 1)
    filled = np.flatnonzero(np.diff(first) > 0)
    if len(filled):
        with np.errstate(invalid="ignore", over="ignore"):
            highest = np.maximum.reduceat(values, first[filled])
            result[filled] = highest - np.minimum.reduceat(values, first[filled])
    return np.where(np.isfinite(result), result, 0.0)
