"""Cover with distance and base: the fewest holes where covering alone would break another rule.

Covering is solved first, without hole-to-hole distance and without the base that keeps a piece
from turning: both rarely bind. Only where they do is this program solved, on a dense set of
places, those too near each other forbidden as they turn up. Its demands are sampled: first with
their full radii, the holes then slid until all of the axis is covered; if that fails, with radii
reduced by half the pitch, which covers it surely. The bound comes from the same program with
radii, base and places relaxed by as much as a hole may lie beside a place of the set.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import LinearConstraint
from scipy.sparse import csr_array, eye_array, hstack
from scipy.spatial.distance import cdist

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints, Indices
from holeplacer.placement import base_pair, cover_matrix, covering, refinement, stretches
from holeplacer.placement.cover_matrix import CoverMatrix
from holeplacer.placement.covering import Chosen
from holeplacer.placement.demands import Demands, Wanted
from holeplacer.placement.fewest import Cover
from holeplacer.placement.keeping import Owed
from holeplacer.placement.refinement import Holes
from holeplacer.placement.stretches import Stretches
from holeplacer.placement.watch import Watch
from holeplacer.rules import turning

_FINENESS, _FINE = 12, 36
_ROUNDS = 8
_FEW_PLACES, _PAIR_PLACES = 150, {2: 800, 3: 300}
_COARSE, _PLACES = 30, 240
_BOUND_PLACES = (240, 700)
_LEAST_PITCH_MM = 0.5
_CONFLICT_ROUNDS = 25
_AROUND, _FINER = 1.5, 12
_SLACK_MM = 1e-6
_SAME_MM = 1e-9


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
    search = _Search(wanted, stays, owed, watch, wanted.sampled(wanted.half_mm / _FINENESS))
    if owed.base_mm is not None and not len(owed.stays):
        bound = max(bound, 2)
        for count in range(bound, base_pair.MOST + 1):
            found = search.small_settled(count)
            if found is not None:
                return Cover(found, bound, refinement.peaks(wanted, found))
            if search.small_possible(count):
                break
            bound = count + 1
    found = search.settled(search.program)
    for places in _BOUND_PLACES:
        if found is None or len(found) > bound:
            bound = max(bound, search.base_bound(places))
    if found is None:
        found = search.surely()
    return None if found is None else Cover(found, bound, refinement.peaks(wanted, found))


def grid(room: Stretches, places: int) -> AxisPoints:
    """About so many places evenly along some stretches, and all their ends."""
    pitch = max(float(room.length.sum()) / places, _LEAST_PITCH_MM)
    count = np.maximum(np.ceil(room.length / pitch), 1).astype(np.intp) + 1
    part, step = stretches.runs(np.zeros(len(count), np.intp), count)
    s = room.low[part] + room.length[part] * step / (count[part] - 1)
    return AxisPoints.on_branches(room.branch[part], s)


def possible(owed: Owed, room: Stretches, base_mm: float) -> bool:
    """Whether any two permitted places (or holes that stay) hold the piece."""
    for places in (_COARSE, _PLACES):
        xy = np.concatenate([ways.places(owed.axis, grid(room, places)), owed.stays])
        if _partners(xy, owed, base_mm, 0.0).any():
            return True
    return False


class _Search:
    """Demands gathered so far, and the programs over them."""

    def __init__(
        self, wanted: Wanted, stays: AxisPoints, owed: Owed, watch: Watch, asked: Demands
    ) -> None:
        self._wanted, self._stays, self._owed, self._watch = wanted, stays, owed, watch
        self._asked = asked
        self._kept = ways.reach(wanted.axis, stays)
        self._fine = AxisPoints.on_branches([], [])

    def settled(self, choose: Callable[[], Holes | None]) -> Holes | None:
        """Choose places and slide them; what is still unserved is asked for, and all again."""
        for _ in range(_ROUNDS):
            self._watch.look()
            holes = choose()
            if holes is None:
                return None
            slid, now = refinement.evened(self._wanted, holes, enough=1.0, keeps=self._owed)
            unserved = now.unserved()
            if not len(unserved):
                return slid
            raw = refinement.peaks(self._wanted, holes)
            missed = raw.unserved()
            self._asked = self._asked.and_also(now.demands(unserved)).and_also(raw.demands(missed))
        return None

    def small_settled(self, count: int) -> Holes | None:
        """Two or three holes, at few places first: that is often enough."""
        for places in (_FEW_PLACES, _PAIR_PLACES[count]):
            found = self.settled(lambda n=places: self.small(count, n))  # type: ignore[misc]
            if found is not None:
                return found
        return None

    def small(self, count: int, places: int) -> Holes | None:
        """Two or three holes that cover and hold, all pairs tried."""
        matrix = self._matrix(0.0, places)
        chosen = base_pair.with_base(matrix.covers, self._partners(matrix, 0.0), count)
        holes = None if chosen is None else self._holes(matrix.places[chosen])
        return None if holes is None or not self._owed.kept(holes) else holes

    def small_possible(self, count: int) -> bool:
        """Whether so few holes might do, for all that is known."""
        give = self._give(_PAIR_PLACES[count])
        matrix = self._matrix(give, _PAIR_PLACES[count])
        partners = self._partners(matrix, give)
        return base_pair.with_base(matrix.covers, partners, count) is not None

    def program(self, give_mm: float = 0.0) -> Holes | None:
        """Fewest places that cover and hold, none too near another."""
        matrix = self._matrix(give_mm, _PLACES)
        rules = _base_rules(ways.places(self._wanted.axis, matrix.places), self._owed, 0.0)
        pairs = np.empty((0, 2, 2))
        for _ in range(_CONFLICT_ROUNDS):
            self._watch.look()
            xy = ways.places(self._wanted.axis, matrix.places)
            kept = (*rules, *_conflicts(xy, pairs, self._owed.apart_mm, bool(rules)))
            columns = self._chosen(matrix, kept).columns
            if columns is None:
                return None
            holes = self._holes(matrix.places[columns])
            near = self._owed.too_near(holes)
            if not len(near):
                return holes if self._owed.kept(holes) else None
            pairs = np.concatenate([pairs, xy[columns[near]]])
            if not rules:
                self._finer(holes, near)
                matrix = self._matrix(give_mm, _PLACES)
        return None

    def _finer(self, holes: Holes, near: Indices) -> None:
        """Take places close to each other around holes that are too near each other."""
        crowded = np.unique(near)
        step = self._owed.apart_mm * np.linspace(-_AROUND, _AROUND, 2 * _FINER + 1)
        room, stretch = holes.room, holes.stretch[crowded]
        s = np.clip(
            holes.s[crowded][:, np.newaxis] + step,
            room.low[stretch][:, np.newaxis],
            room.high[stretch][:, np.newaxis],
        )
        branch = np.repeat(room.branch[stretch], len(step))
        self._fine = AxisPoints.on_branches(
            np.concatenate([self._fine.branch, branch]), np.concatenate([self._fine.s, s.ravel()])
        )

    def surely(self) -> Holes | None:
        """The same with radii reduced by half the pitch: that covers all of the axis."""
        pitch = self._wanted.half_mm / _FINE
        self._asked = self._wanted.sampled(pitch)
        holes = self.program(-pitch / 2)
        if holes is None:
            return None
        now = refinement.peaks(self._wanted, holes)
        return holes if now.served() else None

    def base_bound(self, places: int) -> int:
        """No layout that covers the piece and keeps its base has fewer new holes.

        Any place lies within half a step of one of the grid, along the axis: that one covers no
        less with the radius enlarged by as much, and makes no lesser base with the give.
        """
        if self._owed.base_mm is None:
            return 0
        give = self._give(places)
        matrix = self._matrix(give, places)
        xy = ways.places(self._wanted.axis, matrix.places)
        return self._chosen(matrix, _base_rules(xy, self._owed, give)).bound

    def _give(self, places: int) -> float:
        return max(float(self._wanted.room.length.sum()) / places, _LEAST_PITCH_MM) / 2

    def _matrix(self, give_mm: float, places: int) -> CoverMatrix:
        """Grid and ball ends against the demands, their radii enlarged by a give."""
        points, radius = self._asked.points, self._asked.radius(1.0)
        open_ = self._kept.way_at(points.branch, points.s) > radius
        tips = self._asked.reach > 0.0
        radius = radius + np.where(tips & (give_mm < 0), 0.0, give_mm)
        nearest = self._wanted.nearest(points.branch, points.s)
        radius = np.maximum(radius, nearest + _SLACK_MM)
        even = grid(self._wanted.room, places)
        also = AxisPoints.on_branches(
            np.concatenate([even.branch, self._fine.branch]), np.concatenate([even.s, self._fine.s])
        )
        return cover_matrix.cover_matrix(
            self._wanted.axis, self._wanted.room, points[open_], radius[open_], also=also
        )

    def _partners(self, matrix: CoverMatrix, give_mm: float) -> NDArray[np.bool_]:
        xy = ways.places(self._wanted.axis, matrix.places)
        return _partners(xy, self._owed, self._owed.base_mm or 0.0, give_mm)

    def _chosen(self, matrix: CoverMatrix, rules: tuple[LinearConstraint, ...]) -> Chosen:
        least = np.ones(matrix.covers.shape[0])
        seconds = self._watch.seconds_a_piece / 4
        extra = len(matrix.places) if self._owed.base_mm is not None and rules else 0
        return covering.constrained(matrix.covers, least, rules, seconds=seconds, extra=extra)

    def _holes(self, at: AxisPoints) -> Holes:
        room = self._wanted.room
        return Holes(room, room.holding(at.branch, at.s), at.s, self._stays)


def _partners(xy: Points, owed: Owed, base_mm: float, give_mm: float) -> NDArray[np.bool_]:
    """(n, n) whether two places far enough apart have the centre of gravity between them.

    With a give, whether two places within it of these might.
    """
    along = xy[np.newaxis] - xy[:, np.newaxis]
    square = (along**2).sum(axis=2)
    passed = ((np.asarray(owed.centre) - xy)[:, np.newaxis] * along).sum(axis=2)
    least = max(base_mm, owed.apart_mm, 2 * give_mm) - 2 * give_mm
    away = np.hypot(*(xy - owed.centre).T)
    slack = (turning.SLACK_MM / 2 + 3 * give_mm) * np.sqrt(square) + 3 * give_mm * np.maximum(
        away[:, np.newaxis], away
    )
    slack = np.where(give_mm > 0, slack, turning.SLACK_MM / 2 * np.sqrt(square))
    return np.asarray((square >= least**2) & (passed >= -slack) & (passed <= square + slack), bool)


def _base_rules(xy: Points, owed: Owed, give_mm: float) -> tuple[LinearConstraint, ...]:
    """One chosen place is an end of the base, and one of its partners is chosen."""
    count = len(xy)
    if owed.base_mm is None:
        return ()
    partners = _partners(np.concatenate([xy, owed.stays]), owed, owed.base_mm, give_mm)
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


def _conflicts(
    xy: Points, pairs: Points, apart: float, extra: bool
) -> tuple[LinearConstraint, ...]:
    """Of all places in a disc as wide as the least distance, at most one; for each near pair.

    Args:
        xy: (n, 2) places.
        pairs: (k, 2, 2) pairs of places that were too near.
        apart: Least distance.
        extra: Whether the program has as many further variables.
    """
    if not len(pairs):
        return ()
    centre = pairs.mean(axis=1)
    inside = cdist(centre, xy) < apart / 2 - _SLACK_MM
    for side in (0, 1):
        inside |= cdist(pairs[:, side], xy) <= _SAME_MM
    rows = csr_array(inside.astype(float))
    if extra:
        rows = hstack([rows, csr_array(rows.shape)], format="csr")
    return (LinearConstraint(rows, ub=1.0),)
