"""Plate mesh: triangles of a piece, as small as its strokes are thin."""

from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree
from shapely.geometry import Polygon

from holeplacer.geometry.curve import Points
from holeplacer.structure import triangles
from holeplacer.structure.stations import Stations

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

ACROSS = 2.0
"""Triangles across a stroke."""
COUNTED = 14.0
"""Triangles along a piece at least: a dot or a panel is wide everywhere, and yet bends."""
SMALLEST = 0.5
"""Shortest side asked for, as a share of the longest."""
CORNER = 0.5
"""A turn of the contour sharper than this, radians, is kept as a corner of the mesh."""
NOTCH = 0.8
"""A turn into the metal sharper than this, radians, within two shortest sides, is a notch."""
AT_NOTCH = 0.25
"""Sides at a notch, as a share of those elsewhere."""
GROWTH = 0.5
"""By how much sides grow with the distance from a notch."""
_ROW = 1 << 31
"""Grid points to a row, more than any sign has."""


@dataclass(frozen=True, eq=False)
class _Sizes:
    """How long a side may be anywhere."""

    tree: cKDTree
    wanted: Floats
    smallest: float
    largest: float
    notches: cKDTree | None

    def at(self, xy: Points) -> Floats:
        found: Floats = self.wanted[self.tree.query(xy)[1]]
        if self.notches is None:
            return found
        far, _ = self.notches.query(xy, distance_upper_bound=self.largest / GROWTH)
        fine = np.minimum(AT_NOTCH * found + GROWTH * far, found)
        return np.maximum(fine, AT_NOTCH * self.smallest)


def plate_mesh(polygon: Polygon, strip: Stations, across: float = ACROSS) -> tuple[Points, Indices]:
    """Corners and triangles of a piece.

    Args:
        polygon: The piece.
        strip: Stations of its axis, which tell how wide it is where.
        across: Triangles across a stroke.
    """
    left, bottom, right, top = polygon.bounds
    drawn = [shapely.get_coordinates(r) for r in (polygon.exterior, *polygon.interiors)]
    sizes = _sizes(strip, across, max(right - left, top - bottom) * (ACROSS / across) / COUNTED)
    sizes = replace(sizes, notches=_notches(drawn, sizes.smallest))
    rings = [_resampled(ring, sizes) for ring in drawn]
    shell = Polygon(rings[0], [ring for ring in rings[1:] if len(ring) > 2])
    if not shell.is_valid:
        simple = shapely.simplify(polygon, 0.05 * sizes.smallest)
        shell = simple if simple.is_valid else polygon
    xy, corners = _meshed(shell, sizes, strip)
    if not _joined(corners, len(xy)):
        # resampling has cut a neck thinner than its own steps: take the contour as it is
        xy, corners = _meshed(polygon, sizes, strip)
    return xy, corners


def _meshed(shell: Polygon, sizes: _Sizes, strip: Stations) -> tuple[Points, Indices]:
    """Triangles of some size, and the corners that they use."""
    xy, corners = triangles.triangles(shell, _inner(shell, sizes, strip))
    corners = corners[triangles.areas(xy, corners) > 1e-9 * sizes.smallest**2]
    used, corners = np.unique(corners, return_inverse=True)
    return xy[used], corners.reshape(-1, 3)


def _joined(corners: Indices, count: int) -> bool:
    """Whether all triangles hang together."""
    ends = np.concatenate([corners[:, :2], corners[:, 1:]])
    links = coo_array((np.ones(len(ends)), (ends[:, 0], ends[:, 1])), shape=(count, count))
    return int(connected_components(links, directed=False)[0]) == 1


def _sizes(strip: Stations, across: float, most: float) -> _Sizes:
    width = 2.0 * strip.clearance
    largest = min(float(np.quantile(width, 0.9)) / across, most)
    smallest = SMALLEST * largest
    return _Sizes(
        cKDTree(strip.xy), np.clip(width / across, smallest, largest), smallest, largest, None
    )


def _notches(rings: list[Points], lag: float) -> cKDTree | None:
    """Places where the contour turns sharply into the metal: there the plate bends most.

    Args:
        rings: Contours with metal to the left.
        lag: Way along which a contour turns before and after a notch, mm.
    """
    found: list[Points] = []
    for ring in rings:
        step = np.diff(ring, axis=0)
        way = np.concatenate([[0.0], np.cumsum(np.hypot(step[:, 0], step[:, 1]))])
        at = np.linspace(0.0, way[-1], max(8, int(4.0 * way[-1] / lag)), endpoint=False)

        def place(s: Floats, way: Floats = way, ring: Points = ring) -> Points:
            return np.column_stack([np.interp(s % way[-1], way, c) for c in ring.T])

        one, two = place(at) - place(at - lag), place(at + lag) - place(at)
        turn = np.arctan2(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0], (one * two).sum(axis=1))
        sharp = (turn < -NOTCH) & (turn <= np.roll(turn, 1)) & (turn < np.roll(turn, -1))
        found.append(place(at[sharp]))
    every = np.concatenate(found)
    return cKDTree(every) if len(every) else None


def _resampled(ring: Points, sizes: _Sizes) -> Points:
    """Points of a ring as far apart as sizes say, its corners kept."""
    step = np.diff(ring, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    way = np.concatenate([[0.0], np.cumsum(length)])
    fine = np.linspace(0.0, way[-1], max(24, int(2.0 * way[-1] / sizes.smallest)) + 1)

    def place(at: Floats) -> Points:
        return np.column_stack([np.interp(at, way, c) for c in ring.T])

    wanted = sizes.at(place(fine))
    count_to = np.concatenate([[0.0], np.cumsum(np.diff(fine) / wanted[1:])])
    corners = _corners(step, way, sizes.smallest)
    if not len(corners):
        count = max(6, int(np.ceil(count_to[-1])))
        at = np.interp(np.linspace(0, count_to[-1], count, endpoint=False), count_to, fine)
        return place(at)
    # from corner to corner a whole number of steps
    marks = np.interp(corners, fine, count_to)
    gaps = np.diff(np.append(marks, marks[0] + count_to[-1]))
    parts = np.maximum(np.ceil(gaps - 0.2), 1).astype(int)
    at_count = np.concatenate(
        [m + g * np.arange(p) / p for m, g, p in zip(marks, gaps, parts, strict=True)]
    )
    at = np.interp(at_count % count_to[-1], count_to, fine)
    points = place(at)
    points[np.cumsum(parts) - parts] = place(corners)
    return points


def _corners(step: Points, way: Floats, lag: float) -> Floats:
    """Ways to the sharp corners of a ring."""
    heading = np.arctan2(step[:, 1], step[:, 0])
    turn = np.abs(np.angle(np.exp(1j * (heading - np.roll(heading, 1)))))
    sharp = way[:-1][turn > CORNER]
    keep = np.ones(len(sharp), bool)
    last = -np.inf
    for index, at in enumerate(sharp):
        keep[index] = at - last > lag
        last = at if keep[index] else last
    return sharp[keep]


def _inner(shell: Polygon, sizes: _Sizes, strip: Stations) -> Points:
    """Grid points inside, on a grid as fine as the stroke needs, off the contour."""
    edge = cKDTree(shapely.get_coordinates(shell))
    boundary = shell.boundary
    shapely.prepare(shell)
    shapely.prepare(boundary)
    found: list[Points] = []
    step = sizes.largest
    while step >= 0.99 * sizes.smallest * (1.0 if sizes.notches is None else AT_NOTCH):
        near = (sizes.wanted > 0.6 * step) & ((sizes.wanted < 2.5 * step) | (step == sizes.largest))
        centres, reach = strip.xy[near], strip.clearance[near]
        if sizes.notches is not None:
            notched = np.asarray(sizes.notches.data)
            centres = np.concatenate([centres, notched])
            reach = np.concatenate([reach, np.full(len(notched), 2.0 * step / GROWTH)])
        grid = _grid(centres, reach, step)
        if len(grid):
            wanted = sizes.at(grid)
            grid = grid[(wanted >= step) & ((wanted < 2 * step) | (step == sizes.largest))]
        if len(grid):
            grid = grid[shapely.contains_xy(shell, grid[:, 0], grid[:, 1])]
        if len(grid):
            off = shapely.length(shapely.shortest_line(boundary, shapely.points(grid)))
            grid = grid[(off > 0.5 * step) & (edge.query(grid)[0] > 0.6 * step)]
        found.append(grid)
        step /= 2.0
    return np.concatenate(found)


def _grid(xy: Points, radius: Floats, step: float) -> Points:
    """Points of a grid of equilateral triangles within discs."""
    down = step * np.sqrt(0.75)
    cells: list[NDArray[np.int64]] = [np.empty(0, np.int64)]
    reach_of = np.ceil(radius / down).astype(np.int64)
    for reach in np.unique(reach_of):
        ring = np.arange(-reach, reach + 1)
        some = xy[reach_of == reach] / (step, down)
        centre = np.unique(_key(*np.rint(some).astype(np.int64).T))
        cells.append(np.unique(centre[:, None, None] + _key(ring[:, None], ring[None])))
    key = np.unique(np.concatenate(cells))
    row = np.rint(key / _ROW).astype(np.int64)
    column = key - row * _ROW
    return np.column_stack([(column + 0.5 * (row % 2)) * step, row * down])


def _key(column: NDArray[np.int64], row: NDArray[np.int64]) -> NDArray[np.int64]:
    """One number for each grid point, so that equal ones are found by sorting."""
    return column + row * _ROW
