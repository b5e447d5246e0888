"""Preferences: among layouts that serve as well, holes in wider metal."""

import numpy as np
from scipy.sparse import vstack

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints, Floats
from holeplacer.placement import refinement
from holeplacer.placement.demands import Wanted
from holeplacer.placement.keeping import Owed
from holeplacer.placement.linear_program import LinearSolver
from holeplacer.placement.refinement import Holes

_ROUNDS = 4
_SLIDE = 0.08
"""Greatest slide of a round, as a share of half the spacing."""

_GIVE = 0.06
"""How much worse a demand that is not the worst may be served for the sake of wider metal."""

_ENOUGH = 1.5
"""Edge distances at which metal is wide enough; more brings nothing."""


def followed(wanted: Wanted, holes: Holes, owed: Owed, least_mm: float) -> Holes:
    """Holes slid towards wider metal.

    The worst-served demand is served no worse, nor is any other by more than a small share.

    Args:
        wanted: What must be covered.
        holes: An even layout.
        owed: What holes owe each other.
        least_mm: Edge distance a hole needs.
    """
    if not len(holes) or not owed.kept(holes):
        return holes
    first = refinement.peaks(wanted, holes).tightness
    worst = float(first.max(initial=0.0))
    for _ in range(_ROUNDS):
        slid = holes.slid(_slides(wanted, holes, owed, least_mm, worst))
        now = refinement.peaks(wanted, slid)
        better = _width(wanted, slid, least_mm) > _width(wanted, holes, least_mm) + 1e-3
        if not better or not owed.kept(slid):
            break
        if float(now.tightness.max(initial=0.0)) > worst + 1e-9:
            break
        holes = slid
    return holes


def _slides(wanted: Wanted, holes: Holes, owed: Owed, least_mm: float, worst: float) -> Floats:
    now = refinement.peaks(wanted, holes)
    cap = np.minimum(np.maximum(now.tightness, worst - _GIVE), worst)
    cap = np.minimum(cap, now.tightness + _GIVE / _ROUNDS)
    allowed = np.maximum(cap * now.scale - now.reach, np.maximum(now.nearest, now.way))
    allowed = np.where(now.tightness > 0, cap * now.scale - now.reach, allowed)
    most = _SLIDE * wanted.half_mm
    rows, room = owed.rows(holes, most)
    low = np.maximum(holes.room.low[holes.stretch] - holes.s, -most)
    high = np.minimum(holes.room.high[holes.stretch] - holes.s, most)
    gain = _gain(wanted, holes, least_mm)
    idle = gain == 0.0
    low[idle] = high[idle] = 0.0
    solved = LinearSolver().least(
        -gain,
        vstack([now.slopes, rows], format="csr"),
        np.concatenate([np.maximum(allowed - now.way, 0.0), np.maximum(room, 0.0)]),
        low,
        high,
    )
    return np.zeros(len(holes)) if solved is None else solved.x


def _gain(wanted: Wanted, holes: Holes, least_mm: float) -> Floats:
    """Width gained per slide, nothing where metal is wide enough."""
    step = _SLIDE * wanted.half_mm / 2
    gain: Floats = (
        _widths(wanted, holes.slid(np.full(len(holes), step)), least_mm)
        - _widths(wanted, holes.slid(np.full(len(holes), -step)), least_mm)
    ) / (2 * step)
    return gain


def _width(wanted: Wanted, holes: Holes, least_mm: float) -> float:
    return float(_widths(wanted, holes, least_mm).sum())


def _widths(wanted: Wanted, holes: Holes, least_mm: float) -> Floats:
    branch = holes.room.branch[holes.stretch]
    clearance = ways.clearances(wanted.axis, AxisPoints.on_branches(branch, holes.s))
    return np.minimum(clearance, _ENOUGH * least_mm)
