"""LINE, ARC, CIRCLE and ELLIPSE entities.

Group codes after the DXF reference (entities section): centres of arcs and circles stand in the
entity's own plane, lines and ellipses in the drawing. Angles of arcs are degrees and always run
anticlockwise in their plane; parameters of ellipses are radians.
"""

import math

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_shapes import (
    LEVEL,
    SEEN_FROM_ABOVE,
    TILTED,
    WITHOUT_LENGTH,
    Shapes,
    add_fault,
    bounds_fault,
    sides,
)
from holeplacer.artwork.dxf_tags import Floats, Indices
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc
from holeplacer.geometry.evaluate import FULL_TURN

NO_RADIUS = "with a radius that is not positive"
NO_AXIS = "with half axes that are not positive"

_FLATTEST = 1e-9


def lines(records: Records, within: Indices) -> Shapes:
    """All LINEs as one array."""
    chosen = records.named("LINE", within)
    xy = np.stack([records.column(chosen, code) for code in (10, 20, 11, 21)], axis=1)
    faults = bounds_fault(xy)
    bad = faults != ""
    xy = xy.reshape(-1, 2, 2)
    length = np.zeros(len(chosen))
    length[~bad] = np.hypot(*(xy[~bad, 1] - xy[~bad, 0]).T)
    faults[~bad & (length == 0)] = WITHOUT_LENGTH
    usable = faults == ""
    return Shapes(
        line=chosen[usable],
        line_xy=xy[usable],
        faults=_faults(chosen, faults),
        notes=_slopes(records, chosen[usable], length[usable]),
    )


def _slopes(records: Records, chosen: Indices, length: Floats) -> dict[int, str]:
    rise = np.abs(records.column(chosen, 31, 0.0) - records.column(chosen, 30, 0.0))
    return dict.fromkeys(chosen[rise > LEVEL * length].tolist(), SEEN_FROM_ABOVE)


def circles(records: Records, within: Indices) -> Shapes:
    """All CIRCLEs and ARCs."""
    shapes = Shapes()
    for name in ("CIRCLE", "ARC"):
        chosen = records.named(name, within)
        values = np.stack([records.column(chosen, code) for code in (10, 20, 40)], axis=1)
        if name == "ARC":
            angles = np.stack([records.column(chosen, code) for code in (50, 51)], axis=1)
        else:
            angles = np.tile([0.0, 360.0], (len(chosen), 1))
        side, sweep = sides(records, chosen), _sweeps(angles, 360.0)
        faults = bounds_fault(np.hstack([values, angles]))
        add_fault(faults, side == 0, TILTED)
        add_fault(faults, values[:, 2] <= 0, NO_RADIUS)
        add_fault(faults, sweep == 0, WITHOUT_LENGTH)
        rows = np.column_stack([values, np.radians(angles[:, 0]), np.radians(sweep), side])
        shapes = shapes.with_all(_shapes(chosen, faults, [_arc(*row) for row in rows.tolist()]))
    return shapes


def _arc(x: float, y: float, radius: float, start: float, sweep: float, side: float) -> Curve:
    if side < 0:
        x, start, sweep = -x, math.pi - start, -sweep
    return CircularArc((x, y), radius, start, sweep)


def ellipses(records: Records, within: Indices) -> Shapes:
    """All ELLIPSEs."""
    chosen = records.named("ELLIPSE", within)
    values = np.stack([records.column(chosen, code) for code in (10, 20, 11, 21, 40)], axis=1)
    ends = np.column_stack([records.column(chosen, 41, 0.0), records.column(chosen, 42, FULL_TURN)])
    side, sweep = sides(records, chosen), _sweeps(ends, FULL_TURN)
    with np.errstate(over="ignore", invalid="ignore"):
        length = np.hypot(values[:, 2], values[:, 3])
        tilted = np.abs(records.column(chosen, 31, 0.0)) > LEVEL * length
        shortest = length * np.minimum(np.abs(values[:, 4]), 1.0)
    faults = bounds_fault(np.hstack([values, ends]))
    add_fault(faults, (side == 0) | (tilted & (length > 0)), TILTED)
    add_fault(faults, ~(shortest > _FLATTEST * np.maximum(length, 1.0)), NO_AXIS)
    add_fault(faults, sweep == 0, WITHOUT_LENGTH)
    rows = np.column_stack([values, ends[:, 0], sweep, side])
    good = faults == ""
    made = zip(rows.tolist(), good, strict=True)
    curves: list[Curve | None] = [_ellipse(*row) if ok else None for row, ok in made]
    return _shapes(chosen, faults, curves)


def _ellipse(
    x: float,
    y: float,
    major_x: float,
    major_y: float,
    ratio: float,
    start: float,
    sweep: float,
    side: float,
) -> EllipticArc:
    """Seen from below, or with a negative ratio, the minor axis points the other way."""
    if side * ratio < 0:
        start, sweep = -start, -sweep
    ratio = abs(ratio)
    if ratio > 1:
        major_x, major_y = -major_y * ratio, major_x * ratio
        start, ratio = start - math.pi / 2, 1 / ratio
    return EllipticArc((x, y), (major_x, major_y), ratio, start, sweep)


def _sweeps(ends: Floats, turn: float) -> Floats:
    """Anticlockwise angle from start to end; ends a whole turn apart are a whole turn."""
    with np.errstate(invalid="ignore"):
        difference = ends[:, 1] - ends[:, 0]
        sweep = np.mod(difference, turn)
    nothing = np.minimum(sweep, turn - sweep) < 1e-12 * turn
    return np.where(nothing, np.where(np.abs(difference) > turn / 2, turn, 0.0), sweep)


def _faults(chosen: Indices, faults: NDArray[np.object_]) -> dict[int, str]:
    bad = np.flatnonzero(faults != "")
    return {int(chosen[index]): str(faults[index]) for index in bad}


def _shapes(chosen: Indices, faults: NDArray[np.object_], curves: list[Curve | None]) -> Shapes:
    made = zip(chosen.tolist(), curves, faults.tolist(), strict=True)
    good = {record: curve for record, curve, fault in made if not fault and curve is not None}
    return Shapes(curves=good, faults=_faults(chosen, faults))
