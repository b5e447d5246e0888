"""Standoff: barrel, stud, cap and washers that hold the sheet off the wall by its projection."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources
from holeplacer.standoffs import clearance_hole


@dataclass(frozen=True)
class Standoff:
    """One set of hardware with the hole it needs, mm.

    Attributes:
        name: Row of the table, or `own`.
        stud_mm: Stud diameter.
        hole_mm: Hole in the sheet.
        barrel_mm: Barrel behind the sheet.
        cap_mm: Visible cap; 0 without one.
        washer_mm: Washer that must bear on metal all round; 0 without one.
        projection_mm: Wall to back of sheet.
    """

    name: str
    stud_mm: float
    hole_mm: float
    barrel_mm: float
    cap_mm: float
    washer_mm: float
    projection_mm: float


@cache
def standoffs() -> tuple[Standoff, ...]:
    """The generic sizes, in the table's order."""
    fields = ("stud_mm", "hole_mm", "barrel_mm", "cap_mm", "washer_mm", "projection_mm")
    return tuple(
        Standoff(row["name"], *(float(row[field]) for field in fields))
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
        name="own",
        stud_mm=stud,
        hole_mm=hole_mm,
        barrel_mm=near.barrel_mm * share,
        cap_mm=near.cap_mm * share,
        washer_mm=near.washer_mm * share,
        projection_mm=projection_mm,
    )
