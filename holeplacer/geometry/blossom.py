"""Blossoms of splines: one rule from which evaluation, subdivision and trimming all follow.

The blossom of a polynomial of degree p is the symmetric function of p arguments, affine in each,
that equals the polynomial where all arguments are equal. Its value at p neighbouring knots is a
control point, so a spline over other knots is found by asking for the blossom there (Ramshaw,
"Blossoms are polar forms", 1989; from memory).

Rational splines are treated in homogeneous coordinates (w x, w y, w).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import Points, Spline

Floats = NDArray[np.float64]


def blossom(control: Floats, knots: Floats, arguments: Floats) -> Floats:
    """Blossoms of n polynomial pieces of degree p in d coordinates, all at once.

    Args:
        control: (n, p + 1, d) control points that reach into each piece.
        knots: (n, 2 p) knots around each piece: p up to its start, p from its end.
        arguments: (n, p) arguments of each blossom.

    Returns:
        (n, d) values.
    """
    degree = control.shape[1] - 1
    values = control
    for stage in range(degree):
        left = knots[:, stage:degree]
        right = knots[:, degree : 2 * degree - stage]
        share = ((arguments[:, stage : stage + 1] - left) / (right - left))[:, :, None]
        values = (1.0 - share) * values[:, :-1] + share * values[:, 1:]
    return values[:, 0]


@dataclass(frozen=True, eq=False)
class Spans:
    """Polynomial pieces of splines of one degree, in order.

    Attributes:
        spline: (n,) which of the splines each piece belongs to.
        start, end: (n,) parameters, start < end.
        control: (n, p + 1, d) control points that reach into it; d is 3 (homogeneous) if any of
            the splines is rational, else 2.
        knots: (n, 2 p) the knots around it.
    """

    spline: NDArray[np.intp]
    start: Floats
    end: Floats
    control: Floats
    knots: Floats

    def at(self, piece: NDArray[np.intp], arguments: Floats) -> Floats:
        """Blossoms of the given pieces, (n, d)."""
        return blossom(self.control[piece], self.knots[piece], arguments)

    def bezier(self) -> Floats:
        """Each piece as a Bezier curve, (n, p + 1, d) control points."""
        degree = self.control.shape[1] - 1
        ends = np.stack([self.start, self.end])
        corners = []
        for j in range(degree + 1):
            arguments = np.repeat(ends, [degree - j, j], axis=0).T
            corners.append(blossom(self.control, self.knots, arguments))
        return np.stack(corners, axis=1)


def spans(splines: tuple[Spline, ...] | list[Spline]) -> Spans:
    """All polynomial pieces of splines that share their degree; empty spans are left out.

    Raises:
        ArtworkError: The knots of a spline leave it no parameter to run over.
    """
    degree = splines[0].degree
    counts = np.array([len(spline.control) for spline in splines])
    rational = any(spline.weights is not None for spline in splines)
    control = np.concatenate([homogeneous(s) if rational else s.control for s in splines])
    knots = np.concatenate([spline.knots for spline in splines])
    owner = np.repeat(np.arange(len(splines)), counts + degree + 1)
    first_knot = np.concatenate([[0], np.cumsum(counts + degree + 1)[:-1]])
    first_control = np.concatenate([[0], np.cumsum(counts)[:-1]])
    position = np.arange(len(knots)) - first_knot[owner]
    inside = (position >= degree) & (position < counts[owner])
    inside[:-1] &= knots[1:] > knots[:-1]
    at = np.flatnonzero(inside)
    if not np.bincount(owner[at], minlength=len(splines)).all():
        raise ArtworkError("the knots of a spline leave it no length")
    reach = (position[at] + first_control[owner[at]])[:, None] + np.arange(-degree, 1)
    return Spans(
        spline=owner[at],
        start=knots[at],
        end=knots[at + 1],
        control=control[reach],
        knots=knots[at[:, None] + np.arange(1 - degree, degree + 1)],
    )


def homogeneous(spline: Spline) -> Floats:
    """Control points as (m, 3) rows (w x, w y, w)."""
    weights = np.ones(len(spline.control)) if spline.weights is None else spline.weights
    return np.column_stack([spline.control * weights[:, None], weights])


def projected(points: Floats) -> Points:
    """Plane points of (..., 2) or homogeneous (..., 3) rows."""
    if points.shape[-1] == 2:
        return points
    return np.ascontiguousarray(points[..., :2] / points[..., 2:])
