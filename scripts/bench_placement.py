"""Placement beside greedy cover: proven fewest holes against the usual heuristic.

The peer takes the same axis, the same permitted places and the same demands at the same fineness
(1 mm), and picks the place that serves most until all is served: shorter to write, more holes.
"""

from dataclasses import replace
from functools import cache
from time import perf_counter

import numpy as np
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.artwork.read import read_artwork
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import cover_matrix, covering, held_cover, piece_task
from holeplacer.placement.piece_task import PieceTask
from holeplacer.placement.propose import propose
from holeplacer.placement.watch import Watch
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.resources import resource_path
from holeplacer.rules import spacing

_TIMES = 3
_CASES = ((1500.0, 300.0), (2000.0, 300.0), (2000.0, 150.0), (2000.0, 600.0), (6000.0, 300.0))
"""Width of the demo sign and spacing, mm."""

Row = tuple[str, float, str, float, float]


def rows() -> list[Row]:
    """(what, our seconds, peer, its seconds, ratio) for the demo at several sizes and spacings."""
    return [_proposal(width, limit) for width, limit in _CASES] + [_drag()]


def greedy(task: PieceTask) -> int:
    """Holes that greedy cover needs for one piece."""
    if task.wanted is None or not len(task.wanted.room):
        return 0 if task.wanted is not None else 1
    asked = task.wanted.sampled(1.0)
    places = int(task.wanted.room.length.sum())
    matrix = cover_matrix.cover_matrix(
        task.axis,
        task.wanted.room,
        asked.points,
        asked.radius(1.0),
        also=held_cover.grid(task.wanted.room, max(places, 2)),
    )
    return len(covering.greedy(matrix.covers))


@cache
def _sign(width_mm: float) -> tuple[Plan, Outline, Axis]:
    path = next(resource_path("demo").glob("*.svg"))
    file = ArtworkFile(path.name, path.read_bytes())
    options = ReadOptions(width_mm=width_mm)
    outline = read_artwork(file, options).outline
    return Plan(file, options), outline, medial_axis(outline)


def _proposal(width_mm: float, spacing_mm: float) -> Row:
    plan, outline, axis = _sign(width_mm)
    limits = replace(plan.limits, spacing_mm=spacing_mm, overhang_mm=spacing_mm / 2)
    plan = replace(plan, limits=limits)
    ours, found = _best(lambda: propose(plan, outline, axis))
    tasks = piece_task.tasks_of(plan, outline, axis, Watch())
    theirs, counts = _best(lambda: sum(greedy(task) for task in tasks))
    proof = "proven" if found.proven else f"at least {found.lower_bound}"
    what = f"{axis.length_mm / 1000:.0f} m at {spacing_mm:.0f} mm: {found.count} holes, {proof}"
    return what, ours, f"greedy cover: {counts} holes", theirs, ours / theirs


def _drag() -> Row:
    """Spans, tips and uncovered stretches while one of 100 holes moves, 30 m of axis."""
    plan, outline, axis = _sign(6000.0)
    net = ways.network(axis)
    rng = np.random.default_rng(1)
    branch = rng.choice(len(net.length), 100, p=net.length / net.length.sum())
    points = ways.AxisPoints.on_branches(branch, rng.uniform(0, 1, 100) * net.length[branch])
    holes = [Hole(n, x, y) for n, (x, y) in enumerate(ways.places(axis, points).tolist(), 1)]
    plans = [
        replace(plan, holes=(Hole(1, holes[0].x_mm + step / 50, holes[0].y_mm), *holes[1:]))
        for step in range(40)
    ]
    spacing.spans(plans[0], outline, axis)
    begun = perf_counter()
    for moved in plans[1:]:
        spacing.spans(moved, outline, axis)
    ours = (perf_counter() - begun) / (len(plans) - 1)
    lines = [shapely.LineString(item.xy) for item in axis.branches]
    at = shapely.points([(hole.x_mm, hole.y_mm) for hole in holes])
    theirs, _ = _best(lambda: [shapely.distance(lines, point).argmin() for point in at])
    what = f"spans of 100 holes, one moved, {axis.length_mm / 1000:.0f} m of axis"
    return what, ours, "nearest branch of each hole alone, shapely", theirs, ours / theirs


def _best(work):  # type: ignore[no-untyped-def]
    """Shortest of some runs, and what the last one gave."""
    best, result = np.inf, None
    for _ in range(_TIMES):
        begun = perf_counter()
        result = work()
        best = min(best, perf_counter() - begun)
    return best, result
