"""Homography: the plane map that leads from a photograph to the wall.

Two points scale and turn the picture (a similarity); four square it up, whatever the angle it was
taken from: the normalized direct linear transformation (R. Hartley, A. Zisserman, Multiple View
Geometry, 2nd ed., Algorithm 4.2; from memory, held to exact maps in the tests).
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from holeplacer.errors import InputError
from holeplacer.geometry.curve import Points
from holeplacer.wall.photo import PhotoPoint

Matrix = NDArray[np.float64]
"""(3, 3), applied to (x, y, 1); defined up to a factor."""

_LEAST_AREA = 1e-4
"""Three of four points whose triangle is smaller, by the square of the greatest distance, are
taken for points of one line."""

_LEAST_LENGTH = 1e-9


def of_points(points: Sequence[PhotoPoint]) -> Matrix:
    """The map from pixels (y down) to wall coordinates, by two or four known points.

    Raises:
        InputError: There are not two or four, two coincide, three lie on one line, or the four go
            round the other way on the wall than in the picture.
    """
    if len(points) == 2:
        return similarity(points)
    if len(points) != 4:
        raise InputError(
            f"{len(points)} points don't place it",
            where="photograph",
            remedy="two scale it, four square it up",
        )
    pixels = np.array([(point.x_px, point.y_px) for point in points])
    places = np.array([(point.x_mm, point.y_mm) for point in points])
    _check_four(pixels, "in the picture")
    _check_four(places, "on the wall")
    if not np.array_equal(_turns(pixels) > 0, _turns(places) < 0):
        raise InputError(
            "the four points don't follow each other on the wall as in the picture",
            where="photograph",
            remedy="enter their places in the order in which they were picked",
        )
    return four_points(pixels, places)


def similarity(points: Sequence[PhotoPoint]) -> Matrix:
    """The map that scales and turns, by two known points; no stretch, no mirror but y down to up.

    Raises:
        InputError: Both are the same in the picture or on the wall.
    """
    one, two = points
    # In complex numbers with the picture's y turned up: place = factor * pixel + shift.
    pixel = [complex(point.x_px, -point.y_px) for point in (one, two)]
    place = [complex(point.x_mm, point.y_mm) for point in (one, two)]
    if abs(pixel[1] - pixel[0]) < _LEAST_LENGTH or abs(place[1] - place[0]) < _LEAST_LENGTH:
        raise InputError(
            "both known points are the same", where="photograph", remedy="pick two far apart"
        )
    factor = (place[1] - place[0]) / (pixel[1] - pixel[0])
    shift = place[0] - factor * pixel[0]
    return np.array(
        [
            [factor.real, factor.imag, shift.real],
            [factor.imag, -factor.real, shift.imag],
            [0.0, 0.0, 1.0],
        ]
    )


def four_points(one: ArrayLike, two: ArrayLike) -> Matrix:
    """The map that takes four points to four others, no three of either on a line.

    Args:
        one: (4, 2).
        two: (4, 2), in the same order.
    """
    near_one, near_two = _centring(np.asarray(one, float)), _centring(np.asarray(two, float))
    from_xy, to_xy = applied(near_one, one), applied(near_two, two)
    rows = []
    for (x, y), (u, v) in zip(from_xy.tolist(), to_xy.tolist(), strict=True):
        rows.append([-x, -y, -1.0, 0.0, 0.0, 0.0, u * x, u * y, u])
        rows.append([0.0, 0.0, 0.0, -x, -y, -1.0, v * x, v * y, v])
    *_, right = np.linalg.svd(np.array(rows))
    matrix = np.linalg.inv(near_two) @ right[-1].reshape(3, 3) @ near_one
    # So scaled that w is about 1 over the points: a sign change across the picture is its horizon.
    weight = (np.column_stack([np.asarray(one, float), np.ones(4)]) @ matrix[2]).mean()
    return np.asarray(matrix / weight, float)


def applied(matrix: Matrix, xy: ArrayLike) -> Points:
    """(n, 2) points carried by a map.

    Args:
        matrix: The map.
        xy: (n, 2). A point on the map's horizon goes to infinity.
    """
    points = np.asarray(xy, float).reshape(-1, 2)
    carried = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(carried[:, :2] / carried[:, 2:], float)


def in_sight(matrix: Matrix, xy: ArrayLike) -> NDArray[np.bool_]:
    """(n,) whether points lie on the near side of the map's horizon, where the wall is."""
    points = np.asarray(xy, float).reshape(-1, 2)
    return np.asarray(np.column_stack([points, np.ones(len(points))]) @ matrix[2] > 0)


def inverse(matrix: Matrix) -> Matrix:
    """The map back, from the wall to the picture."""
    back = np.linalg.inv(matrix)
    return np.asarray(back, float)


def _centring(xy: Points) -> Matrix:
    """Moves points about the origin, at a mean distance of the square root of 2."""
    middle = xy.mean(axis=0)
    scale = np.sqrt(2.0) / np.hypot(*(xy - middle).T).mean()
    return np.array([[scale, 0.0, -scale * middle[0]], [0.0, scale, -scale * middle[1]], [0, 0, 1]])


def _turns(xy: Points) -> NDArray[np.float64]:
    """Twice the signed area of each triangle that leaves one of four points out."""
    corners = np.array([np.delete(xy, leave, axis=0) for leave in range(4)])
    one, two = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    return np.asarray(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0], float)


def _check_four(xy: Points, where: str) -> None:
    reach = max(float(np.hypot(*(xy - xy[i]).T).max()) for i in range(4))
    if reach < _LEAST_LENGTH or np.abs(_turns(xy)).min() < _LEAST_AREA * reach**2:
        raise InputError(
            f"three of the four points lie on one line {where}, or two are the same",
            where="photograph",
            remedy="pick the four corners of something rectangular",
        )
