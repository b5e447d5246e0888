"""Arc spline: a chain of short chords as few arcs and lines, within a tolerance.

A controller that meets thousands of chords slows down at each; arcs it follows at speed. The chain
is divided where it must be kept exactly: at corners, and at both ends of chords too long to stand
for a curve. Along each smooth stretch between, the fewest arcs are sought whose ends lie anywhere
in the band that the tolerance allows; of all arcs through the same ends those with the smallest
kinks are taken. What comes out is measured against the chain, arc by arc; an arc that does not hold
gives way to the chords it stands for. A ring that is a circle within the tolerance becomes two half
circles.

The arcs need not share their tangents where they meet: arcs that do, two by two, are twice as many.
Kinks of a degree or two do no harm at a plasma torch (common practice, no source), and larger ones
are borne only where many arcs would be needed instead; the largest is told. A corner rounded by
less than a few tolerances may become one.
"""

import itertools
import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.spatial import KDTree

from holeplacer.geometry import arc_search, flatten
from holeplacer.geometry.curve import Points, Polyline

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

CORNER = math.radians(15.0)
"""A kink sharper than this is a corner, unless chords so short make it on a smooth curve."""

_LINE_MM = 1e-4
"""An arc that rises less than this above its chord is a line."""

_LONG = 8.0
"""A chord is a line of its own if, curved as it is at its ends, it would stray from its curve this
many times further than flattening allows: halving makes neighbours differ by four at most."""

_SEARCHED = 0.98
"""Share of the tolerance that the search uses; gates measure square to the chain, not to arcs."""

_PARTS = (2, 4)
"""Gates in a chord, closer where arcs stray between them."""

_AROUND = (20.0, 80.0, 320.0, math.inf)
"""In a cusp, or a gap as narrow as the band, the sides of a ring may cross. Then its own chords
stay this many tolerances around, further if that does not help, in the end everywhere."""

_TOUCH = 1e-9


@dataclass(frozen=True, eq=False)
class ArcSpline:
    """Lines and arcs in place of a chain.

    Attributes:
        polyline: They, as steps with bulges, from the chain's first point to its last.
        corners: (n,) whether each vertex is a corner or an end of the chain.
        deviation_mm: Furthest that vertices of the chain, and chords beyond what they may stray
            from their curve, are from the steps.
        kink_rad: Largest angle between steps where there is no corner.
    """

    polyline: Polyline
    corners: Flags
    deviation_mm: float
    kink_rad: float

    @property
    def entities(self) -> int:
        """Number of lines and arcs."""
        return len(self.polyline.xy) - (0 if self.polyline.closed else 1)


def fitted(
    xy: Points, tolerance_mm: float, flattened_mm: float = 0.0, *, closed: bool = False
) -> ArcSpline:
    """Lines and arcs along a chain of points.

    Args:
        xy: (n, 2) points, n >= 2, neighbours different; a closed chain does not repeat its first.
        tolerance_mm: Furthest that the chain's vertices may be from the steps, and its chords
            beyond `flattened_mm`.
        flattened_mm: Furthest that the chords stray from the curve they stand for; 0 if they
            stand for themselves.
        closed: Whether a chord leads from the last point to the first. The first point stays one
            of the result's.
    """
    chain = np.asarray(xy, float)
    if closed:
        chain = np.vstack([chain, chain[:1]])
    loop = len(chain) > 3 and bool((chain[0] == chain[-1]).all())
    allowed = _Allowed(tolerance_mm, flattened_mm)
    kept = np.zeros(len(chain), bool)
    fit = _fit(chain, allowed, kept, loop=loop, closed=closed)
    for around in _AROUND if loop and shapely.LinearRing(chain).is_simple else ():
        crossings = _crossings(fit.polyline)
        if not len(crossings):
            break
        away, _ = KDTree(crossings).query(chain)
        kept |= away <= around * tolerance_mm
        fit = _fit(chain, allowed, kept, loop=True, closed=closed)
    return fit


def _fit(chain: Points, allowed: "_Allowed", kept: Flags, *, loop: bool, closed: bool) -> ArcSpline:
    """The steps along a chain that passes some of its points exactly, and chords between those."""
    breaks, corners = _breaks(chain, allowed.flattened or allowed.tolerance, loop=loop)
    if loop and not (breaks | kept).any():
        circle = _circle(chain, allowed)
        if circle is not None:
            smooth = _Rounded(chain[:0], 0.0)
            return _put_together([circle], corners[[0, -1]], smooth, closed=closed)
    at = [0, *(np.flatnonzero((breaks | kept)[1:-1]) + 1).tolist(), len(chain) - 1]
    stretches = [_stretch(chain[begin : end + 1], allowed) for begin, end in itertools.pairwise(at)]
    rounded = _rounded(chain, 4 * allowed.tolerance)
    return _put_together(stretches, corners[at], rounded, closed=closed)


def _crossings(polyline: Polyline) -> Points:
    """Where a ring meets itself, as it is within a micron."""
    ring = shapely.LinearRing(flatten.flatten(polyline, 0.001)[1])
    if ring.is_simple:
        return np.zeros((0, 2))
    lines = shapely.get_parts(shapely.node(ring))
    ends = np.concatenate([shapely.get_coordinates(line)[[0, -1]] for line in lines])
    return np.asarray(ends[(ends != ring.coords[0]).any(axis=1)])


@dataclass(frozen=True)
class _Allowed:
    """How far vertices may be from the steps, and how much further chords."""

    tolerance: float
    flattened: float


@dataclass(frozen=True, eq=False)
class _Steps:
    """Steps along a stretch: (m + 1, 2) their ends, (m,) their bulges, how far they stray."""

    xy: Points
    bulges: Floats
    deviation: float


def _breaks(chain: Points, flattened: float, *, loop: bool) -> tuple[Flags, Flags]:
    """Which points must be kept, and which of them are corners; ends of an open chain are both."""
    around = np.vstack([chain[-2], chain, chain[1]]) if loop else chain
    chord = np.diff(around, axis=0)
    length = np.hypot(*chord.T)
    turn = np.abs(_turns(chord))
    own = 4 * flattened / length
    sharp = turn > np.maximum(CORNER, 1.5 * (own[:-1] + own[1:]))
    curved = np.where(sharp, 0.0, 2 * turn / (length[:-1] + length[1:]))
    at_ends = np.maximum(np.append(0.0, curved), np.append(curved, 0.0))
    straight = at_ends * length**2 / 8 > _LONG * flattened
    kept = sharp | straight[:-1] | straight[1:]
    if loop:
        return kept, sharp
    ends = np.array([True])
    return np.concatenate([ends, kept, ends]), np.concatenate([ends, sharp, ends])


@dataclass(frozen=True, eq=False)
class _Rounded:
    """Corners made of a few chords too short to tell them from a curve.

    Attributes:
        xy: (n, 2) points where the chain turns by half a corner or more.
        within: How far from one a kink belongs to it.
    """

    xy: Points
    within: float

    def near(self, places: Points) -> Flags:
        """Whether each place is at one."""
        if not len(self.xy):
            return np.zeros(len(places), bool)
        away, _ = KDTree(self.xy).query(places)
        return np.asarray(away <= self.within)


def _rounded(chain: Points, within: float) -> _Rounded:
    turn = np.abs(_turns(np.diff(chain, axis=0)))
    return _Rounded(chain[1:-1][turn > CORNER / 2], within)


def _turns(chord: Points) -> Floats:
    before, after = chord[:-1], chord[1:]
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    return np.asarray(np.arctan2(cross, (before * after).sum(axis=1)))


def _circle(ring: Points, allowed: _Allowed) -> _Steps | None:
    """A ring as two half circles from its first point on, if it is a circle."""
    start = ring[0]
    points = ring[:-1] - start
    # Least squares over |p|^2 = 2 p c for circles through the start.
    centre, _, rank, _ = np.linalg.lstsq(2 * points, (points**2).sum(axis=1), rcond=None)
    turn = float(_turns(np.vstack([np.diff(ring, axis=0), ring[1:2] - start])).sum())
    if rank < 2 or abs(abs(turn) - 2 * math.pi) > 1e-6:
        return None
    bulge = math.copysign(1.0, turn)
    xy = np.array([start, start + 2 * centre, start])
    bulges = np.array([bulge, bulge])
    half = int(np.argmax(points @ centre))
    off = _deviations(ring, np.array([0, half, len(points)]), xy, bulges, allowed.flattened)
    return _Steps(xy, bulges, float(off.max())) if off.max() <= allowed.tolerance else None


def _stretch(xy: Points, allowed: _Allowed) -> _Steps:
    """The steps along a smooth stretch of a chain, from its first point to its last.

    Where an arc that passes all gates strays too far between them, gates are set closer.
    """
    if len(xy) == 2:
        return _Steps(xy, np.zeros(1), 0.0)
    width = _SEARCHED * allowed.tolerance
    for parts in _PARTS:
        gates = _gates(xy, allowed.flattened, parts)
        way = arc_search.fewest(gates, width, parts)
        bulges = -np.tan(np.arctan(way.tangents) / 2)
        rise = np.abs(bulges) * np.hypot(*np.diff(way.xy, axis=0).T) / 2
        bulges[rise <= _LINE_MM] = 0.0
        off = _deviations(gates, way.gates, way.xy, bulges, allowed.flattened / parts**2)
        held = off <= allowed.tolerance
        if held.all():
            break
    places, steps = [way.xy[:1]], []
    for index, (begin, end) in enumerate(itertools.pairwise(way.gates.tolist())):
        chords = xy[begin // parts + 1 : -(-end // parts)][: 0 if held[index] else None]
        places += [chords, way.xy[index + 1 : index + 2]]
        steps += [float(bulges[index]) if held[index] else 0.0, *[0.0] * len(chords)]
    worst = max(float(off[held].max(initial=0.0)), width * float(np.abs(way.offsets).max()))
    return _Steps(np.concatenate(places), np.array(steps), worst)


def _gates(xy: Points, flattened: float, parts: int) -> Points:
    """The vertices and points between them, where the curve seems to pass.

    A chord that stands for a curve lies beside it in the middle, as its turns at both ends tell.
    """
    chord = np.diff(xy, axis=0)
    length = np.hypot(*chord.T)
    curved = 2 * _turns(chord) / (length[:-1] + length[1:])
    both = np.append(curved[:1], curved) + np.append(curved, curved[-1:])
    raised = np.clip(both * length**2 / 16, -flattened, flattened)
    share = np.arange(parts) / parts
    outwards = np.column_stack([chord[:, 1], -chord[:, 0]]) * (raised / length)[:, None]
    gates = xy[:-1, None] + share[:, None] * chord[:, None]
    gates += (4 * share * (1 - share))[:, None] * outwards[:, None]
    return np.vstack([gates.reshape(-1, 2), xy[-1:]])


def _deviations(
    gates: Points, at: NDArray[np.intp], xy: Points, bulges: Floats, beyond: float
) -> Floats:
    """Furthest that the chain is from each step; infinite where it turns back along it.

    Furthest out of an arc are vertices, furthest in is where a chord passes its centre.

    Args:
        gates: (n, 2) the chain.
        at: (m + 1,) which of its points each step starts beside, and the last.
        xy: (m + 1, 2) ends of the steps.
        bulges: (m,) of the steps.
        beyond: How much further than vertices chords may be.
    """
    chord = np.diff(xy, axis=0)
    length = np.maximum(np.hypot(*chord.T), _TOUCH)
    along = chord / length[:, None]
    left = np.column_stack([-along[:, 1], along[:, 0]])
    count = np.diff(at) + 1
    step = np.repeat(np.arange(len(count)), count)
    near = gates[np.arange(len(step)) - step] - xy[step]
    x, y = (near * along[step]).sum(axis=1), (near * left[step]).sum(axis=1)
    bent = np.where(bulges == 0.0, 1.0, bulges)
    radius = length * (1 + bent**2) / (4 * np.abs(bent))
    centre = length * (1 - bent**2) / (4 * bent)
    around = np.column_stack([x - length[step] / 2, y - centre[step]])
    arc = bulges[step] != 0.0
    off = np.abs(np.where(arc, np.hypot(*around.T) - radius[step], y))
    same, arc, of = step[1:] == step[:-1], arc[1:], step[1:]
    move = np.diff(around, axis=0)
    square = np.maximum((move**2).sum(axis=1), _TOUCH**2)
    share = np.clip(-(around[:-1] * move).sum(axis=1) / square, 0.0, 1.0)
    inside = radius[of] - np.hypot(*(around[:-1] + share[:, None] * move).T)
    turned = around[:-1, 0] * move[:, 1] - around[:-1, 1] * move[:, 0]
    ahead = np.where(arc, turned * np.sign(bulges[of]), move[:, 0])
    worst = np.zeros(len(bulges))
    np.maximum.at(worst, step, off)
    np.maximum.at(worst, of[same & arc], inside[same & arc] - beyond)
    np.maximum.at(worst, of[same & (ahead < -_TOUCH)], np.inf)
    return worst


def _put_together(
    stretches: list[_Steps], corners: Flags, rounded: "_Rounded", *, closed: bool
) -> ArcSpline:
    """The steps of all stretches end to end.

    Args:
        stretches: In order.
        corners: Whether there is a corner where each begins, and where the last ends.
        rounded: Where else a kink is a corner of the chain.
        closed: Whether the last end is the first start, and is not to be repeated.
    """
    xy = np.concatenate([stretches[0].xy[:1], *(stretch.xy[1:] for stretch in stretches)])
    bulges = np.concatenate([stretch.bulges for stretch in stretches])
    sharp = np.zeros(len(xy), bool)
    sharp[np.cumsum([0, *(len(stretch.bulges) for stretch in stretches)])] = corners
    sharp |= rounded.near(xy)
    kink = _largest_kink(xy, bulges, sharp)
    bulges = np.append(bulges, 0.0)
    if closed:
        xy, bulges, sharp = xy[:-1], bulges[:-1], sharp[:-1]
    polyline = Polyline(xy, bulges if bulges.any() else None, closed)
    return ArcSpline(polyline, sharp, max(stretch.deviation for stretch in stretches), kink)


def _largest_kink(xy: Points, bulges: Floats, sharp: Flags) -> float:
    course = np.arctan2(*np.diff(xy, axis=0).T[::-1])
    half = 2 * np.arctan(bulges)
    leaves, arrives, calm = course - half, course + half, ~sharp[1:-1]
    turn = leaves[1:] - arrives[:-1]
    if (xy[0] == xy[-1]).all():
        turn = np.append(turn, leaves[0] - arrives[-1])
        calm = np.append(calm, not sharp[0])
    wrapped = np.abs((turn + math.pi) % (2 * math.pi) - math.pi)
    return float(wrapped[calm].max(initial=0.0))
