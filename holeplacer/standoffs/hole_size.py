"""Hole size: the hole a stud needs, of its fit, the finish that builds up, and thermal movement.

    needed = hole of the fit + 2 x finish per side + 2 x movement

The fit's own room is for drilling and marking out and is not spent on movement. A slot along the
movement needs the width without it, and its length over all with it.
"""

import math
from dataclasses import dataclass

from holeplacer.standoffs import clearance_hole
from holeplacer.standoffs.clearance_hole import Fit
from holeplacer.units import MM_PER_INCH

ROUNDING_MM = 0.01
"""Drills are sold rounded: 9/32 in is 7.144 mm, the table's normal fit 7.137."""

_DRILL_MM = 0.1
_DRILL_INCH_MM = MM_PER_INCH / 64


@dataclass(frozen=True)
class NeededHole:
    """The hole one stud needs, as it is cut or drilled: before the finish goes on.

    Attributes:
        stud_mm: The stud.
        fit_mm: Hole of the fit alone.
        finish_mm: What the finish takes from the diameter.
        movement_mm: What movement adds to the diameter of a round hole.
        source: Where the fit's hole comes from.
        status: Of that figure: `P` read on a public page, `R` recomputed, `M` from memory:
            verify; `E` entered.
    """

    stud_mm: float
    fit_mm: float
    finish_mm: float
    movement_mm: float
    source: str
    status: str

    @property
    def slot_width_mm(self) -> float:
        """Of a slot along the movement; the whole hole where nothing moves."""
        return self.fit_mm + self.finish_mm

    @property
    def round_mm(self) -> float:
        """Diameter of a round hole; the length of a slot over all."""
        return self.slot_width_mm + self.movement_mm

    def is_met_by(self, hole_mm: float) -> bool:
        """Whether a round hole is large enough."""
        return hole_mm >= self.round_mm - ROUNDING_MM

    def binds(self, hole_mm: float) -> bool:
        """Whether the stud presses on the hole's edge however well the hole was placed."""
        return hole_mm - self.finish_mm - self.stud_mm < self.movement_mm


def needed_hole(
    stud_mm: float,
    *,
    fit: Fit = "normal",
    clearance_mm: float = 0.0,
    finish_mm: float = 0.0,
    movement_mm: float = 0.0,
) -> NeededHole:
    """The hole a stud needs.

    Args:
        stud_mm: Diameter of the stud.
        fit: Class of clearance hole, or `entered`.
        clearance_mm: Hole less stud where the fit is entered.
        finish_mm: Finish on every side it covers; a hole has two.
        movement_mm: Greatest movement against the stud, either way.

    >>> round(needed_hole(6.35, finish_mm=0.075, movement_mm=0.5).round_mm, 3)
    8.287
    """
    hole, source, status = _hole_of_fit(stud_mm, fit, clearance_mm)
    return NeededHole(stud_mm, hole, 2 * finish_mm, 2 * movement_mm, source, status)


def drill_mm(hole_mm: float, *, inch: bool = False) -> float:
    """The next drill that is no smaller: in whole tenths of a millimetre, or 64ths of an inch.

    >>> drill_mm(7.137), round(drill_mm(7.137, inch=True) / 25.4 * 64)
    (7.2, 18)
    """
    step = _DRILL_INCH_MM if inch else _DRILL_MM
    return round(math.ceil((hole_mm - 1e-9) / step) * step, 6)


def _hole_of_fit(stud_mm: float, fit: Fit, clearance_mm: float) -> tuple[float, str, str]:
    if fit == "entered":
        return stud_mm + clearance_mm, "entered by you", "E"
    hole, row = clearance_hole.hole_for_stud(stud_mm, fit), clearance_hole.row_for_stud(stud_mm)
    if row is None:
        return hole, "share of the thickest row of ASME B18.2.8", "R"
    of = "" if abs(row.stud_mm - stud_mm) <= ROUNDING_MM else f", next thicker stud {row.stud}"
    return hole, f"{row.source}, {fit} fit{of}", row.status_of(fit)
