"""Thin strokes: stretches of stroke whose metal is too narrow to take the plan's hole at all."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from holeplacer.medial_axis.axis import Axis, Branch
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_demand, spacing

_Part = tuple[int, float, float, float, tuple[float, float]]
"""Branch, ways along it, mean clearance between them, and the place halfway."""


@dataclass(frozen=True)
class ThinStroke:
    """One connected stretch.

    Attributes:
        length_mm: Of axis; 0 for a dot.
        width_mm: Mean clear width.
        xy_mm: Halfway along its longest part.
    """

    length_mm: float
    width_mm: float
    xy_mm: tuple[float, float]


def thin_strokes(plan: Plan, axis: Axis) -> tuple[ThinStroke, ...]:
    """Every stretch and dot whose clear width is less than the plan's hole needs, longest first."""
    return _thinner_than(axis, edge_demand.governing(plan).mm)


def needed_width_mm(plan: Plan) -> float:
    """Clear width that the plan's hole needs."""
    return 2 * edge_demand.governing(plan).mm


@lru_cache(maxsize=8)
def _thinner_than(axis: Axis, clearance_mm: float) -> tuple[ThinStroke, ...]:
    parts = [
        part
        for index, branch in enumerate(axis.branches)
        for part in _thin_parts(index, branch, clearance_mm)
    ]
    found = [_joined([parts[i] for i in group]) for group in _groups(axis, parts)]
    dots = np.flatnonzero((axis.degree == 0) & (axis.node_clearance < clearance_mm)).tolist()
    found += [
        ThinStroke(0.0, 2 * float(axis.node_clearance[node]), _place(axis.node_xy[node]))
        for node in dots
    ]
    return tuple(sorted(found, key=lambda item: -item.length_mm))


def _thin_parts(index: int, branch: Branch, limit: float) -> list[_Part]:
    """Parts of a branch where the clearance, linear between its points, is below the limit."""
    s, clearance = branch.s, branch.clearance
    thin = clearance < limit
    if not thin.any():
        return []
    edges = np.flatnonzero(np.diff(thin.astype(np.int8)))
    share = (limit - clearance[edges]) / (clearance[edges + 1] - clearance[edges])
    crossings = s[edges] + share * (s[edges + 1] - s[edges])
    ways = np.concatenate([s[:1][thin[:1]], crossings, s[-1:][thin[-1:]]]).reshape(-1, 2)
    return [_part(index, branch, float(low), float(high)) for low, high in ways if high > low]


def _part(index: int, branch: Branch, low: float, high: float) -> _Part:
    s = np.concatenate([[low], branch.s[(branch.s > low) & (branch.s < high)], [high]])
    clearance = np.interp(s, branch.s, branch.clearance)
    mean = float(np.trapezoid(clearance, s)) / (high - low)
    middle = (low + high) / 2
    x, y = (float(np.interp(middle, branch.s, along)) for along in branch.xy.T)
    return index, low, high, mean, (x, y)


def _groups(axis: Axis, parts: list[_Part]) -> list[list[int]]:
    branch = np.array([part[0] for part in parts], np.intp)
    low, high = (np.array([part[i] for part in parts], float) for i in (1, 2))
    return [group.tolist() for group in spacing.connected(axis, branch, low, high)]


def _joined(parts: list[_Part]) -> ThinStroke:
    length = sum(high - low for _, low, high, _, _ in parts)
    area = sum((high - low) * mean for _, low, high, mean, _ in parts)
    longest = max(parts, key=lambda part: part[2] - part[1])
    return ThinStroke(length, 2 * area / length, longest[4])


def _place(xy: np.ndarray[tuple[int], np.dtype[np.float64]]) -> tuple[float, float]:
    return float(xy[0]), float(xy[1])
