"""Stations: the points along every stroke between which it is reckoned as a straight beam."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis, Branch

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

STEP = 0.5
"""Longest beam, in clear widths."""
TURN = 0.1
"""Greatest turn of the axis between stations, radians: a chord is then 0.04 % short."""
TAPER = 0.1
"""Greatest change of clear width between stations, as a share of it."""
LEAST_SHARE = 1.0 / 4000.0
"""Of the piece's axis, the shortest step asked for: bounds the count."""
LEAST_MM = 1.0
"""No beam is asked to be shorter, however thin the stroke."""


@dataclass(frozen=True, eq=False)
class Stations:
    """Points of one piece's axis, and the beams between them.

    Attributes:
        xy: (n, 2) places; axis nodes first, then those within branches.
        clearance: (n,) disc radius there.
        first, last: (m,) the two stations of each beam.
        width: (m,) clear width of each beam: the harmonic mean along it, with which a constant
            moment turns its ends as much as the tapered stroke does.
        branch: (m,) branch of the axis each beam lies on.
        of_branch: Stations along each branch of the piece, from its start to its end.
        ways: Way along the branch to each of those, mm.
    """

    xy: Points
    clearance: Floats
    first: Indices
    last: Indices
    width: Floats
    branch: Indices
    of_branch: dict[int, Indices]
    ways: dict[int, Floats]

    @cached_property
    def in_a_row(self) -> Indices:
        """Stations of all branches one after the other; those at nodes more than once."""
        chains = list(self.of_branch.values())
        return np.concatenate(chains) if chains else np.empty(0, np.intp)

    @cached_property
    def first_of_branch(self) -> Indices:
        """(b + 1,) where each branch begins in that row."""
        sizes = [len(chain) for chain in self.of_branch.values()]
        return np.concatenate([[0], np.cumsum(sizes)]).astype(np.intp)


def stations(axis: Axis, piece: int) -> Stations:
    """Stations of one piece, closer where the stroke is thin, bends or tapers.

    Args:
        axis: The axis.
        piece: Index of the piece.
    """
    nodes = np.flatnonzero(axis.node_piece == piece)
    number = {int(node): index for index, node in enumerate(nodes)}
    branches = [b for b, branch in enumerate(axis.branches) if branch.piece == piece]
    total = sum(axis.branches[b].length_mm for b in branches)
    xy, radius = [axis.node_xy[nodes]], [axis.node_clearance[nodes]]
    width: list[Floats] = [np.empty(0)]
    of_branch: dict[int, Indices] = {}
    ways: dict[int, Floats] = {}
    count = len(nodes)
    for b in branches:
        branch = axis.branches[b]
        s = _ways(branch, max(LEAST_MM, total * LEAST_SHARE))
        inner = count + np.arange(len(s) - 2)
        count += len(inner)
        of_branch[b] = np.concatenate([[number[branch.start]], inner, [number[branch.end]]])
        ways[b] = s
        at = s[1:-1]
        xy.append(np.column_stack([np.interp(at, branch.s, axis_xy) for axis_xy in branch.xy.T]))
        radius.append(np.interp(at, branch.s, branch.clearance))
        width.append(2.0 * _harmonic_mean(branch, s))
    chains = list(of_branch.values())
    empty = [np.empty(0, np.intp)]
    return Stations(
        xy=np.concatenate(xy),
        clearance=np.concatenate(radius),
        first=np.concatenate([c[:-1] for c in chains] or empty).astype(np.intp),
        last=np.concatenate([c[1:] for c in chains] or empty).astype(np.intp),
        width=np.concatenate(width),
        branch=np.concatenate([np.full(len(of_branch[b]) - 1, b) for b in branches] or empty),
        of_branch=of_branch,
        ways=ways,
    )


def _ways(branch: Branch, least_mm: float) -> Floats:
    """Ways along a branch to its stations: a count of steps that keeps all three limits."""
    length = branch.length_mm
    fine = max(16, int(np.ceil(length / max(0.25 * least_mm, length * 5e-5))))
    s = np.linspace(0.0, length, min(fine, 20_000) + 1)
    width = 2.0 * np.interp(s, branch.s, branch.clearance)
    # bends shorter than a tenth of the width are facets of the flattened outline
    lag = np.maximum(0.1 * width, s[1])
    behind, ahead = np.clip(s - lag, 0.0, length), np.clip(s + lag, 0.0, length)
    x, y = branch.xy.T
    back = np.interp(s, branch.s, x) + 1j * np.interp(s, branch.s, y)
    at_behind = np.interp(behind, branch.s, x) + 1j * np.interp(behind, branch.s, y)
    at_ahead = np.interp(ahead, branch.s, x) + 1j * np.interp(ahead, branch.s, y)
    one, two = back - at_behind, at_ahead - back
    turn = np.abs(np.angle(two * np.conj(one))) * (np.abs(one) > 0) * (np.abs(two) > 0)
    bend = turn / np.maximum(0.5 * (ahead - behind), 1e-12)
    taper = np.abs(np.gradient(np.log(np.maximum(width, 1e-9)), s))
    wanted = np.maximum(1.0 / np.maximum(STEP * width, least_mm), bend / TURN)
    wanted = np.minimum(np.maximum(wanted, taper / TAPER), 1.0 / least_mm)
    steps = np.concatenate([[0.0], np.cumsum(0.5 * (wanted[1:] + wanted[:-1]) * np.diff(s))])
    count = max(int(np.ceil(steps[-1])), 3 if branch.start == branch.end else 1)
    return np.interp(np.linspace(0.0, steps[-1], count + 1), steps, s)


def _harmonic_mean(branch: Branch, s: Floats) -> Floats:
    """Harmonic mean of the clearance between ways along a branch."""
    at = np.union1d(s, branch.s)
    inverse = 1.0 / np.maximum(np.interp(at, branch.s, branch.clearance), 1e-9)
    total = np.concatenate([[0.0], np.cumsum(0.5 * (inverse[1:] + inverse[:-1]) * np.diff(at))])
    return np.asarray(np.diff(s) / np.diff(np.interp(s, at, total)), float)
