"""LWPOLYLINE and POLYLINE entities, with bulges.

Where a POLYLINE was smoothed (curve fit or spline fit), the file holds the fitted vertices as
well as the frame that a person dragged; the fitted ones are the curve (VERTEX flags of the DXF
reference: 16 is a frame point of a spline fit).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.dxf_records import Records, Rows
from holeplacer.artwork.dxf_shapes import (
    LARGEST,
    LEVEL,
    NOT_A_NUMBER,
    SEEN_FROM_ABOVE,
    TILTED,
    TOO_LARGE,
    WITHOUT_LENGTH,
    Shapes,
    add_fault,
    sides,
    spans,
)
from holeplacer.artwork.dxf_tags import Floats, Indices
from holeplacer.geometry.curve import Polyline

UNPAIRED = "with unpaired coordinates"
MESH = "that is a surface mesh"
FRAME_ONLY = "that holds only the frame of its spline"
BAD_BULGE = "with a bulge that is not a number or describes an arc beyond all bounds"
WIDE = "with a width: its centre line is read"
ORPHAN = "that belongs to no polyline"

_CLOSED, _IN_SPACE, _MESHES = 1, 8, 16 | 64
_FRAME_POINT = 16


@dataclass(frozen=True, eq=False)
class _Vertices:
    """Vertices of m polylines, one after the other.

    Attributes:
        first: (m + 1,) row of each polyline's first vertex.
        xyz: (n, 3) vertices, or (n, 2) without heights.
        bulges: (n,) bulge of the step that starts at each.
        closed: (m,) flagged closed.
    """

    first: Indices
    xyz: Floats
    bulges: Floats
    closed: NDArray[np.bool_]

    @property
    def owner(self) -> Indices:
        """(n,) which polyline each vertex is of."""
        return np.repeat(np.arange(len(self.closed)), np.diff(self.first))


def lightweight_polylines(records: Records, within: Indices) -> Shapes:
    """All LWPOLYLINEs."""
    chosen = records.named("LWPOLYLINE", within)
    x, y = records.rows(chosen, 10), records.rows(chosen, 20)
    paired = np.diff(x.first) == np.diff(y.first)
    faults = np.full(len(chosen), "", dtype=object)
    add_fault(faults, ~paired, UNPAIRED)
    add_fault(faults, sides(records, chosen) == 0, TILTED)
    of_x = np.repeat(paired, np.diff(x.first))
    of_y = np.repeat(paired, np.diff(y.first))
    count = np.where(paired, np.diff(x.first), 0)
    xs, ys = x.value[of_x], y.value[of_y]
    vertices = _Vertices(
        first=np.concatenate([[0], np.cumsum(count)]),
        xyz=np.column_stack([xs, ys, np.zeros(len(xs))]),
        bulges=_by_vertex(records.rows(chosen, 42), x)[of_x],
        closed=(records.flags(chosen, 70) & _CLOSED) != 0,
    )
    shapes = _shapes(chosen, vertices, faults, sides(records, chosen))
    _note(chosen, shapes, _wide(records, chosen), WIDE)
    return shapes


def _by_vertex(bulges: Rows, vertices: Rows) -> Floats:
    """Bulges at the vertices they follow in the file, 0 at those that have none."""
    per_vertex = np.zeros(len(vertices.value))
    vertex = np.searchsorted(vertices.tag, bulges.tag) - 1
    per_vertex[vertex[vertex >= 0]] = bulges.value[vertex >= 0]
    return per_vertex


def polylines(records: Records, within: Indices) -> Shapes:
    """All POLYLINEs with the VERTEX records that follow them."""
    chosen = records.named("POLYLINE", within)
    vertex, orphans = _vertices_of(records, within, chosen)
    owner = np.searchsorted(chosen, vertex, side="right") - 1
    flags, side = records.flags(chosen, 70), sides(records, chosen)
    in_space = (flags & _IN_SPACE) != 0
    fitted = (records.flags(vertex, 70) & _FRAME_POINT) == 0
    faults = np.full(len(chosen), "", dtype=object)
    add_fault(faults, (flags & _MESHES) != 0, MESH)
    met = np.bincount(owner, minlength=len(chosen))
    vertex, owner = vertex[fitted], owner[fitted]
    kept = np.bincount(owner, minlength=len(chosen))
    add_fault(faults, (met > 0) & (kept == 0), FRAME_ONLY)
    add_fault(faults, (side == 0) & ~in_space, TILTED)
    places = [records.column(vertex, code, default) for code, default in _PLACE]
    vertices = _Vertices(
        first=np.concatenate([[0], np.cumsum(kept)]),
        xyz=np.column_stack(places),
        bulges=np.where(in_space[owner], 0.0, records.column(vertex, 42, 0.0)),
        closed=(flags & _CLOSED) != 0,
    )
    shapes = _shapes(chosen, vertices, faults, np.where(in_space, 1.0, side))
    of_vertex = _wide(records, vertex) & ~in_space[owner]
    _note(chosen, shapes, _wide(records, chosen) | _any(owner, of_vertex, len(chosen)), WIDE)
    extent = [spans(axis, vertices.first) for axis in vertices.xyz.T]
    rises = extent[2] > LEVEL * (extent[0] + extent[1])
    _note(chosen, shapes, in_space & rises, SEEN_FROM_ABOVE)
    shapes.faults.update(dict.fromkeys(orphans.tolist(), ORPHAN))
    return shapes


_PLACE = ((10, float("nan")), (20, float("nan")), (30, 0.0))


def _vertices_of(records: Records, within: Indices, chosen: Indices) -> tuple[Indices, Indices]:
    """VERTEX records that follow one of the chosen records directly, and those that don't."""
    vertices = records.named("VERTEX", within)
    leading = np.setdiff1d(within, vertices, assume_unique=True)
    at = np.searchsorted(leading, vertices) - 1
    owner = np.where(at >= 0, leading[np.maximum(at, 0)], -1) if len(leading) else at
    mine = np.isin(owner, chosen)
    return vertices[mine], vertices[~mine]


def _shapes(
    chosen: Indices, vertices: _Vertices, faults: NDArray[np.object_], side: Floats
) -> Shapes:
    """Polylines without steps of no length, closed where their ends are one point."""
    xyz, owner, count = _bounded(vertices, faults), vertices.owner, np.diff(vertices.first)
    mirror = np.where(side[owner] < 0, -1.0, 1.0)
    xy = xyz[:, :2] * np.column_stack([mirror, np.ones(len(xyz))])
    step = _steps(vertices.first, xy)
    last = vertices.first[1:][count > 0] - 1
    closed = vertices.closed.copy()
    closed[owner[last]] |= (step[last] == 0) & (count[owner[last]] > 2)
    open_end = last[~closed[owner[last]]]
    bulges = vertices.bulges * mirror
    bulges[open_end] = 0.0
    real = step > 0
    real[open_end] = True
    size = np.minimum(np.abs(np.nan_to_num(bulges)), LARGEST**2)
    usable = np.isfinite(bulges) & (size * step <= LARGEST)
    add_fault(faults, _any(owner, ~usable & real, len(chosen)), BAD_BULGE)
    remaining = np.bincount(owner[real], minlength=len(chosen))
    add_fault(faults, remaining < 2, WITHOUT_LENGTH)
    begin = np.concatenate([[0], np.cumsum(remaining)])
    kept = _Vertices(begin, np.ascontiguousarray(xy[real]), bulges[real], closed)
    return _made(chosen, kept, faults)


def _steps(first: Indices, xy: Floats) -> Floats:
    """Distance from each vertex to the next of its polyline, from the last one to the first."""
    filled = np.diff(first) > 0
    following = np.arange(1, len(xy) + 1)
    following[first[1:][filled] - 1] = first[:-1][filled]
    across = xy[following] - xy
    return np.hypot(across[:, 0], across[:, 1])


def _made(chosen: Indices, kept: _Vertices, faults: NDArray[np.object_]) -> Shapes:
    """Polylines from their remaining vertices (x and y only)."""
    shapes = Shapes()
    bent = _any(kept.owner, kept.bulges != 0, len(chosen)).tolist()
    begin, closed = kept.first.tolist(), kept.closed.tolist()
    for index, (record, fault) in enumerate(zip(chosen.tolist(), faults.tolist(), strict=True)):
        if fault:
            shapes.faults[record] = fault
            continue
        rows = slice(begin[index], begin[index + 1])
        arcs = kept.bulges[rows] if bent[index] else None
        shapes.curves[record] = Polyline(kept.xyz[rows], arcs, closed[index])
    return shapes


def _bounded(vertices: _Vertices, faults: NDArray[np.object_]) -> Floats:
    """Coordinates with zeros for those that are out of bounds; their polylines get the fault."""
    xyz, owner = vertices.xyz, vertices.owner
    number = ~(np.isnan(xyz[:, 0]) | np.isnan(xyz[:, 1]) | np.isnan(xyz[:, 2]))
    bounded = np.abs(np.nan_to_num(xyz)).max(axis=1, initial=0.0) <= LARGEST
    add_fault(faults, _any(owner, ~number, len(faults)), NOT_A_NUMBER)
    add_fault(faults, _any(owner, ~bounded, len(faults)), TOO_LARGE)
    return np.where((number & bounded)[:, None], xyz, 0.0)


def _any(owner: Indices, marked: NDArray[np.bool_], count: int) -> NDArray[np.bool_]:
    """Which polylines have a marked vertex."""
    return np.bincount(owner[marked], minlength=count) > 0


def _wide(records: Records, chosen: Indices) -> NDArray[np.bool_]:
    wide = np.zeros(len(chosen), dtype=bool)
    for code in (40, 41, 43):
        rows = records.rows(chosen, code)
        owner = np.repeat(np.arange(len(chosen)), np.diff(rows.first))
        wide[owner[np.abs(rows.value) > 0]] = True
    return wide


def _note(chosen: Indices, shapes: Shapes, where: NDArray[np.bool_], note: str) -> None:
    for record in chosen[where].tolist():
        if record in shapes.curves:
            shapes.notes[record] = note
