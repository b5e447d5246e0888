"""Placement beside greedy cover: proven fewest holes against the usual heuristic.

The peer takes the same axis, the same permitted places and the same demands at the same fineness
(1 mm), and picks the place that serves most until all is served: shorter to write, more holes.

    .venv/bin/python scripts/bench_placement.py FOLDER... [--spacing MM] [--greedy]

places holes on every SVG in the folders (NAME-WIDTH.svg is read WIDTH mm wide, others as drawn),
and prints for each its length of axis, holes, bound and time, and at the end how many were proven
and the median and greatest time, also of those with about 7 m of axis. With --greedy the peer's
count stands beside ours.
"""

import argparse
import re
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from time import perf_counter, process_time

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
    return _read(next(resource_path("demo").glob("*.svg")), width_mm)


def _read(path: Path, width_mm: float | None) -> tuple[Plan, Outline, Axis]:
    file = ArtworkFile(path.name, path.read_bytes())
    options = ReadOptions(width_mm=width_mm)
    outline = read_artwork(file, options).outline
    return Plan(file, options), outline, medial_axis(outline)


def _spaced(plan: Plan, spacing_mm: float) -> Plan:
    limits = replace(plan.limits, spacing_mm=spacing_mm, overhang_mm=spacing_mm / 2)
    return replace(plan, limits=limits)


def _proposal(width_mm: float, spacing_mm: float) -> Row:
    plan, outline, axis = _sign(width_mm)
    plan = _spaced(plan, spacing_mm)
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


@dataclass(frozen=True)
class Placed:
    """One lettering: its axis, m; holes, bound, greedy's holes; seconds of processor and clock."""

    name: str
    metres: float
    count: int
    bound: int
    greedy: int | None
    cpu: float
    wall: float


def placed(path: Path, spacing_mm: float, *, with_greedy: bool) -> Placed:
    """Place holes on one lettering."""
    width = re.search(r"-(\d+)$", path.stem)
    plan, outline, axis = _read(path, float(width[1]) if width else None)
    plan = _spaced(plan, spacing_mm)
    cpu, wall = process_time(), perf_counter()
    found = propose(plan, outline, axis)
    cpu, wall = process_time() - cpu, perf_counter() - wall
    peer = None
    if with_greedy:
        peer = sum(greedy(task) for task in piece_task.tasks_of(plan, outline, axis, Watch()))
    metres = axis.length_mm / 1000
    return Placed(path.stem, metres, found.count, found.lower_bound, peer, cpu, wall)


def summary(all_placed: list[Placed]) -> str:
    """How many were proven, and how long they took."""
    proven = sum(one.count == one.bound for one in all_placed)
    lines = [f"{proven} of {len(all_placed)} proven, {sum(p.count for p in all_placed)} holes"]
    middling = [one for one in all_placed if 6.0 <= one.metres <= 8.5]
    for what, chosen in (("all", all_placed), ("6 to 8.5 m of axis", middling)):
        if chosen:
            cpu, wall = (np.array([getattr(p, kind) for p in chosen]) for kind in ("cpu", "wall"))
            lines.append(
                f"{what}: {len(chosen)} letterings, processor median {np.median(cpu):.2f} s, "
                f"greatest {cpu.max():.2f} s; clock median {np.median(wall):.2f} s, "
                f"greatest {wall.max():.2f} s"
            )
    return "\n".join(lines)


def main() -> int:
    """Place holes on all letterings of some folders."""
    parser = argparse.ArgumentParser(description="Fewest holes on whole folders of letterings.")
    parser.add_argument("folder", nargs="+", type=Path)
    parser.add_argument("--spacing", type=float, default=300.0, metavar="MM")
    parser.add_argument("--greedy", action="store_true", help="count greedy cover's holes too")
    asked = parser.parse_args()
    every = []
    for path in sorted(path for folder in asked.folder for path in folder.glob("*.svg")):
        one = placed(path, asked.spacing, with_greedy=asked.greedy)
        every.append(one)
        bound = "proven" if one.count == one.bound else f"at least {one.bound}"
        peer = "" if one.greedy is None else f", greedy {one.greedy}"
        print(
            f"{one.name:<40} {one.metres:5.1f} m {one.count:3d} holes, {bound}{peer}; "
            f"{one.cpu:.2f} s, by the clock {one.wall:.2f} s",
            flush=True,
        )
    if not every:
        print("No SVG files there.")
        return 2
    print(summary(every))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
