"""Tracing: which drawn curves the rings of an outline are still made of.

After uniting, offsetting and swelling, most vertices of a ring are still those that flattening
put on the artist's curves, bit for bit. Tracing turns the ring back into stretches of those
curves, so that a spline goes out as a spline, and into chords where mending made new edges.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.outline.drawn import DrawnCurves


@dataclass(frozen=True)
class Run:
    """A stretch of one drawn curve, as the ring follows it.

    Attributes:
        curve: Index into `DrawnCurves.curves`.
        t0: Parameter where the ring meets the curve.
        t1: Parameter where it leaves; less than `t0` where the ring runs against the curve.
    """

    curve: int
    t0: float
    t1: float


@dataclass(frozen=True, eq=False)
class Chords:
    """Straight steps that lie on no drawn curve.

    Attributes:
        xy: (n, 2) points, n >= 2; the first and last are shared with the neighbouring stretches,
            and equal where the whole ring is chords.
    """

    xy: Points


def trace(ring_xy: Points, drawn: DrawnCurves) -> tuple[Run | Chords, ...]:
    """Turn a ring back into stretches of drawn curves and chords between them, in ring order.

    A step of the ring belongs to a curve if both its ends were made by flattening that curve, one
    right after the other. A whole closed curve comes back as one run over its full parameter
    range; a ring that passes the start of a closed curve it holds only in part is two runs there.

    Args:
        ring_xy: (n, 2) vertices of a closed ring; the first may be repeated at the end.
        drawn: The curves and the points that flattening made of them.
    """
    ring = _without_repeats(np.asarray(ring_xy, float))
    if len(ring) == 0:
        return ()
    row, step = _matched_rows(ring, drawn)
    starts = np.flatnonzero(_breaks(row, step))
    first = int(starts[0]) if len(starts) else 0
    row, step, ring = np.roll(row, -first), np.roll(step, -first), np.roll(ring, -first, axis=0)
    closed = np.vstack([ring, ring[:1]])
    bounds = np.append((starts - first) if len(starts) else [0], len(ring))
    return tuple(
        _stretch(closed[begin : end + 1], row[begin], row[end - 1] + step[end - 1], drawn)
        for begin, end in zip(bounds[:-1].tolist(), bounds[1:].tolist(), strict=True)
    )


def _without_repeats(ring: Points) -> Points:
    """Drop vertices equal to their predecessor, the closing one too."""
    return ring[np.any(ring != np.roll(ring, 1, axis=0), axis=1)]


def _matched_rows(ring: Points, drawn: DrawnCurves) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """For each step of the ring, the row it starts from and +1 or -1 to the row it ends in.

    Returns:
        Row, -1 where the step lies on no curve; and the step between rows, 0 there.
    """
    keys, order = drawn.by_place
    at = _places(ring)
    low, high = np.searchsorted(keys, at, "left"), np.searchsorted(keys, at, "right")
    count = high - low
    vertex = np.repeat(np.arange(len(ring)), count)
    nth = np.arange(len(vertex)) - np.repeat(np.cumsum(count) - count, count)
    rows = order[np.repeat(low, count) + nth]
    target = np.roll(ring, -1, axis=0)[vertex]
    row = np.full(len(ring), -1, dtype=np.intp)
    step = np.zeros(len(ring), dtype=np.intp)
    for direction in (-1, 1):
        after = np.clip(rows + direction, 0, len(drawn.xy) - 1)
        fits = (
            (after != rows)
            & (drawn.curve[after] == drawn.curve[rows])
            & np.all(drawn.xy[after] == target, axis=1)
        )
        row[vertex[fits][::-1]] = rows[fits][::-1]
        step[vertex[fits]] = direction
    return row, step


def _breaks(row: NDArray[np.intp], step: NDArray[np.intp]) -> NDArray[np.bool_]:
    """Whether a new stretch begins at each vertex of the ring."""
    before, step_before = np.roll(row, 1), np.roll(step, 1)
    goes_on = (step == step_before) & ((step == 0) | (row == before + step_before))
    return np.asarray(~goes_on)


def _stretch(xy: Points, first: int, last: int, drawn: DrawnCurves) -> Run | Chords:
    if first < 0:
        return Chords(np.ascontiguousarray(xy))
    return Run(int(drawn.curve[first]), float(drawn.t[first]), float(drawn.t[last]))


def _places(xy: Points) -> NDArray[np.complex128]:
    """Points as single sortable values; + 0.0 makes minus zero plain."""
    return np.ascontiguousarray(xy + 0.0).view(np.complex128).ravel()
