"""Seam: the line across one stroke along which two sections are cut apart and welded together."""

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Seam:
    """A straight cut from one cut edge of a stroke to the other.

    Attributes:
        x1_mm, y1_mm: One end, on the cut edge, in sign coordinates.
        x2_mm, y2_mm: The other end.
        fixed: Stays where it is when seams are proposed anew.
    """

    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    fixed: bool = False

    @property
    def length_mm(self) -> float:
        """From end to end; the weld's length where both ends lie on the cut edge."""
        return math.hypot(self.x2_mm - self.x1_mm, self.y2_mm - self.y1_mm)

    @property
    def middle_mm(self) -> tuple[float, float]:
        """Half-way between the ends."""
        return (self.x1_mm + self.x2_mm) / 2, (self.y1_mm + self.y2_mm) / 2
