"""Read-back of a cut drawing: every path stands in the file, closed, in its order and direction."""

from collections.abc import Mapping, Sequence

import numpy as np
import shapely

from holeplacer.cutting.contours import Contour, Kind, signed_area_mm2
from holeplacer.documents import dxf_check
from holeplacer.errors import ExportError
from holeplacer.geometry.curve import Points
from holeplacer.units import DRAWING_UNITS_MM

_READ_WITHIN_MM = 0.01
"""Flattening of the file's arcs on both sides."""

_APART_MM = 1.0
"""Long steps are measured between their ends too, at points no further apart."""

_UNIT_OF = {4: "mm", 1: "in"}


def check_cut_drawing(
    data: bytes,
    paths: Sequence[Contour],
    layer_of: Mapping[Kind, str],
    *,
    version: str,
    units: str,
    tolerance_mm: float,
) -> None:
    """Prove that a file holds the paths and no others.

    Args:
        data: The file.
        paths: What it must hold, in order.
        layer_of: Layer of each kind.
        version: Its DXF version.
        units: Its unit.
        tolerance_mm: Furthest that its lines and arcs may stray from the paths, both ways.

    Raises:
        ExportError: Something of that does not hold.
    """
    document = dxf_check.read_document(data, version)
    if version != "R12":
        stated = _UNIT_OF.get(document.header.get("$INSUNITS", 0))
        _demand(stated == units, f"states its unit as {stated}, not {units}")
    mm = DRAWING_UNITS_MM[units]
    for kind, layer in layer_of.items():
        wanted = [path for path in paths if path.kind is kind]
        found = dxf_check.read_contours(document, {layer}, mm)
        _demand(
            len(found) == len(wanted),
            f"holds {len(found)} closed paths on {layer}, not {len(wanted)}",
        )
        for number, (have, want) in enumerate(zip(found, wanted, strict=True), start=1):
            name = f"path {number} on {layer}"
            _check_place(have.xy, want, name, tolerance_mm)
            clockwise = signed_area_mm2(have.xy) < 0
            _demand(
                clockwise == (kind is Kind.OUTER),
                f"has {name} in the wrong direction",
            )


def _check_place(have: Points, want: Contour, name: str, tolerance_mm: float) -> None:
    limit = tolerance_mm + _READ_WITHIN_MM
    rings = shapely.LinearRing(have), _edge_of(want)
    for one, other in (rings, rings[::-1]):
        shapely.prepare(other)
        places = shapely.get_coordinates(shapely.segmentize(one, _APART_MM))
        points = np.asarray(shapely.points(places))
        far = points[~shapely.dwithin(other, points, limit)]
        off = float(shapely.distance(other, far).max(initial=0.0))
        _demand(not len(far), f"has {name} {off:.3f} mm off")


def _edge_of(path: Contour) -> shapely.Geometry:
    if path.hole is None:
        return shapely.LinearRing(path.xy)
    centre = shapely.Point(path.hole.x_mm, path.hole.y_mm)
    return centre.buffer(path.hole.diameter_mm / 2, quad_segs=64).exterior


def _demand(holds: bool, what: str) -> None:
    if not holds:
        raise ExportError(
            f"the drawing {what} when read back",
            remedy="nothing was replaced; try another DXF version or report this as a fault",
        )
