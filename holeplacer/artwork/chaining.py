"""Chaining: loose segments joined end to end into closed contours.

Where exactly two ends meet, the way is plain. Where more do, closed loops are taken out first,
then tails that lead nowhere; what is left is followed if every branch point has an even number of
ends (any way round then encloses the same area), and pointed at as ambiguous if not.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.bridges import evened, split_bridges
from holeplacer.artwork.drawing import DrawnContour, DrawnSegment, LooseLines
from holeplacer.artwork.loose_ends import Ends, meet
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import Curve, Points, Polyline, Spline
from holeplacer.geometry.evaluate import domain, points_at
from holeplacer.geometry.trim import reversed_curve

MOST_LOOSE = 20_000
"""Loose ends in one drawing; lettering with all its gaps has hundreds."""

Place = tuple[float, float]
Step = int
"""A segment as walked: its number times 2, plus 1 where it is walked backwards."""


@dataclass(frozen=True)
class OpenChain:
    """Segments that close to no contour.

    Attributes:
        layer: Of its first segment.
        kind: Of its first segment.
        end: Where it stops.
        gap: From there to its other end.
    """

    layer: str
    kind: str
    end: Place
    gap: float


@dataclass(frozen=True, eq=False)
class Chained:
    """What became of loose segments.

    Attributes:
        contours: Closed.
        gaps: Place and width of each gap that was closed.
        repeated: A place on each segment that was drawn twice.
        open: Chains left over.
        branches: Places where an odd number of ends meet, whose chains were left out, with that
            number.
    """

    contours: tuple[DrawnContour, ...] = ()
    gaps: tuple[tuple[Place, float], ...] = ()
    repeated: tuple[Place, ...] = ()
    open: tuple[OpenChain, ...] = ()
    branches: tuple[tuple[Place, int], ...] = ()


def chained(loose: Sequence[DrawnSegment], lines: Sequence[LooseLines], reach: float) -> Chained:
    """Join loose segments whose ends lie within reach.

    Args:
        loose: Open curves.
        lines: Straight segments in bulk.
        reach: Largest gap that is closed, in the unit of the coordinates.

    Raises:
        ArtworkError: More than `MOST_LOOSE` ends are loose.
    """
    if not loose and not lines:
        return Chained()
    segments = _Segments(loose, lines)
    ends = meet(segments.ends, segments.middle, segments.length, reach)
    _refuse_hatching(ends)
    chains = _chains(ends)
    loops, tails, branches = _sorted_out(chains, ends.doubled)
    places = segments.ends.reshape(-1, 2)
    return Chained(
        contours=tuple(_contour(loop, segments) for loop in loops),
        gaps=tuple(_gap(places[one], places[other]) for one, other in ends.gaps.tolist()),
        repeated=tuple(_place(place) for place in segments.middle[ends.repeated]),
        open=tuple(_open(tail, segments) for tail in tails),
        branches=tuple((_place(places[end]), degree) for end, degree in branches),
    )


def _refuse_hatching(ends: Ends) -> None:
    """Refuse thousands of loose ends before any is followed.

    Raises:
        ArtworkError: There are more than `MOST_LOOSE`.
    """
    meeting = np.bincount(ends.node[np.repeat(ends.counts, 2)], minlength=1)
    if int((meeting == 1).sum()) > MOST_LOOSE:
        raise ArtworkError(
            f"more than {MOST_LOOSE} of its lines end where nothing goes on",
            remedy="give the outline of the lettering as closed contours, without hatching",
        )


class _Segments:
    """Loose curves and lines under one numbering: curves first."""

    def __init__(self, loose: Sequence[DrawnSegment], lines: Sequence[LooseLines]) -> None:
        self.loose = loose
        self.lines = lines
        marks = np.array([_marks(part.curve) for part in loose]).reshape(-1, 4, 2)
        self.straight = np.concatenate([np.zeros((0, 2, 2)), *(bulk.xy for bulk in lines)])
        self.bulk = np.repeat(np.arange(len(lines)), [len(bulk.xy) for bulk in lines])
        self.ends = np.concatenate([marks[:, :2], self.straight])
        self.middle = np.concatenate([marks[:, 2], self.straight.mean(axis=1)])
        along = np.hypot(*(self.straight[:, 1] - self.straight[:, 0]).T)
        self.length = np.concatenate([marks[:, 3].max(axis=1, initial=0.0), along])

    def about(self, number: int) -> tuple[str, str]:
        """Layer and kind of a segment."""
        if number < len(self.loose):
            return self.loose[number].layer, self.loose[number].kind
        bulk = self.lines[int(self.bulk[number - len(self.loose)])]
        return bulk.layer, bulk.kind

    def corners(self, loop: list[Step]) -> Points | None:
        """Where lines of one bulk meet all round, half way between their ends; else None."""
        steps = np.array(loop)
        number = (steps >> 1) - len(self.loose)
        if number.min() < 0 or np.ptp(self.bulk[number]) > 0:
            return None
        xy = self.straight[number]
        backwards = steps & 1 == 1
        xy[backwards] = xy[backwards, ::-1]
        return np.asarray((xy[:, 0] + np.roll(xy[:, 1], 1, axis=0)) / 2)

    def walked(self, step: Step) -> DrawnSegment | Points:
        """A segment in the sense it is walked: points if it is straight."""
        number, backwards = divmod(step, 2)
        if number >= len(self.loose):
            xy: Points = self.straight[number - len(self.loose)]
            return xy[::-1] if backwards else xy
        part = self.loose[number]
        if isinstance(part.curve, Polyline) and part.curve.bulges is None:
            return part.curve.xy[::-1] if backwards else part.curve.xy
        if not backwards:
            return part
        return DrawnSegment(reversed_curve(part.curve), part.layer, part.kind)


def _marks(curve: Curve) -> Points:
    """Start, end, a middle that is the same walked either way, and how far the curve extends."""
    match curve:
        case Polyline():
            points = curve.xy
        case Spline() if curve.knots[0] == curve.knots[curve.degree] and (
            curve.knots[-1] == curve.knots[-1 - curve.degree]
        ):
            points = curve.control
        case _:
            points = points_at(curve, np.linspace(*domain(curve), 4))
    return np.array([points[0], points[-1], points.mean(axis=0), np.ptp(points, axis=0)])


@dataclass(frozen=True, eq=False, slots=True)
class _Chain:
    """Segments between two branch points or loose ends, or all round a loop."""

    steps: list[Step]
    nodes: tuple[int, int]
    is_loop: bool

    @property
    def ends(self) -> tuple[int, int]:
        """The segment end it starts from and the one it stops at."""
        return self.steps[0], self.steps[-1] ^ 1


def _chains(ends: Ends) -> list[_Chain]:
    """Walk through all nodes where two ends meet."""
    used = np.repeat(ends.counts, 2)
    partner = _partners(ends.node, used).tolist()
    node = ends.node.tolist()
    fresh = ends.counts.tolist()
    starts = [end for end in np.flatnonzero(used).tolist() if partner[end] < 0]
    chains = []
    for begin in (*starts, *np.flatnonzero(used).tolist()):
        if not fresh[begin >> 1]:
            continue
        steps, end = [], begin
        while end >= 0 and fresh[end >> 1]:
            fresh[end >> 1] = False
            steps.append(end)
            end = partner[end ^ 1]
        chains.append(_Chain(steps, (node[begin], node[steps[-1] ^ 1]), end == begin))
    return chains


def _partners(node: NDArray[np.intp], used: NDArray[np.bool_]) -> NDArray[np.intp]:
    """For each end the other one at its node, -1 where there is none or more than one."""
    partner = np.full(len(node), -1, dtype=np.intp)
    at = np.flatnonzero(used)
    at = at[np.argsort(node[at], kind="stable")]
    degree = np.bincount(node[at], minlength=1)
    pairs = at[degree[node[at]] == 2].reshape(-1, 2)
    partner[pairs[:, 0]], partner[pairs[:, 1]] = pairs[:, 1], pairs[:, 0]
    return partner


def _sorted_out(
    chains: list[_Chain], doubled: NDArray[np.bool_]
) -> tuple[list[list[Step]], list[list[Step]], list[tuple[int, int]]]:
    """Loops, tails, and the ends at which chains branch ambiguously (with their number).

    A doubled chain that dangles, or whose absence leaves an even number of ends everywhere, bounds
    nothing: it was drawn out and back, or by both of two contours that share it.
    """
    loops = [chain.steps for chain in chains if chain.is_loop or chain.nodes[0] == chain.nodes[1]]
    between = [chain for chain in chains if not chain.is_loop and chain.nodes[0] != chain.nodes[1]]
    bridges, meshes = split_bridges([chain.nodes for chain in between])
    tails = [between[number].steps for number in bridges]
    branches: list[tuple[int, int]] = []
    for mesh in meshes:
        members = [between[number] for number in mesh]
        twice = [all(doubled[step >> 1] for step in chain.steps) for chain in members]
        left = evened([chain.nodes for chain in members], twice)
        if left is not None:
            loops += _cycles([members[number] for number in left])
            continue
        at: dict[int, list[int]] = {}
        for chain in members:
            for node, end in zip(chain.nodes, chain.ends, strict=True):
                at.setdefault(node, []).append(end)
        branches += [(found[0], len(found)) for found in at.values() if len(found) % 2]
    open_tails = [steps for steps in tails if not all(doubled[step >> 1] for step in steps)]
    return loops, open_tails, branches


def _cycles(chains: list[_Chain]) -> list[list[Step]]:
    """Chains with an even number at every node, as cycles that pass no node twice."""
    at: dict[int, list[tuple[list[Step], int]]] = {}
    for chain in chains:
        one, other = chain.nodes
        at.setdefault(one, []).append((chain.steps, other))
        at.setdefault(other, []).append(([step ^ 1 for step in reversed(chain.steps)], one))
    walked: set[int] = set()
    cycles = []
    for begin in at:
        path: list[list[Step]] = []
        nodes, position = [begin], {begin: 0}
        while True:
            ways = at[nodes[-1]]
            while ways and ways[-1][0][0] >> 1 in walked:
                ways.pop()
            if not ways:
                break
            steps, node = ways.pop()
            walked |= {steps[0] >> 1, steps[-1] >> 1}
            path.append(steps)
            first = position.get(node)
            if first is None:
                position[node] = len(nodes)
                nodes.append(node)
                continue
            cycles.append([step for part in path[first:] for step in part])
            for left in nodes[first + 1 :]:
                del position[left]
            del path[first:], nodes[first + 1 :]
    return cycles


def _contour(loop: list[Step], segments: _Segments) -> DrawnContour:
    """A loop as curves, straight steps of one layer and kind as one polyline.

    A straight step gives way to a curve where they don't quite meet; two straight ones meet half
    way; two curves stay as they are, to be bridged when they are flattened.
    """
    corners = segments.corners(loop)
    if corners is not None:
        polyline = Polyline(corners, None, closed=True)
        return DrawnContour((DrawnSegment(polyline, *segments.about(loop[0] >> 1)),))
    parts = [(segments.walked(step), segments.about(step >> 1)) for step in loop]
    keys = [about if isinstance(part, np.ndarray) else None for part, about in parts]
    begin = next((i for i, key in enumerate(keys) if key is None or key != keys[i - 1]), None)
    if begin is None:
        xy = _through([part for part, _ in parts if isinstance(part, np.ndarray)])
        xy[0] = (xy[0] + xy[-1]) / 2
        return DrawnContour((DrawnSegment(Polyline(xy[:-1], None, closed=True), *parts[0][1]),))
    parts, keys = parts[begin:] + parts[:begin], keys[begin:] + keys[:begin]
    drawn: list[DrawnSegment] = []
    position = 0
    while position < len(parts):
        part, about = parts[position]
        run = position + 1
        if isinstance(part, DrawnSegment):
            drawn.append(part)
        else:
            while run < len(parts) and keys[run] == keys[position]:
                run += 1
            straight = [item for item, _ in parts[position:run] if isinstance(item, np.ndarray)]
            drawn.append(DrawnSegment(Polyline(_through(straight)), *about))
        position = run
    _close_joints(drawn)
    return DrawnContour(tuple(drawn))


def _through(parts: list[Points]) -> Points:
    """Polylines end to end as one, meeting half way."""
    xy = np.concatenate(parts)
    joint = np.cumsum([len(part) for part in parts])[:-1] - 1
    xy[joint] = (xy[joint] + xy[joint + 1]) / 2
    return np.delete(xy, joint + 1, axis=0)


def _close_joints(drawn: list[DrawnSegment]) -> None:
    """Move the ends of straight polylines onto what they meet; their arrays are this module's."""
    for before, after in zip(drawn, [*drawn[1:], drawn[0]], strict=True):
        one, other = _straight_xy(before), _straight_xy(after)
        if one is not None and other is not None:
            one[-1] = other[0] = (one[-1] + other[0]) / 2
        elif one is not None:
            one[-1] = points_at(after.curve, domain(after.curve)[0])[0]
        elif other is not None:
            other[0] = points_at(before.curve, domain(before.curve)[1])[0]


def _straight_xy(part: DrawnSegment) -> Points | None:
    """Vertices of a polyline without arcs."""
    curve = part.curve
    return curve.xy if isinstance(curve, Polyline) and curve.bulges is None else None


def _open(steps: list[Step], segments: _Segments) -> OpenChain:
    places = segments.ends.reshape(-1, 2)
    end, start = places[steps[-1] ^ 1], places[steps[0]]
    return OpenChain(*segments.about(steps[0] >> 1), _place(end), float(np.hypot(*(end - start))))


def _gap(one: Points, other: Points) -> tuple[Place, float]:
    return _place((one + other) / 2), float(np.hypot(*(one - other)))


def _place(point: Points) -> Place:
    return float(point[0]), float(point[1])
