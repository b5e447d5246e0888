"""Unfit: what can't be divided onto the sheets at hand, told in one sentence."""

import numpy as np
import shapely

from holeplacer.errors import InputError
from holeplacer.plan.plan import Plan
from holeplacer.seams import stock_fit
from holeplacer.seams.candidates import Candidates
from holeplacer.seams.cells import Cells
from holeplacer.seams.stock_fit import Usable


def usable_or_told(plan: Plan) -> tuple[Usable, ...]:
    """Usable sizes of the sheets at hand.

    Raises:
        InputError: No sheet is given, or none has anything left within its margin.
    """
    if not plan.sections.stock:
        raise InputError("no sheet is given to divide the sign onto", remedy="enter its size")
    sizes = stock_fit.usable_sizes(plan.sections)
    if not sizes:
        raise InputError(
            f"no sheet has anything left within its margin of {plan.sections.margin_mm:g} mm",
            remedy="enter larger sheets, or a smaller margin",
        )
    return sizes


def tell_unfit(plan: Plan, cells: Cells, cuts: Candidates, sizes: tuple[Usable, ...]) -> None:
    """Make sure that every cell fits by itself.

    Raises:
        InputError: One does not, for a stroke is too wide or nothing in it may be cut.
    """
    for index, hull in enumerate(cells.hulls):
        if not stock_fit.fits(hull, sizes):
            raise _cell_unfit(plan, cells, cuts, index, sizes)


def _cell_unfit(
    plan: Plan, cells: Cells, cuts: Candidates, index: int, sizes: tuple[Usable, ...]
) -> InputError:
    polygon = cells.polygons[index]
    left, bottom, right, top = polygon.bounds
    size = max(sizes, key=lambda item: item.width_mm * item.height_mm)
    sheet = f"{size.width_mm:.0f} × {size.height_mm:.0f} mm usable"
    where = f"near ({(left + right) / 2:.0f}, {(bottom + top) / 2:.0f}) mm"
    beside = cuts.weld_mm[cells.row[(cells.joins == index).any(axis=1)]]
    wide = max([2 * float(shapely.maximum_inscribed_circle(polygon, 1.0).length), *beside])
    if wide > min(size.width_mm, size.height_mm):
        return InputError(
            f"a stroke {wide:.0f} mm wide is wider than the sheet ({sheet})",
            where=where,
            remedy="take larger sheets",
        )
    holes = _holes_in(plan, cells, index)
    reason = f"holes {holes} leave no room for a seam" if holes else "no seam has room"
    return InputError(
        f"{right - left:.0f} × {top - bottom:.0f} mm of it fit no sheet ({sheet}), and {reason} "
        f"{plan.sections.seam_clear_mm:g} mm from every hole, tip and junction",
        where=where,
        remedy="take larger sheets, a smaller distance of seams"
        + (", or move a hole" if holes else ""),
    )


def _holes_in(plan: Plan, cells: Cells, index: int) -> str:
    """Numbers of the holes in a cell, where there are two or more."""
    at = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes]).reshape(-1, 2)
    inside = shapely.contains_xy(cells.polygons[index], at[:, 0], at[:, 1])
    numbers = [str(hole.number) for hole, held in zip(plan.holes, inside, strict=True) if held]
    if len(numbers) < 2:
        return ""
    return f"{', '.join(numbers[:-1])} and {numbers[-1]}"
