"""Cover with distance and base: the fewest holes where covering alone would break another rule.

Covering is solved first, without hole-to-hole distance and without the base that keeps a piece
from turning: both rarely bind. Only where they do is this program solved, on a dense set of
places. Its demands are sampled and their radii reduced by half the pitch, so that what it finds
covers all of the axis; places too near each other are forbidden as they turn up.
"""

import numpy as np
from scipy.optimize import LinearConstraint
from scipy.sparse import coo_array, csr_array, eye_array, hstack

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices
from holeplacer.placement import cover_matrix, covering, refinement, stretches
from holeplacer.placement.demands import Wanted
from holeplacer.placement.fewest import Cover
from holeplacer.placement.keeping import Owed
from holeplacer.placement.refinement import Holes
from holeplacer.placement.stretches import Stretches
from holeplacer.placement.watch import Watch
from holeplacer.rules import turning

_FINENESS = (12, 36)
_PLACES = 240
_CONFLICT_ROUNDS = 25
_SLACK_MM = 1e-6


def held_cover(
    wanted: Wanted, stays: AxisPoints, owed: Owed, bound: int, watch: Watch
) -> Cover | None:
    """Fewest holes that cover a piece and keep what they owe each other.

    Args:
        wanted: What must be covered.
        stays: Feet of the holes that stay.
        owed: Distance and base.
        bound: No layout has fewer new holes, whatever it owes.
        watch: Time and the person's patience.

    Returns:
        The best cover found; None if none was.
    """
    best: Cover | None = None
    for fineness in _FINENESS:
        watch.look()
        found = _solved(wanted, stays, owed, wanted.half_mm / fineness, watch)
        if found is None:
            continue
        if best is None or len(found) < len(best.holes):
            best = Cover(found, bound, refinement.peaks(wanted, found))
        if best.proven:
            break
    return best


def grid(room: Stretches, places: int) -> AxisPoints:
    """About so many places evenly along some stretches, and all their ends."""
    pitch = max(float(room.length.sum()) / places, 0.5)
    count = np.maximum(np.ceil(room.length / pitch), 1).astype(np.intp) + 1
    part, step = stretches.runs(np.zeros(len(count), np.intp), count)
    s = room.low[part] + room.length[part] * step / (count[part] - 1)
    return AxisPoints.on_branches(room.branch[part], s)


def possible(owed: Owed, room: Stretches, base_mm: float) -> bool:
    """Whether any two permitted places (or holes that stay) hold the piece."""
    xy = np.concatenate([ways.places(owed.axis, grid(room, _PLACES)), owed.stays])
    return bool(_partners(xy, owed, base_mm).any())


def _solved(
    wanted: Wanted, stays: AxisPoints, owed: Owed, pitch_mm: float, watch: Watch
) -> Holes | None:
    asked = wanted.sampled(pitch_mm)
    nearest = wanted.nearest(asked.points.branch, asked.points.s)
    plain = asked.reach == 0.0
    radius = asked.radius(1.0) - np.where(plain, pitch_mm / 2, 0.0)
    radius = np.maximum(radius, nearest + _SLACK_MM)
    kept = ways.reach(wanted.axis, stays)
    open_ = kept.way_at(asked.points.branch, asked.points.s) > radius
    matrix = cover_matrix.cover_matrix(
        wanted.axis,
        wanted.room,
        asked.points[open_],
        radius[open_],
        also=grid(wanted.room, _PLACES),
    )
    xy = ways.places(wanted.axis, matrix.places)
    rules = list(_base_rules(xy, owed))
    for _ in range(_CONFLICT_ROUNDS):
        watch.look()
        least = np.ones(matrix.covers.shape[0])
        chosen = covering.constrained(
            matrix.covers, least, tuple(rules), seconds=watch.seconds_a_piece / 4, extra=len(xy)
        )
        if chosen.columns is None:
            return None
        at = matrix.places[chosen.columns]
        holes = Holes(wanted.room, wanted.room.holding(at.branch, at.s), at.s, stays)
        near = owed.too_near(holes)
        if not len(near):
            return holes if _right(wanted, holes, owed) else None
        rules.append(_conflicts(xy, chosen.columns, near, owed.apart_mm))
    return None


def _right(wanted: Wanted, holes: Holes, owed: Owed) -> bool:
    now = refinement.peaks(wanted, holes)
    return bool((now.way <= now.radius(1.0) + _SLACK_MM).all()) and owed.kept(holes)


def _partners(xy: Points, owed: Owed, base_mm: float) -> np.ndarray:
    """(n, n) whether two places far enough apart have the centre of gravity between them."""
    along = xy[np.newaxis] - xy[:, np.newaxis]
    square = (along**2).sum(axis=2)
    passed = ((np.asarray(owed.centre) - xy)[:, np.newaxis] * along).sum(axis=2)
    least = max(base_mm, owed.apart_mm)
    slack = turning.SLACK_MM / 2 * np.sqrt(square)
    return np.asarray((square >= least**2) & (passed >= -slack) & (passed <= square + slack), bool)


def _base_rules(xy: Points, owed: Owed) -> tuple[LinearConstraint, ...]:
    """One chosen place is an end of the base, and one of its partners is chosen."""
    count = len(xy)
    if owed.base_mm is None:
        return ()
    partners = _partners(np.concatenate([xy, owed.stays]), owed, owed.base_mm)
    if partners[count:, count:].any():
        return ()
    identity = eye_array(count, format="csr")
    free = partners[:count, count:].any(axis=1).astype(float)
    among = csr_array(partners[:count, :count].astype(float))
    return (
        LinearConstraint(hstack([-identity, identity], format="csr"), ub=0.0),
        LinearConstraint(hstack([-among, identity], format="csr"), ub=free),
        LinearConstraint(
            csr_array(np.concatenate([np.zeros(count), np.ones(count)])[np.newaxis]), lb=1.0
        ),
    )


def _conflicts(xy: Points, columns: Indices, near: Indices, apart: float) -> LinearConstraint:
    """Of all places in a disc as wide as the least distance, at most one; for each near pair."""
    rows: list[Indices] = []
    for one, two in columns[near].tolist():
        centre: Floats = (xy[one] + xy[two]) / 2
        inside = np.hypot(*(xy - centre).T) < apart / 2 - _SLACK_MM
        inside[[one, two]] = True
        rows.append(np.flatnonzero(inside))
    row = np.repeat(np.arange(len(rows)), [len(part) for part in rows])
    column = np.concatenate(rows)
    shape = (len(rows), 2 * len(xy))
    matrix = coo_array((np.ones(len(row)), (row, column)), shape=shape)
    return LinearConstraint(csr_array(matrix), ub=1.0)
