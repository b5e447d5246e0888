"""Contents of the drawing and of each block: what is a curve, what an insertion, what neither."""

from collections import Counter
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.dxf_blocks import Count, Inserts, inserts_of
from holeplacer.artwork.dxf_curves import circles, ellipses, lines
from holeplacer.artwork.dxf_layers import Layers
from holeplacer.artwork.dxf_polylines import lightweight_polylines, polylines
from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_shapes import Shapes
from holeplacer.artwork.dxf_splines import splines
from holeplacer.artwork.dxf_tags import Indices
from holeplacer.errors import ArtworkError

MOST_CURVES = 20_000
"""Curves other than loose lines in one file; lettering has hundreds, seldom thousands. What comes
after reading takes about 0.1 ms a curve (measured), and all of it should end within 10 s."""

MOST_LINES = 200_000
"""Loose lines in one file; they take about 0.01 ms each, from the file to the outline."""

NOT_READ = {
    "HATCH": "not read: a fill; only drawn curves make the outline",
    "MPOLYGON": "not read: a fill; only drawn curves make the outline",
    "SOLID": "not read: a fill; only drawn curves make the outline",
    "TRACE": "not read: a fill; only drawn curves make the outline",
    "TEXT": "not read: lettering must be converted to curves",
    "MTEXT": "not read: lettering must be converted to curves",
    "ATTRIB": "not read: lettering must be converted to curves",
    "ATTDEF": "not read: lettering must be converted to curves",
    "IMAGE": "not read: a picture",
    "OLE2FRAME": "not read: a picture",
    "3DFACE": "not read: a surface in space",
    "3DSOLID": "not read: a solid in space",
    "BODY": "not read: a solid in space",
    "REGION": "not read: explode it to curves",
    "MLINE": "not read: explode it to curves",
    "POINT": "not read: has no length",
    "XLINE": "not read: a construction line without end",
    "RAY": "not read: a construction line without end",
}
OTHERWISE_NOT_READ = "not read: not a curve of an outline"
INVISIBLE = "marked invisible"
IN_PAPER_SPACE = "in paper space (a sheet layout)"

PARTS = ("VERTEX", "SEQEND", "ENDBLK", "VIEWPORT")
"""Read with their owner, or no part of a drawing."""

_OTHER, _LINE, _INSERT, _PART = 0, 1, 2, 3


@dataclass(frozen=True, eq=False)
class Contents:
    """What a block, or the drawing itself, holds.

    Attributes:
        lines: (n,) rows of `Shapes.line`.
        curves: Records of all other curves, in the file's order.
        inserts: Rows of `Roles.inserts`.
        left_out: Everything else by (entity, layer, why), with how many there are.
    """

    lines: Indices
    curves: tuple[int, ...]
    inserts: Indices
    left_out: Counter[tuple[str, int, str]]

    def count(self, records: Records) -> Count:
        """Number of its own curves and of their points (half their tags, at most too many)."""
        curves = np.array(self.curves, dtype=np.intp)
        tags = int((records.last[curves] - records.first[curves]).sum())
        return Count(len(curves) + len(self.lines), tags // 2 + 2 * len(self.lines), 0)


def shapes_of(records: Records, within: Indices) -> Shapes:
    """All curves among some records.

    Raises:
        ArtworkError: There are more than `MOST_LINES` loose lines or `MOST_CURVES` others.
    """
    kinds = ("CIRCLE", "ARC", "ELLIPSE", "LWPOLYLINE", "POLYLINE", "SPLINE")
    curves = sum(len(records.named(kind, within)) for kind in kinds)
    loose_lines = len(records.named("LINE", within))
    for count, most, what in ((curves, MOST_CURVES, "curves"), (loose_lines, MOST_LINES, "lines")):
        if count > most:
            raise ArtworkError(
                f"the drawing holds {count} {what}, more than the {most} that are read",
                remedy="keep only the outline, or join its pieces to polylines",
            )
    shapes = lines(records, within)
    for decoder in (circles, ellipses, lightweight_polylines, polylines, splines):
        shapes = shapes.with_all(decoder(records, within))
    return shapes


@dataclass(frozen=True, eq=False)
class Roles:
    """What each record of the file is good for, worked out once for all blocks.

    Attributes:
        records: The file.
        layers: Its layers.
        shapes: What could be made of its entities.
        inserts: Its insertions.
        invisible: (n,) marked invisible.
        in_paper: (n,) lying in paper space.
        role: (n,) line, insertion, part of another entity, or something else.
    """

    records: Records
    layers: Layers
    shapes: Shapes
    inserts: Inserts
    invisible: NDArray[np.bool_]
    in_paper: NDArray[np.bool_]
    role: NDArray[np.int8]


def roles_of(records: Records, layers: Layers, shapes: Shapes, within: Indices) -> Roles:
    """Roles of all records, given what could be made of the entities among some of them."""
    every = np.arange(len(records.first))
    invisible, in_paper = (records.flags(every, code) == 1 for code in (60, 67))
    role = np.full(len(every), _OTHER, dtype=np.int8)
    for name in PARTS:
        role[records.named(name)] = _PART
    role[np.array(list(shapes.faults), dtype=np.intp)] = _OTHER
    role[shapes.line] = _LINE
    inserts = inserts_of(records, within)
    role[inserts.record] = _INSERT
    role[(role != _PART) & (invisible | in_paper)] = _OTHER
    return Roles(records, layers, shapes, inserts, invisible, in_paper, role)


def contents_of(roles: Roles, within: Indices) -> Contents:
    """Sort the records of a block, or of the drawing, by what can be made of them."""
    role = roles.role[within]
    lines_here = np.searchsorted(roles.shapes.line, within[role == _LINE])
    inserts_here = np.searchsorted(roles.inserts.record, within[role == _INSERT])
    curves = []
    left_out: Counter[tuple[str, int, str]] = Counter()
    for record in within[role == _OTHER].tolist():
        visible = not (roles.invisible[record] or roles.in_paper[record])
        if visible and record in roles.shapes.curves:
            curves.append(record)
        else:
            left_out[_left_out(roles, record)] += 1
    return Contents(lines_here, tuple(curves), inserts_here, left_out)


def _left_out(roles: Roles, record: int) -> tuple[str, int, str]:
    """Entity, layer and reason of something that is not read."""
    name, layer = roles.records.name(record), int(roles.layers.of_record[record])
    if roles.in_paper[record]:
        return name, layer, IN_PAPER_SPACE
    if roles.invisible[record]:
        return name, layer, INVISIBLE
    fault = roles.shapes.faults.get(record) or roles.inserts.faults.get(record)
    return name, layer, fault or NOT_READ.get(name, OTHERWISE_NOT_READ)
