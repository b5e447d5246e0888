"""Axes written down: paths, stars, rings, thetas and any other metric graph."""

import numpy as np
import shapely

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis, Branch, Tip
from holeplacer.outline.outline import Outline
from holeplacer.placement import candidates, demands
from holeplacer.rules import spacing

NONE = ways.AxisPoints.on_branches([], [])
NO_XY = np.empty((0, 2))


def graph(nodes, edges, clearance=10.0, reach=0.0, steps=30):
    """Axis with straight branches between nodes.

    `edges` are (start, end) or (start, end, length); a length other than the straight distance
    only changes the ways. `clearance` is a number, or one (steps,) array per branch.
    """
    nodes = np.asarray(nodes, float)
    share = np.linspace(0.0, 1.0, steps)
    branches = []
    for number, (start, end, *length) in enumerate(edges):
        xy = nodes[start] + share[:, None] * (nodes[end] - nodes[start])
        long = length[0] if length else float(np.hypot(*(nodes[end] - nodes[start])))
        clear = clearance[number] if isinstance(clearance, list) else np.full(steps, clearance)
        contacts = np.stack([xy, xy], axis=1)
        branches.append(Branch(start, end, 0, xy, np.asarray(clear, float), share * long, contacts))
    degree = np.bincount([n for e in edges for n in e[:2]], minlength=len(nodes))
    tips = tuple(Tip(n, tuple(nodes[n]), reach) for n in range(len(nodes)) if degree[n] == 1)
    node_clearance = np.full(len(nodes), 10.0)
    for branch in branches:
        node_clearance[branch.start] = branch.clearance[0]
        node_clearance[branch.end] = branch.clearance[-1]
    return Axis(tuple(branches), nodes, node_clearance, np.zeros(len(nodes), np.intp), tips)


def path(length, **more):
    return graph([(0, 0), (length, 0)], [(0, 1)], **more)


def star(*arms, **more):
    turn = 2 * np.pi * np.arange(len(arms)) / len(arms)
    ends = [(a * np.cos(t), a * np.sin(t)) for a, t in zip(arms, turn, strict=True)]
    return graph([(0, 0), *ends], [(0, i + 1) for i in range(len(arms))], **more)


def ring(length, **more):
    """One closed branch."""
    r = length / (2 * np.pi)
    turn = np.linspace(0, 2 * np.pi, 200)
    xy = r * np.column_stack([np.cos(turn), np.sin(turn)])
    clear = np.full(200, 10.0)
    s = np.linspace(0.0, length, 200)
    branch = Branch(0, 0, 0, xy, clear, s, np.stack([xy, xy], axis=1))
    return Axis((branch,), xy[:1], clear[:1], np.zeros(1, np.intp), ())


def theta(length, **more):
    return graph([(0, 0), (length, 0)], [(0, 1, length)] * 3, **more)


def wanted(axis, half_mm, overhang_mm=1e6, least_mm=5.0, stays=NONE):
    room = candidates.candidates(axis, least_mm, NO_XY, np.empty(0))
    corner = spacing.corners(axis)
    return demands.wanted(axis, room, stays, corner, half_mm, overhang_mm)


def strokes(lines, half_width=15.0):
    """Outline of round-ended strokes along polylines."""
    region = shapely.union_all([shapely.LineString(line) for line in lines])
    return Outline.from_geometry(region.buffer(half_width, quad_segs=32))
