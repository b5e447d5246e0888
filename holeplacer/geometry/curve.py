"""Plane curves as a drawing holds them: polylines with arcs, circles, ellipses, splines.

Each is a frozen value with a parameter `t`. `flatten` turns it into points no further than a
tolerance from the curve; `trimmed` and `transformed` give curves of the same kind back, so that
a spline of the artwork is still a spline in the drawing that goes out.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
"""Array of shape (n, 2), mm unless said otherwise."""


@dataclass(frozen=True, eq=False, slots=True)
class Polyline:
    """Straight and circular steps between vertices.

    Parameter: vertex number, fractions within the step (by length; by angle on arcs).

    Attributes:
        xy: (n, 2) vertices; a closed one does not repeat its first vertex.
        bulges: (n,) tan(sweep/4) of the step that starts at each vertex, + anticlockwise;
            None if all steps are straight.
        closed: Whether a step leads from the last vertex to the first.
    """

    xy: Points
    bulges: NDArray[np.float64] | None = None
    closed: bool = False


@dataclass(frozen=True, eq=False, slots=True)
class CircularArc:
    """Part of a circle, or all of it. Parameter: angle in radians.

    Attributes:
        centre: (x, y).
        radius: > 0.
        start: Angle of the first point.
        sweep: Signed angle turned through, + anticlockwise; +-2 pi is the whole circle.
    """

    centre: tuple[float, float]
    radius: float
    start: float
    sweep: float


@dataclass(frozen=True, eq=False, slots=True)
class EllipticArc:
    """Part of an ellipse. Parameter: eccentric angle in radians.

    Attributes:
        centre: (x, y).
        major: Vector from the centre to the end of the major half axis.
        ratio: Minor by major half axis, 0 < ratio <= 1. The minor half axis lies 90 degrees
            anticlockwise of the major one.
        start: Eccentric angle of the first point.
        sweep: Signed angle turned through; +-2 pi is the whole ellipse.
    """

    centre: tuple[float, float]
    major: tuple[float, float]
    ratio: float
    start: float
    sweep: float


@dataclass(frozen=True, eq=False, slots=True)
class Spline:
    """B-spline, rational if it has weights; a Bezier curve is the case of one span.

    Parameter: that of the knots.

    Attributes:
        degree: 1 to 11.
        control: (m, 2) control points.
        knots: (m + degree + 1,) not decreasing.
        weights: (m,) positive, or None.
    """

    degree: int
    control: Points
    knots: NDArray[np.float64]
    weights: NDArray[np.float64] | None = None


Curve = Polyline | CircularArc | EllipticArc | Spline


def cubic(p0: Points, p1: Points, p2: Points, p3: Points) -> Spline:
    """One cubic Bezier curve as a spline, parameter 0 to 1."""
    return Spline(3, np.array([p0, p1, p2, p3], float), np.repeat([0.0, 1.0], 4))
