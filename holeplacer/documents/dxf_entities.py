"""DXF entities: each curve written as its own kind, a spline as a spline, an arc as an arc.

Source of the group codes and of what each version can hold: Autodesk DXF reference (2012 and
later editions), ENTITIES section; bulge = tan(sweep / 4).
"""

import math

import numpy as np
from ezdxf.document import Drawing
from ezdxf.entities.dxfgfx import DXFGraphic
from ezdxf.entities.lwpolyline import LWPolylinePoints
from ezdxf.layouts.layout import Modelspace

from holeplacer.documents.page import CentreMark, Circle, Label
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc, Polyline, Spline

_WHOLE_TURN = 2 * math.pi - 1e-12
_PLANAR, _RATIONAL = 8, 4


class EntityWriter:
    """Puts values of a page into the model space of one document.

    Args:
        document: What is written into.
        per_mm: Drawing units in one mm.
    """

    def __init__(self, document: Drawing, per_mm: float) -> None:
        self._space: Modelspace = document.modelspace()
        self._old = document.dxfversion <= "AC1009"
        self._k = per_mm

    def curve(self, curve: Curve, layer: str) -> DXFGraphic:
        """Write a curve as LINE, POLYLINE or LWPOLYLINE, CIRCLE, ARC, ELLIPSE or SPLINE."""
        at = {"layer": layer}
        if isinstance(curve, Polyline):
            return self._polyline(curve, at)
        if isinstance(curve, CircularArc):
            return self._arc(curve, at)
        if isinstance(curve, EllipticArc):
            return self._ellipse(curve, at)
        return self._spline(curve, at)

    def circle(self, circle: Circle, layer: str, colour: int) -> DXFGraphic:
        """Write a hole to cut."""
        centre = self._at(circle.x_mm, circle.y_mm)
        radius = circle.diameter_mm / 2 * self._k
        return self._space.add_circle(centre, radius, {"layer": layer, "color": colour})

    def centre_mark(self, mark: CentreMark, layer: str, colour: int) -> None:
        """Write a cross of two lines."""
        x, y, reach = mark.x_mm, mark.y_mm, mark.size_mm / 2
        at = {"layer": layer, "color": colour}
        self._space.add_line(self._at(x - reach, y), self._at(x + reach, y), at)
        self._space.add_line(self._at(x, y - reach), self._at(x, y + reach), at)

    def label(self, label: Label, layer: str, colour: int) -> None:
        """Write a line of text."""
        at = {"layer": layer, "color": colour}
        text = self._space.add_text(label.text, height=label.height_mm * self._k, dxfattribs=at)
        text.set_placement(self._at(label.x_mm, label.y_mm))

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return x * self._k, y * self._k

    def _polyline(self, curve: Polyline, at: dict[str, str]) -> DXFGraphic:
        xy = curve.xy * self._k
        if curve.bulges is None and len(xy) == 2 and not curve.closed:
            return self._space.add_line(tuple(xy[0].tolist()), tuple(xy[1].tolist()), at)
        bulges = np.zeros(len(xy)) if curve.bulges is None else curve.bulges
        if self._old:
            rows = np.column_stack([xy, bulges]).tolist()
            return self._space.add_polyline2d(rows, "xyb", close=curve.closed, dxfattribs=at)
        entity = self._space.add_lwpolyline([], close=curve.closed, dxfattribs=at)
        # All points at once: appended one by one they are copied each time.
        width = np.zeros((len(xy), 2))
        rows = np.column_stack([xy, width, bulges]).tolist()
        entity.lwpoints = LWPolylinePoints(data=rows)
        return entity

    def _arc(self, curve: CircularArc, at: dict[str, str]) -> DXFGraphic:
        centre, radius = self._at(*curve.centre), curve.radius * self._k
        if abs(curve.sweep) >= _WHOLE_TURN:
            return self._space.add_circle(centre, radius, at)
        first, last = (math.degrees(angle) % 360.0 for angle in _anticlockwise(curve))
        return self._space.add_arc(centre, radius, first, last, True, at)

    def _ellipse(self, curve: EllipticArc, at: dict[str, str]) -> DXFGraphic:
        whole = abs(curve.sweep) >= _WHOLE_TURN
        first, last = (0.0, 2 * math.pi) if whole else _anticlockwise(curve)
        centre, major = self._at(*curve.centre), self._at(*curve.major)
        return self._space.add_ellipse(centre, major, curve.ratio, first, last, dxfattribs=at)

    def _spline(self, curve: Spline, at: dict[str, str]) -> DXFGraphic:
        entity = self._space.add_spline(degree=curve.degree, dxfattribs=at)
        entity.control_points = np.column_stack(
            [curve.control * self._k, np.zeros(len(curve.control))]
        )
        entity.knots = curve.knots.tolist()
        entity.dxf.flags = _PLANAR
        if curve.weights is not None:
            entity.weights = curve.weights.tolist()
            entity.dxf.flags = _PLANAR | _RATIONAL
        return entity


def _anticlockwise(curve: CircularArc | EllipticArc) -> tuple[float, float]:
    """First and last angle of an arc, the way DXF goes round: always anticlockwise."""
    first = min(curve.start, curve.start + curve.sweep) % (2 * math.pi)
    return first, first + abs(curve.sweep)
