"""Changes of a plan: functions from plan to plan. Nothing else changes one."""

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.options import ReadOptions
from holeplacer.errors import InputError
from holeplacer.loads.loading import Loading
from holeplacer.plan.hole import Boss, Hole
from holeplacer.plan.laid import LaidSection
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.wall.wall import Wall

_SAME_SIZE = 1e-9


def hole_numbered(plan: Plan, number: int) -> Hole:
    """The hole that bears a number.

    Raises:
        InputError: No hole bears it.
    """
    for hole in plan.holes:
        if hole.number == number:
            return hole
    raise InputError(f"there is no hole {number}", remedy=f"the plan has {_numbers(plan)}")


def next_number(plan: Plan) -> int:
    """The number a new hole gets: one more than the greatest in use."""
    return max((hole.number for hole in plan.holes), default=0) + 1


def with_hole_added(
    plan: Plan, x_mm: float, y_mm: float, *, diameter_mm: float | None = None, fixed: bool = False
) -> Plan:
    """The plan with one hole more, numbered `next_number(plan)`."""
    hole = Hole(next_number(plan), _finite(x_mm, "x"), _finite(y_mm, "y"), diameter_mm, fixed)
    return replace(plan, holes=(*plan.holes, hole))


def with_hole_moved(plan: Plan, number: int, x_mm: float, y_mm: float) -> Plan:
    """The plan with one hole's centre elsewhere; the plan itself if it is there already."""
    hole = hole_numbered(plan, number)
    return _with_hole(plan, hole, replace(hole, x_mm=_finite(x_mm, "x"), y_mm=_finite(y_mm, "y")))


def without_hole(plan: Plan, number: int) -> Plan:
    """The plan with one hole fewer; the others keep their numbers."""
    hole_numbered(plan, number)
    return replace(plan, holes=tuple(hole for hole in plan.holes if hole.number != number))


def with_hole_fixed(plan: Plan, number: int, fixed: bool = True) -> Plan:
    """The plan with one hole fixed where it is, or free again."""
    hole = hole_numbered(plan, number)
    return _with_hole(plan, hole, replace(hole, fixed=fixed))


def with_fixed_point(plan: Plan, number: int, fixed_point: bool = True) -> Plan:
    """The plan whose sheet grows and shrinks about this hole, or no longer about it."""
    hole = hole_numbered(plan, number)
    return _with_hole(plan, hole, replace(hole, fixed_point=fixed_point))


def with_hole_fastened(plan: Plan, number: int, fastened: bool = True) -> Plan:
    """The plan with one hole's standoff held by a fastener, or only glued on."""
    hole = hole_numbered(plan, number)
    return _with_hole(plan, hole, replace(hole, fastened=fastened))


def with_hole_diameter(plan: Plan, number: int, diameter_mm: float | None) -> Plan:
    """The plan with one hole of its own diameter, or of the plan's (None)."""
    hole = hole_numbered(plan, number)
    return _with_hole(plan, hole, replace(hole, diameter_mm=diameter_mm))


def with_hole_numbered(plan: Plan, number: int, new_number: int) -> Plan:
    """The plan with a hole renumbered; a hole that bears the new number takes the old one."""
    if new_number < 1:
        raise InputError(f"{new_number} can't number a hole", remedy="take 1 or more")
    hole_numbered(plan, number)
    swap = {number: new_number, new_number: number}
    holes = (replace(hole, number=swap.get(hole.number, hole.number)) for hole in plan.holes)
    return with_holes(plan, holes)


def renumbered(plan: Plan, order: Sequence[int] | None = None) -> Plan:
    """The plan with its holes numbered 1, 2, 3 and so on.

    Args:
        plan: The plan.
        order: Present numbers in their new order, all of them; None numbers from left to right,
            and from the bottom up where two are level.

    Raises:
        InputError: The order misses a hole or names one twice.
    """
    holes = sorted(plan.holes, key=lambda hole: (hole.x_mm, hole.y_mm))
    if order is not None:
        if sorted(order) != sorted(hole.number for hole in plan.holes):
            raise InputError("the order must name every hole once", remedy=_numbers(plan))
        holes = [hole_numbered(plan, number) for number in order]
    return with_holes(plan, (replace(hole, number=i) for i, hole in enumerate(holes, start=1)))


def with_holes(plan: Plan, holes: Iterable[Hole]) -> Plan:
    """The plan with these holes in place of its own, in order of number.

    Raises:
        InputError: Two bear the same number.
    """
    ordered = tuple(sorted(holes, key=lambda hole: hole.number))
    numbers = [hole.number for hole in ordered]
    for one, two in itertools.pairwise(numbers):
        if one == two:
            raise InputError(f"two holes bear the number {one}", remedy="renumber one of them")
    return replace(plan, holes=ordered)


def with_boss(plan: Plan, boss: Boss) -> Plan:
    """The plan with a boss; one of the same centre is replaced."""
    others = (old for old in plan.bosses if (old.x_mm, old.y_mm) != (boss.x_mm, boss.y_mm))
    return replace(plan, bosses=(*others, boss))


def without_boss(plan: Plan, boss: Boss) -> Plan:
    """The plan without this boss."""
    return replace(plan, bosses=tuple(old for old in plan.bosses if old != boss))


def with_offset(plan: Plan, offset_mm: float) -> Plan:
    """The plan with all strokes fatter by this much on every side (negative: thinner)."""
    return replace(plan, offset_mm=_finite(offset_mm, "offset"))


def with_limits(plan: Plan, limits: Limits) -> Plan:
    """The plan held to other limits."""
    return replace(plan, limits=limits)


def with_sheet(plan: Plan, sheet: SheetChoice) -> Plan:
    """The plan cut from another sheet."""
    return replace(plan, sheet=sheet)


def with_standoff(plan: Plan, standoff: StandoffChoice) -> Plan:
    """The plan hung on other hardware."""
    return replace(plan, standoff=standoff)


def with_loading(plan: Plan, loading: Loading) -> Plan:
    """The plan under other loads, or held to other limits of deflection."""
    return replace(plan, loading=loading)


def seam_at(plan: Plan, index: int) -> Seam:
    """The seam of that place in the plan's order, counted from 0.

    Raises:
        InputError: There is none.
    """
    if 0 <= index < len(plan.seams):
        return plan.seams[index]
    raise InputError(f"there is no seam {index + 1}", remedy=f"the plan has {len(plan.seams)}")


def with_seam_added(plan: Plan, seam: Seam) -> Plan:
    """The plan with one seam more, the last."""
    return replace(plan, seams=(*plan.seams, _finite_seam(seam)))


def with_seam_moved(plan: Plan, index: int, seam: Seam) -> Plan:
    """The plan with one seam elsewhere; the plan itself if it is there already."""
    if seam_at(plan, index) == seam:
        return plan
    seams = (*plan.seams[:index], _finite_seam(seam), *plan.seams[index + 1 :])
    return replace(plan, seams=seams)


def with_seam_fixed(plan: Plan, index: int, fixed: bool = True) -> Plan:
    """The plan with one seam fixed where it is, or free again."""
    return with_seam_moved(plan, index, replace(seam_at(plan, index), fixed=fixed))


def without_seam(plan: Plan, index: int) -> Plan:
    """The plan with one seam fewer; the later ones move up."""
    seam_at(plan, index)
    return replace(plan, seams=(*plan.seams[:index], *plan.seams[index + 1 :]))


def with_seams(plan: Plan, seams: Iterable[Seam]) -> Plan:
    """The plan with these seams in place of its own."""
    return replace(plan, seams=tuple(_finite_seam(seam) for seam in seams))


def with_sections(plan: Plan, sections: SectionsChoice) -> Plan:
    """The plan divided onto other sheets, or otherwise."""
    return replace(plan, sections=sections)


def with_laid(plan: Plan, laid: Iterable[LaidSection]) -> Plan:
    """The plan with its sections on these places of their sheets; none: laid out anew."""
    return replace(plan, laid=tuple(laid))


def with_wall(plan: Plan, wall: Wall) -> Plan:
    """The plan on another wall, or elsewhere on it."""
    return replace(plan, wall=wall)


def with_reading(plan: Plan, reading: ReadOptions) -> Plan:
    """The plan with its artwork read otherwise; holes, seams and bosses keep their place."""
    return replace(plan, reading=reading)


def carried(plan: Plan, matrix: NDArray[np.float64]) -> Plan:
    """The plan with holes, seams, bosses and marks carried along by a map of the plane.

    For a sign that is scaled, levelled or mirrored after holes were placed: they stay where they
    are on the lettering. Diameters and radii are hardware and stay as they are.

    Args:
        plan: The plan.
        matrix: (2, 3) map from the old sign coordinates to the new ones.
    """
    holes, bosses = [], []
    for hole in plan.holes:
        x, y = _mapped(matrix, hole.x_mm, hole.y_mm)
        holes.append(replace(hole, x_mm=x, y_mm=y))
    for boss in plan.bosses:
        x, y = _mapped(matrix, boss.x_mm, boss.y_mm)
        bosses.append(replace(boss, x_mm=x, y_mm=y))
    seams = tuple(
        Seam(
            *_mapped(matrix, seam.x1_mm, seam.y1_mm),
            *_mapped(matrix, seam.x2_mm, seam.y2_mm),
            seam.fixed,
        )
        for seam in plan.seams
    )
    return replace(
        plan,
        holes=tuple(holes),
        bosses=tuple(bosses),
        seams=seams,
        wall=_carried_wall(plan.wall, matrix),
        laid=_carried_laid(plan.laid, matrix),
    )


def _carried_laid(
    laid: tuple[LaidSection, ...], matrix: NDArray[np.float64]
) -> tuple[LaidSection, ...]:
    """Sections stay on their sheets if the sign is only moved or turned; another size has none."""
    turned = math.atan2(matrix[1, 0], matrix[0, 0])
    if abs(float(np.linalg.det(matrix[:, :2])) - 1.0) > _SAME_SIZE:
        return ()
    carried = []
    for item in laid:
        x, y = _mapped(matrix, item.x_mm, item.y_mm)
        carried.append(replace(item, x_mm=x, y_mm=y, angle_rad=item.angle_rad - turned))
    return tuple(carried)


def _carried_wall(wall: Wall, matrix: NDArray[np.float64]) -> Wall:
    """What the wall knows of the sign; a level line that was entered goes through the datum."""
    placing = wall.placing
    if placing.datum_mm is not None:
        placing = replace(placing, datum_mm=_mapped(matrix, *placing.datum_mm))
    if placing.level_mm is not None:
        x = 0.0 if wall.placing.datum_mm is None else wall.placing.datum_mm[0]
        placing = replace(placing, level_mm=_mapped(matrix, x, placing.level_mm)[1])
    marks = []
    for mark in wall.as_found:
        x, y = _mapped(matrix, mark.x_mm, mark.y_mm)
        marks.append(replace(mark, x_mm=x, y_mm=y))
    return replace(wall, placing=placing, as_found=tuple(marks))


def _mapped(matrix: NDArray[np.float64], x: float, y: float) -> tuple[float, float]:
    new_x, new_y = (matrix @ np.array([x, y, 1.0])).tolist()
    return new_x, new_y


def _with_hole(plan: Plan, old: Hole, new: Hole) -> Plan:
    if new == old:
        return plan
    return replace(plan, holes=tuple(new if hole is old else hole for hole in plan.holes))


def _finite_seam(seam: Seam) -> Seam:
    for value in (seam.x1_mm, seam.y1_mm, seam.x2_mm, seam.y2_mm):
        _finite(value, "seam")
    return seam


def _finite(value: float, field: str) -> float:
    if not math.isfinite(value):
        raise InputError(f"{value} is not a length", where=field, remedy="enter a number")
    return float(value)


def _numbers(plan: Plan) -> str:
    if not plan.holes:
        return "no holes"
    return "holes " + ", ".join(str(hole.number) for hole in plan.holes)
