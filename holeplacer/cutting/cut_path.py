"""Cut path: all that the torch does on one sheet, in order: pierce, lead in, follow."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from holeplacer.cutting import contour_order, contours, kerf, lead_in, pierce
from holeplacer.cutting.contours import Contour, Part, RoundHole
from holeplacer.cutting.lead_in import LeadIn, Shape
from holeplacer.sheet.process import Process


@dataclass(frozen=True)
class CutWish:
    """How a sheet is to be cut.

    Attributes:
        offset: Whether the paths lie half a kerf beside the contours; else the controller
            makes the offset.
        leads: Whether pierces and lead-ins are drawn.
        shape: Of lead-ins.
    """

    offset: bool = False
    leads: bool = True
    shape: Shape = "arc"


@dataclass(frozen=True, eq=False)
class Cut:
    """One closed path to cut.

    Attributes:
        path: From where it is met.
        lead: How it is met; None if not wanted, or no way was clear of metal that stays.
    """

    path: Contour
    lead: LeadIn | None


@dataclass(frozen=True, eq=False)
class CutPath:
    """Everything to be cut and marked on one sheet.

    Attributes:
        cuts: In order.
        marked: Holes too small for the process: centre marks.
        kerf_mm: Width of the cut.
        vanished: Contours narrower than the kerf, which no path is left of.
        crowded: Paths whose cuts run into each other.
        parts: What stays.
    """

    cuts: tuple[Cut, ...]
    marked: tuple[RoundHole, ...]
    kerf_mm: float
    vanished: tuple[Contour, ...]
    crowded: tuple[kerf.Crowded, ...]
    parts: tuple[Part, ...]


def cut_path(
    parts: Sequence[Part],
    process: Process,
    thickness_mm: float,
    sheet: shapely.Polygon | None = None,
    wish: CutWish | None = None,
) -> CutPath:
    """Plan the cutting of one sheet.

    Args:
        parts: As they lie on the sheet, not overlapping.
        process: How it is cut.
        thickness_mm: Of the sheet.
        sheet: What of the sheet may be pierced; None: as far around the parts as needed.
        wish: Offset, leads.
    """
    wish = wish or CutWish()
    width = process.kerf_mm(thickness_mm)
    least = process.least_hole_mm(thickness_mm)
    nominal = contours.contours_of(parts, least)
    by = width if wish.offset else 0.0
    ranked = [nominal[i] for i in contour_order.order(nominal)]
    paths = [(item, kerf.offset(item, by)) for item in ranked]
    flat = [path for _, found in paths for path in found]
    clearance = process.pierce_clearance_mm(thickness_mm)
    cuts = (
        _with_leads(parts, paths, sheet or _around(parts, clearance), (clearance, width), wish)
        if wish.leads
        else tuple(Cut(path, None) for path in flat)
    )
    return CutPath(
        cuts=cuts,
        marked=tuple(
            hole for part in parts for hole in part.holes if not contours.is_cut(hole, least)
        ),
        kerf_mm=width,
        vanished=tuple(item for item, found in paths if not found),
        crowded=kerf.crowded(flat, width) if wish.offset else (),
        parts=tuple(parts),
    )


def _around(parts: Sequence[Part], clearance_mm: float) -> shapely.Polygon:
    """Sheet as far around the parts as lead-ins may need."""
    left, bottom, right, top = shapely.total_bounds([part.polygon for part in parts]).tolist()
    room = 6 * clearance_mm
    corners = (left - room, bottom - room), (right + room, top + room)
    (x0, y0), (x1, y1) = corners
    return shapely.Polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


def _with_leads(
    parts: Sequence[Part],
    paths: Sequence[tuple[Contour, tuple[Contour, ...]]],
    sheet: shapely.Polygon,
    sizes: tuple[float, float],
    wish: CutWish,
) -> tuple[Cut, ...]:
    clearance, width = sizes
    stays = pierce.metal_of(parts)
    inset = width / 2 if wish.offset else 0.0
    cuts: list[Cut] = []
    gone: list[Contour] = []
    at = (0.0, 0.0)
    for item, found in paths:
        drop = pierce.drop_of(item, parts, sheet, gone)
        ground = pierce.Ground(stays, drop, clearance, width / 2)
        for path in found:
            lead = lead_in.lead_in(path, inset, ground, at, wish.shape)
            cuts.append(Cut(path if lead is None else lead.path, lead))
            x, y = np.asarray(path.xy[0] if lead is None else lead.entry).tolist()
            at = (x, y)
        gone.append(item)
    return tuple(cuts)
