"""The medial axis beside the bare segment Voronoi diagram it could be taken from.

The peer (Boost.Polygon through pyvoronoi) is timed for building the diagram and fetching its cells
and vertices only: what it gives is neither pruned nor joined to branches, and has no radii. The
second peer is a general-purpose centreline package at the sampling our own axis begins with.
"""

import time
from collections.abc import Callable

import numpy as np
import pyvoronoi
import shapely
from centerline.geometry import Centerline

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline

VERTICES = (2_500, 20_000, 200_000)
SLOWEST_CENTRELINE = 20_000
GRID = 2**18
"""Steps of the peer's integer grid in one millimetre."""


def rows() -> list[tuple[str, float, str, float, float]]:
    """What, our seconds, peer, the peer's seconds, ours by the peer's."""
    table = []
    for vertices in VERTICES:
        outline = lettering(vertices)
        ours = _best_of(lambda outline=outline: medial_axis(outline), 3)
        peers = _best_of(lambda outline=outline: _diagram(outline), 1 if vertices > 50_000 else 3)
        what = f"medial axis of {outline.vertex_count} vertices, {outline.perimeter_mm / 1e3:.0f} m"
        table.append((what, ours, "bare segment Voronoi, built and fetched", peers, ours / peers))
        if vertices <= SLOWEST_CENTRELINE:
            theirs = _best_of(lambda outline=outline: _centrelines(outline), 1)
            name = "centerline, 1 mm samples, unpruned, no radii"
            table.append((what, ours, name, theirs, ours / theirs))
    return table


def lettering(vertices: int) -> Outline:
    """Strokes of a pen, 2 m wide, that cross and enclose counters, in about so many vertices."""
    count = vertices // 4
    turn = np.linspace(0.0, 26.0, count)
    wave = np.column_stack((70 * turn + 55 * np.cos(turn * 1.9), 110 * np.sin(turn * 1.9)))
    flourish = np.column_stack((72 * turn, 60 * np.sin(0.7 * turn) - 90))
    corners = max(4, vertices // 400)
    pens = [
        shapely.LineString(line).buffer(width, quad_segs=corners)
        for line, width in ((wave, 11.0), (flourish, 6.0))
    ]
    dots = [shapely.Point(60 + 330 * k, 150).buffer(14, quad_segs=corners) for k in range(6)]
    return Outline.from_geometry(shapely.union_all([*pens, *dots]))


def _centrelines(outline: Outline) -> int:
    return sum(
        len(shapely.get_parts(Centerline(piece.polygon, interpolation_distance=1.0).geometry))
        for piece in outline.pieces
    )


def _diagram(outline: Outline) -> int:
    diagram = pyvoronoi.Pyvoronoi(GRID)
    for piece in outline.pieces:
        for ring in (piece.polygon.exterior, *piece.polygon.interiors):
            xy = np.round(np.asarray(ring.coords) * GRID) / GRID
            step = np.flatnonzero((xy[1:] != xy[:-1]).any(axis=1))
            for segment in np.stack((xy[:-1], xy[1:]), axis=1)[step].tolist():
                diagram.AddSegment(segment)
    diagram.Construct()
    return len(diagram.GetCells()) + len(diagram.GetVertices())


def _best_of(call: Callable[[], object], times: int) -> float:
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        call()
        taken.append(time.perf_counter() - start)
    return min(taken)
