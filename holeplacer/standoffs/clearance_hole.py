"""Clearance hole: the hole a stud passes freely, and the stud a hole is made for."""

from dataclasses import dataclass
from functools import cache
from typing import Literal, get_args

from holeplacer import resources

Fit = Literal["close", "normal", "loose", "entered"]
"""How freely a stud passes its hole: a class of the standards, or a clearance of one's own."""

FITS: tuple[Fit, ...] = get_args(Fit)

STUD_SHARE = 0.9
"""Stud to hole where the hole is smaller than every row's: close fits run from 0.90 to 0.97 of the
hole (common practice, no source)."""

_ROUNDING_MM = 0.01
"""Drills are sold rounded: 9/32 in is 7.144 mm, the table's normal fit 7.137."""


@dataclass(frozen=True)
class ClearanceHole:
    """One row: least hole diameters for a stud.

    Attributes:
        series: `metric` (ISO 273) or `inch` (ASME B18.2.8).
        stud: Trade name, such as `M6` or `1/4 in`.
        stud_mm: Nominal diameter.
        close_mm, normal_mm, loose_mm: Hole diameters by fit (ISO: fine, medium, coarse).
        source: Standard.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    series: str
    stud: str
    stud_mm: float
    close_mm: float
    normal_mm: float
    loose_mm: float
    source: str
    status: str

    def hole_mm(self, fit: Fit) -> float:
        """Hole of a class; one that is entered has none of its own and takes the normal one."""
        return {"close": self.close_mm, "loose": self.loose_mm}.get(fit, self.normal_mm)

    def status_of(self, fit: Fit) -> str:
        """Status of one class's figure: `M` where the table says so of that class alone."""
        return "M" if f"M ({fit})" in self.status else self.status[0]


@cache
def clearance_holes() -> tuple[ClearanceHole, ...]:
    """Every row, by rising stud diameter."""
    rows = (
        ClearanceHole(
            series=row["series"],
            stud=row["stud"],
            stud_mm=float(row["stud_mm"]),
            close_mm=float(row["close_mm"]),
            normal_mm=float(row["normal_mm"]),
            loose_mm=float(row["loose_mm"]),
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("clearance_holes")
    )
    return tuple(sorted(rows, key=lambda row: row.stud_mm))


def stud_for_hole(hole_mm: float) -> float:
    """Diameter of the thickest tabled stud whose close-fit hole is no larger than this hole.

    A hole smaller than every row's takes `STUD_SHARE` of its diameter.

    >>> stud_for_hole(7.144)
    6.35
    """
    studs = [row.stud_mm for row in clearance_holes() if row.close_mm <= hole_mm + _ROUNDING_MM]
    return max(studs, default=STUD_SHARE * hole_mm)


def row_for_stud(stud_mm: float) -> ClearanceHole | None:
    """The stud's own row, else that of the next thicker stud; None beyond the table."""
    for row in clearance_holes():
        if row.stud_mm >= stud_mm - _ROUNDING_MM:
            return row
    return None


def hole_for_stud(stud_mm: float, fit: Fit = "normal") -> float:
    """Hole of a class for a stud: its own row's, else that of the next thicker stud.

    Beyond the table the share of its thickest row is kept.
    """
    row = row_for_stud(stud_mm)
    if row is not None:
        return row.hole_mm(fit)
    thickest = clearance_holes()[-1]
    return stud_mm * thickest.hole_mm(fit) / thickest.stud_mm
