"""Axis steps: each branch cut where what may be there, or what is wanted there, changes."""

from math import inf

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices
from holeplacer.placement.demands import NEAREST_SPARE_MM, Wanted
from holeplacer.placement.handover import Step

_SHORTEST_MM = 1e-9


def steps(
    wanted: Wanted, stays: AxisPoints, tightness: float
) -> list[tuple[list[Step], list[Step]]]:
    """For each branch, its steps from start to end, and from end to start.

    Args:
        wanted: What must be covered.
        stays: Feet of the holes that stay.
        tightness: 1: the limits as they stand; smaller: tighter.
    """
    branch, low, high = _pieces(wanted, stays, tightness)
    middle = (low + high) / 2
    room = wanted.room.holding(branch, middle) >= 0
    asked = wanted.parts.holding(branch, middle) >= 0
    first = wanted.at(branch, low).radius(tightness)
    growth = (wanted.at(branch, high).radius(tightness) - first) / (high - low)
    first = np.where(asked, first, inf)
    growth = np.where(asked, np.clip(np.round(growth, 9), -1.0, 1.0), 0.0)
    found: list[list[Step]] = [[] for _ in wanted.axis.branches]
    length = (high - low).tolist()
    for number, row in enumerate(
        zip(
            branch.tolist(),
            low.tolist(),
            room.tolist(),
            first.tolist(),
            growth.tolist(),
            strict=True,
        )
    ):
        at, begin, inside, radius, more = row
        found[at].append(Step(at, begin, 1, length[number], inside, radius, more))
    for at, way in zip(stays.branch.tolist(), stays.s.tolist(), strict=True):
        place = sum(step.begin < way - _SHORTEST_MM for step in found[at])
        found[at].insert(place, Step(at, way, 1, 0.0, False, inf, 0.0))
    return [(own, [step.backwards() for step in reversed(own)]) for own in found]


def _pieces(wanted: Wanted, stays: AxisPoints, tightness: float) -> tuple[Indices, Floats, Floats]:
    """Branch, from and to of all pieces."""
    length = ways.network(wanted.axis).length
    every = np.arange(len(length))
    room, parts = wanted.room, wanted.parts
    branch = [every, every, room.branch, room.branch, parts.branch, parts.branch, stays.branch]
    at = [np.zeros(len(length)), length, room.low, room.high, parts.low, parts.high, stays.s]
    if tightness < 1.0:
        bends = _bends(wanted, tightness)
        branch.append(bends[0])
        at.append(bends[1])
    branches, way = np.concatenate(branch), np.concatenate(at)
    way = np.clip(way, 0.0, length[branches])
    order = np.lexsort((way, branches))
    branches, way = branches[order], way[order]
    real = (branches[1:] == branches[:-1]) & (way[1:] > way[:-1] + _SHORTEST_MM)
    return branches[:-1][real], way[:-1][real], way[1:][real]


def _bends(wanted: Wanted, tightness: float) -> tuple[Indices, Floats]:
    """Where thin metal begins to widen radii, where that peaks, and where it ends."""
    near = wanted.near
    branch, way = [near.branch, near.branch], [near.low, near.peak_s]
    for level in (tightness * wanted.half_mm, wanted.half_mm):
        for at in (
            near.low + level - NEAREST_SPARE_MM - near.left_way,
            near.high - level + NEAREST_SPARE_MM + near.right_way,
        ):
            inside = (at > near.low) & (at < near.high)
            branch.append(near.branch[inside])
            way.append(at[inside])
    return np.concatenate(branch), np.concatenate(way)
