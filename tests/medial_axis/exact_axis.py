"""The judge: the exact segment Voronoi diagram of an outline, on an integer grid (Boost)."""

from dataclasses import dataclass

import numpy as np
import pyvoronoi
import shapely


@dataclass(frozen=True)
class ExactAxis:
    """Points of the diagram's edges inside the metal.

    Attributes:
        xy: (n, 2) places.
        radius: (n,) distance to the contour.
        residual: (n,) contour between the two contacts, the shorter way, minus their distance;
            infinite between different rings.
        edges: The edges themselves.
    """

    xy: np.ndarray
    radius: np.ndarray
    residual: np.ndarray
    edges: shapely.MultiLineString


def exact_axis(outline, chord=0.5):
    """Sample the diagram's edges, curved ones with chords no longer than `chord`."""
    start, end, ring, way, ring_length = _segments(outline)
    diagram = pyvoronoi.Pyvoronoi(2**30 // int(2 ** np.ceil(np.log2(np.abs(start).max() + 1))))
    for a, b in zip(start.tolist(), end.tolist(), strict=True):
        diagram.AddSegment([a, b])
    diagram.Construct()
    vertices = np.array([(v.X, v.Y) for v in diagram.GetVertices()])
    edges, cells = diagram.GetEdges(), diagram.GetCells()
    points, sites = [], []
    for number in range(0, len(edges), 2):
        edge = edges[number]
        if not edge.is_primary or edge.start < 0 or edge.end < 0:
            continue
        both = vertices[[edge.start, edge.end]]
        run = _run(diagram, number, edge, both, chord)
        if len(run) < 2 or not (outline.edge_distance(run) > -1e-6).all():
            continue
        points.append(run)
        pair = [cells[edge.cell].site, cells[edges[edge.twin].cell].site]
        sites.append(np.broadcast_to(pair, (len(run), 2)))
    xy, site = np.concatenate(points), np.concatenate(sites)
    inside = outline.edge_distance(xy) > 1e-6
    xy, site = xy[inside], site[inside]
    feet = [_feet(start[s], end[s], xy) for s in site.T]
    ways = [way[s] + np.hypot(*(foot - start[s]).T) for s, foot in zip(site.T, feet, strict=True)]
    around = np.abs(ways[0] - ways[1])
    around = np.minimum(around, ring_length[ring[site[:, 0]]] - around)
    residual = around - np.hypot(*(feet[0] - feet[1]).T)
    residual[ring[site[:, 0]] != ring[site[:, 1]]] = np.inf
    edges = shapely.MultiLineString(points)
    return ExactAxis(xy, np.hypot(*(xy - feet[0]).T), residual, edges)


def branches_and_blobs(axis):
    """An axis as one geometry."""
    lines = [shapely.LineString(branch.xy) for branch in axis.branches]
    return shapely.GeometryCollection([*lines, *shapely.points(axis.node_xy)])


def furthest(xy, geometry):
    """Largest distance from points to a geometry, 0 without points."""
    shapely.prepare(geometry)
    lines = shapely.shortest_line(geometry, shapely.points(xy))
    return float(shapely.length(lines).max(initial=0.0))


def _segments(outline):
    start, end, ring, way, ring_length = [], [], [], [], []
    for piece in outline.pieces:
        for contour in (piece.polygon.exterior, *piece.polygon.interiors):
            xy = np.asarray(contour.coords)
            length = np.hypot(*np.diff(xy, axis=0).T)
            start.append(xy[:-1])
            end.append(xy[1:])
            ring.append(np.full(len(length), len(ring_length)))
            way.append(np.cumsum(length) - length)
            ring_length.append(length.sum())
    joined = [np.concatenate(part) for part in (start, end, ring, way)]
    return (*joined, np.array(ring_length))


def _run(diagram, number, edge, both, chord):
    if edge.is_linear:
        return both[0] + np.linspace(0, 1, 7)[:, None] * (both[1] - both[0])
    if np.hypot(*(both[1] - both[0])) <= chord:
        return both
    return np.array(list(diagram.DiscretizeCurvedEdge(number, chord, 1.0)))


def _feet(start, end, xy):
    step = end - start
    along = ((xy - start) * step).sum(axis=1) / (step**2).sum(axis=1)
    return start + np.clip(along, 0, 1)[:, None] * step
