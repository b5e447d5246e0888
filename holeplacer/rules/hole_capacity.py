"""Hole capacity: what every newton of each force uses of the sheet's limits at one hole.

Nothing here hangs on the loads, but only on the sheet, the hole, its edges and what presses on the
sheet round it: while one hole is dragged, all others keep theirs.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, partial

from holeplacer.plan.plan import Plan
from holeplacer.resistance import (
    bearing,
    net_section,
    pull_over,
    pull_over_with_shear,
    tear_out,
    utilisation,
)
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Utilisation


@dataclass(frozen=True)
class Cap:
    """What presses on the sheet round a hole.

    Attributes:
        pressed_mm: Diameter on its front: cap or washer.
        backed_mm: Diameter behind: barrel or washer.
        front, behind: What these are, in words.
    """

    pressed_mm: float
    backed_mm: float
    front: str
    behind: str

    @property
    def washers(self) -> bool:
        """Whether the sheet is held flat on both sides."""
        return self.pressed_mm > 0 and self.backed_mm > 0

    @staticmethod
    def of(plan: Plan) -> "Cap":
        """That of a plan's standoffs."""
        standoff = plan.standoff
        return Cap(
            standoff.pressed_mm,
            standoff.backed_mm,
            "washer" if standoff.washer_mm > 0 else standoff.head,
            "washer behind" if standoff.washer_behind_mm > 0 else "barrel",
        )


@dataclass(frozen=True)
class Fitting:
    """A plan's sheet and standoffs, as far as a hole's capacity hangs on them.

    Attributes:
        sheet: Metal, thickness, rules.
        cap: What presses on it.
        stud_mm: Diameter of the stud.
    """

    sheet: SheetGrade
    cap: Cap
    stud_mm: float


@dataclass(frozen=True, eq=False)
class AtHole:
    """The sheet's limits at a hole that lies in it.

    Attributes:
        by_force: What 1 N uses of each limit: pull over the cap, push over the barrel, then force
            in the plane of bearing and tear-out, last of shear and pull-over together: force in
            the plane, pull.
        over_front, over_behind: Pull-over at rest.
        in_plane: Bearing and tear-out at rest.
        together: Gives shear and pull-over together under a force in the plane and a pull.
    """

    by_force: tuple[float, ...]
    over_front: Utilisation
    over_behind: Utilisation
    in_plane: tuple[Utilisation, ...]
    together: Callable[[float, float], Utilisation]


@dataclass(frozen=True, eq=False)
class AcrossStroke:
    """The stroke's limits across a hole.

    Attributes:
        by_stress: What 1 MPa of bending in the whole stroke uses of its net section.
        by_tension: What 1 N along the stroke uses of the same.
        by_rupture: What 1 N along it uses of its strength in tension.
        bent: Gives the net section's stress under a stress of the whole stroke and a force along.
        pulled: Tension at rest.
    """

    by_stress: float
    by_tension: float
    by_rupture: float
    bent: Callable[[float, float], Utilisation]
    pulled: Utilisation


class Capacities:
    """What holes of one sheet with one kind of standoff bear; each is worked out once."""

    def __init__(self, fitting: Fitting) -> None:
        self.at_hole = lru_cache(maxsize=4096)(partial(_at_hole, fitting))
        """The sheet's limits by diameter and edge distance of the hole, mm, and whether the sheet
        pulls on one side of the cap more than on the other."""
        self.across_stroke = lru_cache(maxsize=4096)(partial(_across_stroke, fitting))
        """The stroke's limits by its clear width and the hole's diameter, mm."""


@lru_cache(maxsize=8)
def capacities(fitting: Fitting) -> Capacities:
    """Those of a sheet with its standoffs."""
    return Capacities(fitting)


def _at_hole(fitting: Fitting, hole_mm: float, edge_mm: float, eccentric: bool) -> AtHole:
    sheet, cap = fitting.sheet, fitting.cap
    place = HolePlace(
        stud_mm=fitting.stud_mm, hole_mm=hole_mm, edge_mm=edge_mm, washers=cap.washers
    )
    front = _pull_over(sheet, cap.pressed_mm, hole_mm, cap.front, eccentric)
    behind = _pull_over(sheet, cap.backed_mm, hole_mm, cap.behind, eccentric)
    in_plane = (*bearing.check(sheet, place, 0.0), tear_out.check(sheet, place, 0.0))
    together = partial(_over_with_shear, sheet, place, cap.pressed_mm, eccentric)
    return AtHole(
        by_force=(
            *(_each_newton(limit) for limit in (front, behind, *in_plane)),
            known(together(1.0, 0.0)),
            known(together(0.0, 1.0)),
        ),
        over_front=front,
        over_behind=behind,
        in_plane=in_plane,
        together=together,
    )


def _across_stroke(fitting: Fitting, width_mm: float, hole_mm: float) -> AcrossStroke:
    bent = partial(_net_bending, fitting.sheet, width_mm, hole_mm)
    pulled = net_section.check_rupture(
        fitting.sheet,
        width_mm=width_mm,
        hole_mm=hole_mm,
        tension_n=0.0,
        stud_mm=fitting.stud_mm,
        washers=fitting.cap.washers,
    )
    return AcrossStroke(
        by_stress=known(bent(1.0, 0.0)),
        by_tension=known(bent(0.0, 1.0)),
        by_rupture=_each_newton(pulled),
        bent=bent,
        pulled=pulled,
    )


def _net_bending(
    sheet: SheetGrade, width_mm: float, hole_mm: float, stress_mpa: float, tension_n: float
) -> Utilisation:
    """Bending and torsion together as the bending moment that stresses the stroke alike."""
    return net_section.check_bending(
        sheet,
        width_mm=width_mm,
        hole_mm=hole_mm,
        moment_nmm=stress_mpa * width_mm * sheet.thickness_mm**2 / 6,
        tension_n=tension_n,
    )


def _over_with_shear(
    sheet: SheetGrade,
    place: HolePlace,
    pressed_mm: float,
    eccentric: bool,
    shear_n: float,
    pull_n: float,
) -> Utilisation:
    return pull_over_with_shear.check(
        sheet,
        place,
        shear_n=shear_n,
        tension_n=pull_n,
        pressed_mm=pressed_mm,
        eccentric=eccentric,
    )


@lru_cache(maxsize=64)  # the same for every hole of one size
def _pull_over(
    sheet: SheetGrade, pressed_mm: float, hole_mm: float, part: str, eccentric: bool
) -> Utilisation:
    return pull_over.check(
        sheet, 0.0, pressed_mm=pressed_mm, hole_mm=hole_mm, part=part, eccentric=eccentric
    )


def _each_newton(idle: Utilisation) -> float:
    share = utilisation.ratio(1.0, idle.resistance)
    if share is None:
        raise ValueError(f"{idle.check} has no resistance")
    return share


def known(result: Utilisation) -> float:
    """The share of a limit state whose resistance is always known.

    Raises:
        ValueError: It is not.
    """
    if result.utilisation is None:
        raise ValueError(f"{result.check} has no resistance")
    return result.utilisation
