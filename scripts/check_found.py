"""Blocks every hole of letterings in turn and holds each way out offered to plain geometry.

    .venv/bin/python scripts/check_found.py FOLDER... [--most HOLES] [--pressure PA]

takes every SVG in the folders whose name ends in its width in mm (NAME-WIDTH.svg), places holes,
and blocks each (or every n-th, so that no lettering gives more than --most) with the sign whole
and with the sign cut. Each way out that is offered as keeping every rule is judged by dense
samples, shortest ways of its own and shapely: spacing, tips, edge distance, neighbours, turning,
distance from what was found, other holes untouched. One that fails without saying so ends the
script with 1.
"""

import argparse
import itertools
import re
import statistics
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from time import process_time

import numpy as np
import shapely

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "placement"))

from independent_check import Judged, judge

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.artwork.read import read_artwork
from holeplacer.evaluation import found_blocked
from holeplacer.evaluation.found_blocked import Alternative
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement.propose import propose
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, neighbours, wall_ground

_NEAR_MM = 0.02
MOST = 12


def main() -> int:
    """Block holes of every lettering; the number of failures decides the status."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folders", nargs="+", type=Path)
    parser.add_argument("--most", type=int, default=MOST, help="holes blocked in a lettering")
    parser.add_argument("--pressure", type=float, help="wind pressure in Pa; none if not given")
    wanted = parser.parse_args()
    seconds, failures, blocked, moved = list[float](), 0, 0, Counter[str]()
    for path, width in _letterings(wanted.folders):
        plan, outline, axis = _sign(path, width, wanted.pressure)
        step = max(-(-len(plan.holes) // wanted.most), 1)
        kinds, faults = Counter[str](), list[str]()
        for hole, cut in itertools.product(plan.holes[::step], (False, True)):
            begun = process_time()
            offered = found_blocked.alternatives(plan, outline, axis, hole.number, cut=cut)
            seconds.append(process_time() - begun)
            passing = [item for item in offered if item.passes]
            state = "cut" if cut else "whole"
            kinds[f"{state}: {passing[0].kind if passing else 'none'}"] += 1
            for item in passing:
                for fault in faults_of(plan, outline, axis, hole, item):
                    faults.append(f"hole {hole.number} {state} {item.kind}: {fault}")
        moved += kinds
        blocked += sum(kinds.values())
        failures += len(faults)
        print(
            f"{path.stem:<44}{len(plan.holes):>3} holes  {dict(kinds)}  {'; '.join(faults)}",
            flush=True,
        )
    print(f"{blocked} blocked, {failures} failed; first way out that keeps every rule: {moved}")
    print(f"median {statistics.median(seconds):.2f} s, at most {max(seconds):.2f} s")
    return int(failures > 0)


def _letterings(folders: list[Path]) -> Iterator[tuple[Path, float]]:
    for folder in folders:
        for path in sorted(folder.glob("*.svg")):
            named = re.fullmatch(r".*-(\d+)", path.stem)
            if named:
                yield path, float(named[1])


def _sign(path: Path, width_mm: float, pressure_pa: float | None) -> tuple[Plan, Outline, Axis]:
    file, options = ArtworkFile(path.name, path.read_bytes()), ReadOptions(width_mm=width_mm)
    outline = read_artwork(file, options).outline
    plan, axis = Plan(file, options), medial_axis(outline)
    if pressure_pa is not None:
        plan = replace(plan, loading=Loading(method="entered", pressure_out_pa=pressure_pa))
    return edit.with_holes(plan, propose(plan, outline, axis).holes), outline, axis


def faults_of(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    lost: Hole,
    item: Alternative,
    *,
    pitch_mm: float = 3.0,
) -> Iterator[str]:
    """What a way out breaks that the plan did not, by plain geometry."""
    was, held = _before(plan, outline, axis, pitch_mm)
    now = _judged(item.plan, outline, axis, pitch_mm)
    half, overhang = plan.limits.spacing_mm / 2, plan.limits.overhang_mm
    for name, value, limit in (
        ("SPACING", now.way, max(half, was.way)),
        ("TIP", now.tip, max(overhang, was.tip)),
        ("EDGE", -now.edge, -min(edge_distance.limit(plan), was.edge)),
        ("NEIGHBOUR", -now.apart, -min(neighbours.limit(plan), was.apart)),
    ):
        if value > limit + _NEAR_MM:
            yield f"{name} {value:.2f}, {limit:.2f} allowed"
    yield from (f"piece {one + 1} TURNS" for one in held - _held(item.plan, outline, axis))
    least = wall_ground.found_mm(plan) - _NEAR_MM
    for hole in item.plan.holes:
        if hole.fastened and np.hypot(hole.x_mm - lost.x_mm, hole.y_mm - lost.y_mm) < least:
            yield f"hole {hole.number} NEAR what was found"
    stays = {hole for hole in plan.holes if hole.number != lost.number}
    if not stays <= set(item.plan.holes):
        yield "ANOTHER hole moved"


@lru_cache(maxsize=1)
def _before(
    plan: Plan, outline: Outline, axis: Axis, pitch_mm: float
) -> tuple[Judged, frozenset[int]]:
    return _judged(plan, outline, axis, pitch_mm), frozenset(_held(plan, outline, axis))


def _judged(plan: Plan, outline: Outline, axis: Axis, pitch_mm: float) -> Judged:
    """Ways from what is fastened; distances of all that is in the sheet."""
    every = [(hole.x_mm, hole.y_mm) for hole in plan.holes]
    held = [(hole.x_mm, hole.y_mm) for hole in plan.holes if hole.fastened]
    limits = plan.limits
    figures = (limits.spacing_mm / 2, limits.overhang_mm, edge_distance.limit(plan))
    by_way, by_place = (
        judge(outline.region, axis, places, *figures, pitch_mm=pitch_mm) for places in (held, every)
    )
    return Judged(by_way.way, by_way.tip, by_place.edge, by_place.apart)


def _held(plan: Plan, outline: Outline, axis: Axis) -> set[int]:
    """Pieces with two fastened holes far enough apart on both sides of the centre of gravity."""
    held = set()
    xy = np.concatenate([*(branch.xy for branch in axis.branches), axis.node_xy])
    for index, piece in enumerate(outline.pieces):
        inside = shapely.contains_xy(piece.polygon, xy)
        hull = shapely.get_coordinates(shapely.MultiPoint(xy[inside]).convex_hull)
        extent = max((np.hypot(*(a - b)) for a, b in itertools.combinations(hull, 2)), default=0)
        centre = np.array(piece.polygon.centroid.coords[0])
        own = [
            np.array([hole.x_mm, hole.y_mm])
            for hole in plan.holes
            if hole.fastened and shapely.contains_xy(piece.polygon, hole.x_mm, hole.y_mm)
        ]
        for one, two in itertools.combinations(own, 2):
            along, base = two - one, np.hypot(*(two - one))
            share = (centre - one) @ along / base**2
            if base >= plan.limits.turning_share * extent - _NEAR_MM and -0.001 < share < 1.001:
                held.add(index)
    return held


if __name__ == "__main__":
    raise SystemExit(main())
