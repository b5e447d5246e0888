"""Rows: discs in order along chains and strands, junction discs included."""

from dataclasses import dataclass

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Flags, Floats, Indices
from holeplacer.medial_axis.chains import Chains
from holeplacer.medial_axis.strands import Strand

SAME = 1e-6
"""Discs whose centres lie closer than this, in disc radii, are the same."""
LOOKS_BACK = 3
"""How often the distance to look back from an axis end is taken anew from the disc found there."""


@dataclass(frozen=True, eq=False)
class Rows:
    """Discs that touch the left side, then the right side, one stretch after another.

    Attributes:
        discs: All of them.
        stretch: (k,) number of the chain or strand each belongs to, never falling.
    """

    discs: Discs
    stretch: Indices

    def first(self, stretches: int) -> Indices:
        """(stretches + 1,) where each stretch begins."""
        return np.searchsorted(self.stretch, np.arange(stretches + 1)).astype(np.intp)

    def taken(self, index: Indices) -> "Rows":
        """Those rows, in that order."""
        return Rows(self.discs.taken(index), self.stretch[index])

    def of_stretches(self, kept: Flags) -> "Rows":
        """The rows of some stretches, which are numbered anew."""
        index = np.flatnonzero(kept[self.stretch])
        number = np.cumsum(kept) - 1
        return Rows(self.discs.taken(index), number[self.stretch[index]])

    def ends(self) -> Flags:
        """(k,) whether each is the first or last of its stretch."""
        change = np.diff(self.stretch, prepend=-1, append=-1) != 0
        ends: Flags = change[1:] | change[:-1]
        return ends

    def repeated(self) -> Flags:
        """(k,) whether each lies where the one before it lies, or where the end after it does."""
        step = np.diff(self.discs.xy, axis=0)
        still = np.hypot(step[:, 0], step[:, 1]) <= SAME * self.discs.radius[1:]
        before, after = np.append(False, still), np.append(still, False)
        ends = self.ends()
        repeated: Flags = before | (after & np.append(ends[1:], False))
        return repeated

    def ways(self) -> Floats:
        """(k,) mm from the first disc of each stretch."""
        step = np.diff(self.discs.xy, axis=0)
        same = self.stretch[1:] == self.stretch[:-1]
        total = np.append(0.0, np.cumsum(np.where(same, np.hypot(step[:, 0], step[:, 1]), 0.0)))
        start = np.searchsorted(self.stretch, self.stretch)
        ways: Floats = total[: len(self.stretch)] - total[start]
        return ways


def chain_rows(
    chains: Chains,
    crossings: Discs,
    right: Flags,
    sides: Floats,
    junctions: Discs,
    junction_of: Indices,
) -> Rows:
    """The discs of each chain, with the junction discs it starts and ends at.

    Args:
        chains: Crossings in order.
        crossings: Disc of each crossing, as seen from its `before` triangle.
        right: Whether each is on the axis; others are left out, unless the chain had none left.
        sides: (e, 2, 2) samples to the left and right of each crossing.
        junctions: Disc of each junction.
        junction_of: Junction of each triangle, -1 if it is none.
    """
    chain = np.repeat(np.arange(len(chains)), np.diff(chains.first))
    along = crossings.taken(chains.crossing).turned(~chains.forward)
    at_start, at_end = junction_of[chains.start], junction_of[chains.end]
    starting, ending = np.flatnonzero(at_start >= 0), np.flatnonzero(at_end >= 0)
    turned = ~chains.forward[:, None, None]
    sides = np.where(turned, sides[chains.crossing, ::-1], sides[chains.crossing])
    heads = _touching(junctions.taken(at_start[starting]), sides[chains.first[:-1][starting]])
    tails = _touching(junctions.taken(at_end[ending]), sides[chains.first[1:][ending] - 1])
    kept = right[chains.crossing].copy()
    bare = (at_start < 0) & (at_end < 0) & (np.bincount(chain[kept], minlength=len(chains)) == 0)
    kept[chains.first[:-1][bare]] = True
    stretch = np.concatenate((chain[kept], starting, ending))
    place = np.repeat([1, 0, 2], [int(np.count_nonzero(kept)), len(starting), len(ending)])
    order = np.lexsort((place, stretch))
    discs = along.taken(np.flatnonzero(kept)).joined(heads).joined(tails)
    return Rows(discs.taken(order), stretch[order])


def _touching(junctions: Discs, sides: Floats) -> Discs:
    """Junction discs with the two of their three feet nearest to the sides of the next crossing."""
    apart = junctions.foot[:, :, None] - sides[:, None, :]
    distance = np.hypot(apart[..., 0], apart[..., 1])
    pairs = np.array([(a, b) for a in range(3) for b in range(3) if a != b])
    chosen = pairs[np.argmin(distance[:, pairs[:, 0], 0] + distance[:, pairs[:, 1], 1], axis=1)]
    which = np.arange(len(junctions))[:, None]
    foot = junctions.foot[which, chosen]
    away = foot - junctions.xy[:, None]
    return Discs(
        junctions.xy,
        junctions.radius,
        junctions.segment[which, chosen],
        foot,
        np.ptp(np.hypot(away[..., 0], away[..., 1]), axis=1),
        junctions.clearance,
    )


def strand_rows(rows: Rows, chain_first: Indices, strands: list[Strand], closed: Flags) -> Rows:
    """The rows of chains put together to strands; a closed chain comes back to its first disc."""
    index: list[Indices] = []
    turned: list[Flags] = []
    stretch: list[Indices] = []
    for number, strand in enumerate(strands):
        for order, (chain, backwards) in enumerate(strand.parts):
            run = np.arange(chain_first[chain], chain_first[chain + 1])
            run = run[::-1] if backwards else run
            run = run[1:] if order else run
            run = np.concatenate((run, run[:1])) if closed[chain] else run
            index.append(run)
            turned.append(np.full(len(run), backwards))
            stretch.append(np.full(len(run), number))
    if not index:
        return Rows(rows.discs.taken(np.empty(0, np.intp)), np.empty(0, np.intp))
    discs = rows.discs.taken(np.concatenate(index)).turned(np.concatenate(turned))
    return Rows(discs, np.concatenate(stretch))


def headings(rows: Rows, places: Indices, outgoing: Flags) -> Points:
    """Directions in which the axis leaves the metal at ends of stretches, (k, 2) unit vectors.

    Seen from the last disc that leaves the end out, since the contacts of the very end, in the
    middle of a round cap, can lie anywhere on it.

    Args:
        rows: Discs of stretches.
        places: (k,) first or last row of a stretch each.
        outgoing: (k,) whether it is the last one.
    """
    seen = places
    for _ in range(LOOKS_BACK):
        seen = back_from(rows, places, outgoing, rows.discs.radius[seen])
    heading = rows.discs.xy[places] - rows.discs.xy[seen]
    size = np.hypot(heading[:, 0], heading[:, 1])
    foot = rows.discs.foot[places]
    across = np.where(outgoing[:, None], 1.0, -1.0) * (foot[:, 0] - foot[:, 1])
    square_to = np.column_stack((across[:, 1], -across[:, 0]))
    heading = np.where((size > 0.1 * rows.discs.radius[places])[:, None], heading, square_to)
    size = np.hypot(heading[:, 0], heading[:, 1])
    return heading / np.maximum(size, 1e-300)[:, None]


def back_from(rows: Rows, places: Indices, outgoing: Flags, way: Floats) -> Indices:
    """The rows a certain way back from ends of stretches, or the stretches' other ends.

    Args:
        rows: Discs of stretches.
        places: (k,) first or last row of a stretch each.
        outgoing: (k,) whether it is the last one.
        way: (k,) how far to go back, mm.
    """
    ways = rows.ways()
    stretch = rows.stretch[places]
    # ways of all stretches one after another, so that one search finds all
    total = rows.stretch * (2.0 * float(ways.max(initial=0.0)) + 1.0) + ways
    low = np.searchsorted(rows.stretch, stretch)
    high = np.searchsorted(rows.stretch, stretch, side="right") - 1
    found = np.where(
        outgoing,
        np.searchsorted(total, total[places] - way, side="right") - 1,
        np.searchsorted(total, total[places] + way),
    )
    return np.clip(found, low, high)
