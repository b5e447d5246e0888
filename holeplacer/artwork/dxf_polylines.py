"""LWPOLYLINE and POLYLINE entities, with bulges.

Where a POLYLINE was smoothed (curve fit or spline fit), the file holds the fitted vertices as
well as the frame that a person dragged; the fitted ones are the curve (VERTEX flags of the DXF
reference: 16 is a frame point of a spline fit).
"""

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.dxf_records import Records, Rows
from holeplacer.artwork.dxf_shapes import (
    LARGEST,
    SEEN_FROM_ABOVE,
    TILTED,
    WITHOUT_LENGTH,
    Shapes,
    bounds_fault,
    rises,
    sides,
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
_SUBRECORDS = ("VERTEX", "SEQEND")


def lightweight_polylines(records: Records, within: Indices) -> Shapes:
    """All LWPOLYLINEs."""
    chosen = records.named("LWPOLYLINE", within)
    x, y = records.rows(chosen, 10), records.rows(chosen, 20)
    bulges = _by_vertex(records.rows(chosen, 42), x)
    closed = (records.flags(chosen, 70) & _CLOSED) != 0
    side = sides(records, chosen)
    wide = _wide(records, chosen)
    shapes = Shapes()
    for index, record in enumerate(chosen.tolist()):
        rows = slice(x.first[index], x.first[index + 1])
        if x.first[index + 1] - x.first[index] != y.first[index + 1] - y.first[index]:
            shapes.faults[record] = UNPAIRED
            continue
        xy = np.column_stack([x.value[rows], y.of(index)])
        _put(shapes, record, xy, bulges[rows], bool(closed[index]), side[index])
        if wide[index] and record in shapes.curves:
            shapes.notes[record] = WIDE
    return shapes


def _by_vertex(bulges: Rows, vertices: Rows) -> Floats:
    """Bulges at the vertices they follow in the file, 0 at those that have none."""
    per_vertex = np.zeros(len(vertices.value))
    vertex = np.searchsorted(vertices.tag, bulges.tag) - 1
    per_vertex[vertex[vertex >= 0]] = bulges.value[vertex >= 0]
    return per_vertex


def _wide(records: Records, chosen: Indices) -> NDArray[np.bool_]:
    wide = np.zeros(len(chosen), dtype=bool)
    for code in (40, 41, 43):
        rows = records.rows(chosen, code)
        owner = np.repeat(np.arange(len(chosen)), np.diff(rows.first))
        wide[owner[np.abs(rows.value) > 0]] = True
    return wide


def polylines(records: Records, within: Indices) -> Shapes:
    """All POLYLINEs with the VERTEX records that follow them."""
    chosen = records.named("POLYLINE", within)
    vertices = records.named("VERTEX", within)
    owner = owners(records, within, vertices)
    shapes = Shapes()
    mine = np.isin(owner, chosen)
    shapes.faults.update(dict.fromkeys(vertices[~mine].tolist(), ORPHAN))
    vertices, owner = vertices[mine], owner[mine]
    xyz = np.stack([records.column(vertices, 10), records.column(vertices, 20)], axis=1)
    z, bulges = records.column(vertices, 30, 0.0), records.column(vertices, 42, 0.0)
    kept = (records.flags(vertices, 70) & _FRAME_POINT) == 0
    flags, side = records.flags(chosen, 70), sides(records, chosen)
    wide = _wide(records, chosen)
    first = np.searchsorted(owner, chosen)
    last = np.searchsorted(owner, chosen, side="right")
    for index, record in enumerate(chosen.tolist()):
        rows = np.arange(first[index], last[index])
        fitted = rows[kept[rows]]
        if flags[index] & _MESHES:
            shapes.faults[record] = MESH
        elif len(rows) and not len(fitted):
            shapes.faults[record] = FRAME_ONLY
        else:
            in_space = bool(flags[index] & _IN_SPACE)
            closed = bool(flags[index] & _CLOSED)
            xy, bulge = xyz[fitted], np.zeros(len(fitted)) if in_space else bulges[fitted]
            _put(shapes, record, xy, bulge, closed, 1.0 if in_space else side[index])
            if in_space and record in shapes.curves and rises(z[fitted], float(np.ptp(xy))):
                shapes.notes[record] = SEEN_FROM_ABOVE
            elif wide[index] and record in shapes.curves:
                shapes.notes[record] = WIDE
    return shapes


def owners(records: Records, within: Indices, chosen: Indices) -> Indices:
    """The entity that each VERTEX, SEQEND or ATTRIB among `chosen` follows, -1 if none does.

    Args:
        records: The file.
        within: Records of a section, rising.
        chosen: Some of them.
    """
    main = np.ones(len(records.first), dtype=bool)
    for name in (*_SUBRECORDS, "ATTRIB"):
        main[records.named(name)] = False
    leading = within[main[within]]
    at = np.searchsorted(leading, chosen) - 1
    return np.where(at >= 0, leading[np.maximum(at, 0)] if len(leading) else -1, -1)


def _put(
    shapes: Shapes, record: int, xy: Floats, bulges: Floats, closed: bool, side: float
) -> None:
    """Add a polyline, or the fault that keeps it out."""
    fault = TILTED if side == 0 else next((f for f in bounds_fault(xy) if f), "")
    made = None
    if not fault:
        if side < 0:
            xy, bulges = xy * [-1.0, 1.0], -bulges
        made, fault = _made(xy, bulges, closed)
    if made is None:
        shapes.faults[record] = fault
    else:
        shapes.curves[record] = made


def _made(xy: Floats, bulges: Floats, closed: bool) -> tuple[Polyline | None, str]:
    """A polyline without steps of no length, and closed where its ends are one point."""
    following = np.roll(xy, -1, axis=0)
    step = np.hypot(*(following - xy).T)
    if len(xy) > 1 and not closed and step[-1] == 0.0 and len(xy) > 2:
        closed, xy, bulges, step = True, xy[:-1], bulges[:-1], step[:-1]
    real = step > 0
    if not closed:
        real[-1:], bulges = True, np.append(bulges[:-1], 0.0)
    if real.sum() < 2:
        return None, WITHOUT_LENGTH
    xy, bulges, step = xy[real], bulges[real], step[real]
    if not np.isfinite(bulges).all() or (np.abs(bulges) * step > LARGEST).any():
        return None, BAD_BULGE
    return Polyline(xy, bulges if bulges.any() else None, closed), ""
