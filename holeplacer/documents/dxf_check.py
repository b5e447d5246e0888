"""Read-back of a DXF drawing: what stands in the file is the sign with its holes, or an error."""

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from ezdxf.document import Drawing
from ezdxf.entities.circle import Circle
from ezdxf.entities.dxfgfx import DXFGraphic
from ezdxf.entities.ellipse import Ellipse
from ezdxf.entities.line import Line
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.entities.polyline import Polyline as OldPolyline
from ezdxf.entities.spline import Spline
from ezdxf.filemanagement import read
from ezdxf.lldxf.const import DXFError
from numpy.typing import NDArray

from holeplacer.documents import dxf_r12
from holeplacer.documents.page import MEETS_MM, Layer, Page, Role
from holeplacer.documents.page import Circle as HoleCircle
from holeplacer.errors import ExportError
from holeplacer.geometry import flatten
from holeplacer.geometry.curve import Points, Polyline
from holeplacer.outline.outline import Outline
from holeplacer.units import DRAWING_UNITS_MM

_FLATTENED_WITHIN_MM = 0.005
_UNIT_OF = {4: "mm", 1: "in"}


@dataclass(frozen=True, eq=False)
class ReadContour:
    """A closed contour as read back.

    Attributes:
        xy: (n, 2) points in mm; the first is not repeated.
    """

    xy: Points

    @property
    def area_mm2(self) -> float:
        """Area within, never negative."""
        x, y = (self.xy - self.xy[0]).T
        return abs(float(x @ np.roll(y, -1) - y @ np.roll(x, -1))) / 2

    @property
    def length_mm(self) -> float:
        """Length all round."""
        return float(np.hypot(*(np.roll(self.xy, -1, axis=0) - self.xy).T).sum())


def check_dxf(data: bytes, page: Page, outline: Outline, *, version: str, units: str) -> None:
    """Prove that a file holds a page's holes and an outline's contours.

    The file is read by the library's strict reader and audited. Holes must be as many as on the
    page, each within a millionth of a millimetre of its place and diameter. Contours must be
    closed, as many as the outline's, and stray nowhere further from it than the page says:
    measured both ways, and by area.

    Raises:
        ExportError: Something of that does not hold.
    """
    document = read_document(data, version)
    tolerance = page.drawn_within_mm + 2 * _FLATTENED_WITHIN_MM
    layers = page.layers
    if version == "R12":
        layers, tolerance = dxf_r12.plain_layers(layers), tolerance + dxf_r12.FITTED_WITHIN_MM
    else:
        stated = _UNIT_OF.get(document.header.get("$INSUNITS", 0))
        _demand(stated == units, f"states its unit as {stated}, not {units}")
    mm = DRAWING_UNITS_MM[units]
    _check_holes(document, _names(layers, Role.HOLE), page.circles, mm)
    contours = read_contours(document, _names(layers, Role.CONTOUR), mm)
    _check_contours(contours, outline, tolerance)


def read_contours(document: Drawing, layers: set[str], mm: float) -> tuple[ReadContour, ...]:
    """Closed contours on some layers, their parts joined end to end in the file's order.

    Args:
        document: The drawing.
        layers: Names of the layers.
        mm: Length of a drawing unit.

    Raises:
        ExportError: A part meets neither the one before nor closes its contour.
    """
    contours: list[ReadContour] = []
    parts: list[Points] = []
    for entity in document.modelspace():
        if entity.dxf.layer not in layers:
            continue
        points = points_of(entity, _FLATTENED_WITHIN_MM / mm) * mm
        parts = _joined(parts, points)
        if _gap(parts[0][0], parts[-1][-1]) <= MEETS_MM:
            contours.append(ReadContour(np.concatenate([part[:-1] for part in parts])))
            parts = []
    _demand(not parts, f"has a contour that is open at {_at(parts[-1][-1]) if parts else ''}")
    return tuple(contours)


def points_of(entity: DXFGraphic, tolerance: float) -> Points:
    """Points along an entity, both ends included, as the library itself reads it.

    Polylines are read by their vertices and bulges, since the library would replace their arcs
    by Bezier curves first.
    """
    if isinstance(entity, Line):
        return np.array([entity.dxf.start.vec2, entity.dxf.end.vec2])
    if isinstance(entity, LWPolyline):
        return _polyline_points(entity.get_points("xyb"), entity.closed, tolerance)
    if isinstance(entity, OldPolyline):
        rows = [(*v.dxf.location.vec2, v.dxf.get("bulge", 0.0)) for v in entity.vertices]
        return _polyline_points(rows, entity.is_closed, tolerance)
    if isinstance(entity, Circle | Ellipse | Spline):  # an ARC is a kind of Circle there
        return np.array([point.vec2 for point in entity.flattening(tolerance)])
    raise _failed(f"has a {entity.dxftype()} among its contours")


def _polyline_points(rows: Sequence[Sequence[float]], closed: bool, tolerance: float) -> Points:
    table = np.array(rows)
    bulges = table[:, 2] if table[:, 2].any() else None
    return flatten.flatten(Polyline(table[:, :2], bulges, closed), tolerance)[1]


def read_document(data: bytes, version: str) -> Drawing:
    """The file as the library's strict reader has it.

    Raises:
        ExportError: It can't be read, or the audit finds a fault.
    """
    encoding = "utf-8" if version >= "R2007" else "cp1252"
    try:
        document = read(io.StringIO(data.decode(encoding), newline=None))
        errors = document.audit().errors
    except (DXFError, UnicodeDecodeError, OSError, ValueError) as error:
        raise _failed(f"can't be read: {error}") from error
    _demand(not errors, f"has {len(errors)} structural faults")
    return document


def _check_holes(
    document: Drawing, layers: set[str], circles: Sequence[HoleCircle], mm: float
) -> None:
    found = [entity for entity in document.modelspace() if entity.dxf.layer in layers]
    _demand(all(entity.dxftype() == "CIRCLE" for entity in found), "has more than circles as holes")
    have = np.array([(*hole.dxf.center.vec2, 2 * hole.dxf.radius) for hole in found]).reshape(-1, 3)
    want = np.array([(c.x_mm, c.y_mm, c.diameter_mm) for c in circles]).reshape(-1, 3)
    _demand(len(have) == len(want), f"holds {len(have)} holes, not {len(want)}")
    off = float(np.abs(have * mm - want).max(initial=0.0))
    _demand(off <= MEETS_MM, f"has a hole that is off by {off:.2g} mm")


def _check_contours(contours: Sequence[ReadContour], outline: Outline, tolerance_mm: float) -> None:
    rings = [ring for piece in outline.pieces for ring in _rings(piece.polygon)]
    _demand(len(contours) == len(rings), f"holds {len(contours)} closed contours, not {len(rings)}")
    _check_near(np.concatenate([c.xy for c in contours]), outline.boundary, tolerance_mm)
    back = shapely.MultiLineString([np.vstack([c.xy, c.xy[:1]]) for c in contours])
    shapely.prepare(back)
    _check_near(shapely.get_coordinates(outline.boundary), back, tolerance_mm)
    areas = np.sort([contour.area_mm2 for contour in contours])
    lengths = sum(contour.length_mm for contour in contours)
    off = float(np.abs(areas - np.sort([abs(_area(ring)) for ring in rings])).max())
    _demand(off <= lengths * tolerance_mm, f"has a contour whose area is off by {off:.3g} mm²")


def _rings(polygon: shapely.Polygon) -> list[shapely.LinearRing]:
    return [polygon.exterior, *polygon.interiors]


def _area(ring: shapely.LinearRing) -> float:
    return float(shapely.Polygon(ring).area)


def _check_near(xy: NDArray[np.float64], line: shapely.Geometry, tolerance_mm: float) -> None:
    points = shapely.points(xy)
    far = xy[~shapely.dwithin(line, points, tolerance_mm)]
    if len(far):
        off = float(shapely.distance(line, shapely.points(far[0])))
        raise _failed(f"strays {off:.3f} mm from the outline at {_at(far[0])}")


def _joined(parts: list[Points], points: Points) -> list[Points]:
    """The parts with one more, each turned so that it starts where the one before ends."""
    if not parts:
        return [points]
    if len(parts) == 1 and min(_gap(parts[0][-1], points[0]), _gap(parts[0][-1], points[-1])) > (
        MEETS_MM
    ):
        parts = [parts[0][::-1]]
    end = parts[-1][-1]
    if _gap(end, points[0]) > _gap(end, points[-1]):
        points = points[::-1]
    _demand(_gap(end, points[0]) <= MEETS_MM, f"has a contour that is open at {_at(end)}")
    return [*parts, points]


def _gap(one: Points, other: Points) -> float:
    return math.hypot(one[0] - other[0], one[1] - other[1])


def _names(layers: Sequence[Layer], role: Role) -> set[str]:
    return {layer.name for layer in layers if layer.role is role}


def _at(xy: Points) -> str:
    return f"x {xy[0]:.3f}, y {xy[1]:.3f} mm"


def _demand(holds: bool, what: str) -> None:
    if not holds:
        raise _failed(what)


def _failed(what: str) -> ExportError:
    return ExportError(
        f"the drawing {what} when read back",
        remedy="nothing was replaced; try another DXF version or report this as a fault",
    )
