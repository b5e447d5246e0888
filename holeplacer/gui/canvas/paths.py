"""Painter paths straight from numpy points, and coarser copies of them for each zoom."""

import math
from collections.abc import Iterable

import numpy as np
import shapely
from PySide6.QtCore import Qt
from PySide6.QtGui import QPainterPath, QPolygonF
from shapely.geometry.base import BaseGeometry
from shiboken6 import VoidPtr

from holeplacer.geometry.curve import Points

COARSE_PX = 0.25
"""A coarser copy strays from its original by no more than this, in pixels."""

_POINT_BYTES = 16

FINEST_MM = 0.004
"""Below this nothing is thinned: the full contours are drawn."""


def polygon(points: Points) -> QPolygonF:
    """A Qt polygon of (n, 2) points, copied as one block of memory instead of point by point."""
    made = QPolygonF()
    if not len(points):
        return made
    made.resize(len(points))
    # The stubs know neither VoidPtr's writeable form nor that it is a buffer.
    block = VoidPtr(made.data(), len(points) * _POINT_BYTES, True)  # type: ignore[call-arg, arg-type]
    flat = np.frombuffer(block, dtype=np.float64)  # type: ignore[call-overload]
    flat[:] = np.ascontiguousarray(points, np.float64).ravel()
    return made


def painter_path(lines: Iterable[Points]) -> QPainterPath:
    """One path of several polylines; a closed one repeats its first point.

    Filled by the odd-even rule, so that a counter is an opening whichever way it runs.
    """
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.OddEvenFill)
    for points in lines:
        path.addPolygon(polygon(points))
    return path


def level_of(px_per_mm: float) -> int | None:
    """Power of two a scale belongs to; None where the full lines are drawn."""
    level = math.floor(math.log2(max(px_per_mm, 1e-9)))
    return None if COARSE_PX / 2 ** (level + 1) < FINEST_MM else level


class Detail:
    """Lines and their thinned copies, one per power of two of the view's scale, made on demand.

    A view that shows 200 000 vertices on a few hundred pixels then paints about a thousand.
    """

    def __init__(self, lines: BaseGeometry) -> None:
        """Keep the lines, a (multi) line string or ring, mm."""
        self._lines = shapely.get_parts(lines)
        self._copies: dict[int | None, QPainterPath] = {}

    def path(self, px_per_mm: float) -> QPainterPath:
        """The copy to paint at a scale: no further than `COARSE_PX` from the original."""
        level = level_of(px_per_mm)
        if level not in self._copies:
            self._copies[level] = self._thinned(level)
        return self._copies[level]

    def _thinned(self, level: int | None) -> QPainterPath:
        lines = self._lines
        if level is not None:
            lines = shapely.simplify(lines, COARSE_PX / 2 ** (level + 1), preserve_topology=False)
        return painter_path(np.asarray(line.coords)[:, :2] for line in lines if not line.is_empty)
