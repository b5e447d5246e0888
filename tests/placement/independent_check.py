"""A brute-force judge: dense samples, own shortest ways, shapely; no rule's own code."""

import itertools
from dataclasses import dataclass

import numpy as np
import shapely
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra


@dataclass(frozen=True)
class Judged:
    """Worst figures of a layout, mm.

    `way` and `tip` are the greatest ways to a hole among axis samples and tips that some place
    with metal enough is near enough to; `edge` and `apart` the least distances.
    """

    way: float
    tip: float
    edge: float
    apart: float


def judge(region, axis, holes, half_mm, overhang_mm, least_mm, pitch_mm=1.0):
    """Judge holes [(x, y)] on a shapely region with its axis."""
    graph = _Graph(axis, pitch_mm)
    boundary = region.boundary
    points = [shapely.Point(xy) for xy in holes]
    edge = [boundary.distance(p) if region.contains(p) else -boundary.distance(p) for p in points]
    feet = [graph.foot(xy, own) for xy, own in zip(holes, edge, strict=True)]
    sources = [foot for foot in feet if foot is not None]
    to_hole = graph.ways(sources)
    to_room = graph.ways([(n, 0.0) for n in np.flatnonzero(graph.clearance >= least_mm)])
    reachable = to_room <= half_mm
    tips = [
        to_hole[tip.node] + tip.reach_mm
        for tip in axis.tips
        if to_room[tip.node] + tip.reach_mm <= overhang_mm
    ]
    xy = np.array(holes)
    between = np.hypot(*(xy[:, None] - xy[None]).transpose(2, 0, 1)) + np.diag([1e9] * len(xy))
    return Judged(
        way=float(to_hole[reachable].max(initial=0.0)),
        tip=max(tips, default=0.0),
        edge=min(edge),
        apart=float(between.min()),
    )


class _Graph:
    def __init__(self, axis, pitch_mm):
        xy, clear = [*axis.node_xy], [*axis.node_clearance]
        self.links, self.steps = [], []
        for branch in axis.branches:
            extra = np.linspace(0, branch.length_mm, max(int(branch.length_mm / pitch_mm), 1) + 1)
            s = np.unique(np.concatenate([branch.s, extra]))
            s = s[np.append(True, np.diff(s) > 1e-9)]
            first = len(xy)
            xy += list(
                np.column_stack([np.interp(s[1:-1], branch.s, branch.xy[:, k]) for k in range(2)])
            )
            clear += list(np.interp(s[1:-1], branch.s, branch.clearance))
            chain = [branch.start, *range(first, len(xy)), branch.end]
            self.links += list(itertools.pairwise(chain))
            self.steps += list(np.diff(s))
        self.xy, self.clearance = np.array(xy), np.array(clear)
        self.lone = np.setdiff1d(np.arange(len(axis.node_xy)), np.ravel(self.links))
        self.lines = [shapely.LineString(self.xy[list(link)]) for link in self.links]

    def foot(self, xy, own_disc):
        """Link and share of the nearest axis point, if the hole's own disc reaches it."""
        point = shapely.Point(xy)
        for node in self.lone.tolist():
            if shapely.Point(self.xy[node]).distance(point) <= own_disc:
                return (node, 0.0)
        distance = shapely.distance(np.array(self.lines), point)
        nearest = int(np.argmin(distance))
        if distance[nearest] > own_disc:
            return None
        return ("link", nearest, self.lines[nearest].project(point, normalized=True))

    def ways(self, sources):
        """Way from every sample to the nearest source."""
        count = len(self.xy)
        one, two = (list(ends) for ends in zip(*self.links, strict=True))
        way = list(self.steps)
        start = count
        for source in sources:
            if source[0] == "link":
                a, b = self.links[source[1]]
                one += [start, start]
                two += [a, b]
                way += [
                    self.steps[source[1]] * source[2],
                    self.steps[source[1]] * (1 - source[2]),
                ]
            else:
                one.append(start)
                two.append(source[0])
                way.append(source[1])
        keys = {}
        for a, b, w in zip(one, two, way, strict=True):
            key = (min(a, b), max(a, b))
            keys[key] = min(keys.get(key, np.inf), max(w, 1e-12))
        keys = {key: w for key, w in keys.items() if key[0] != key[1]}
        ends = np.array(list(keys))
        matrix = coo_array(
            (np.array(list(keys.values())), (ends[:, 0], ends[:, 1])), shape=(count + 1, count + 1)
        )
        return dijkstra(matrix.tocsr(), directed=False, indices=start)[:count]
