"""Standoff: barrel, stud, cap and washers that hold the sheet off the wall by its projection."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources
from holeplacer.standoffs import clearance_hole

OWN = "own"
"""Name of hardware that is in no table and that the person gave no name."""


@dataclass(frozen=True)
class Standoff:
    """One set of hardware with the hole it goes through, mm.

    Attributes:
        name: Row of the table, or the person's own name for it; `own` without one.
        stud_mm: Diameter of the stud.
        hole_mm: Diameter of the hole in the sheet.
        barrel_mm: Diameter of the barrel behind the sheet.
        cap_mm: Diameter of the visible cap or head; 0 without one.
        washer_mm: Diameter of the washer that must bear on metal all round; 0 without one.
        projection_mm: Wall to back of sheet.
        head: What holds the sheet in front, see `head.heads`.
        washer_behind_mm: Diameter of the washer between barrel and sheet; 0 without one.
        bearing_mm: Diameter that presses on the front of the sheet, where it is another than the
            washer's, or without one the cap's.
        stud_material: What the stud is made of, see `stud.stud_materials`.
    """

    name: str
    stud_mm: float
    hole_mm: float
    barrel_mm: float
    cap_mm: float
    washer_mm: float
    projection_mm: float
    head: str = "cap"
    washer_behind_mm: float = 0.0
    bearing_mm: float | None = None
    stud_material: str = "steel"

    @property
    def pressed_mm(self) -> float:
        """Diameter that presses on the front of the sheet; 0 where nothing does."""
        if self.bearing_mm is not None:
            return self.bearing_mm
        return self.washer_mm if self.washer_mm > 0 else self.cap_mm

    @property
    def backed_mm(self) -> float:
        """Diameter that presses on the back of the sheet: the washer's behind, or the barrel's."""
        return self.washer_behind_mm if self.washer_behind_mm > 0 else self.barrel_mm


@cache
def standoffs() -> tuple[Standoff, ...]:
    """The generic sizes, in the table's order."""
    return tuple(
        Standoff(
            name=row["name"],
            stud_mm=float(row["stud_mm"]),
            hole_mm=float(row["hole_mm"]),
            barrel_mm=float(row["barrel_mm"]),
            cap_mm=float(row["cap_mm"]),
            washer_mm=float(row["washer_mm"]),
            projection_mm=float(row["projection_mm"]),
        )
        for row in resources.table("standoffs")
    )


def standoff(name: str) -> Standoff:
    """The generic size of that name.

    Raises:
        InputError: There is none.
    """
    return resources.by_name(standoffs(), name, "standoff")


def standoff_for_hole(hole_mm: float, projection_mm: float) -> Standoff:
    """Hardware for a hole of which nothing else is known.

    The stud is the one the hole is a clearance hole of; barrel and cap are those of the generic
    size with the nearest stud, in proportion to it.

    Args:
        hole_mm: Hole diameter.
        projection_mm: Kept as given.
    """
    stud = clearance_hole.stud_for_hole(hole_mm)
    near = min(standoffs(), key=lambda item: abs(item.stud_mm - stud))
    share = stud / near.stud_mm
    return Standoff(
        name=OWN,
        stud_mm=stud,
        hole_mm=hole_mm,
        barrel_mm=near.barrel_mm * share,
        cap_mm=near.cap_mm * share,
        washer_mm=near.washer_mm * share,
        projection_mm=projection_mm,
    )
