"""Skeleton: all chains of the axis with their discs, before any strand is dropped."""

from dataclasses import dataclass

import numpy as np

from holeplacer.medial_axis import bisector, residual
from holeplacer.medial_axis.bisector import Discs
from holeplacer.medial_axis.boundary import Boundary, Flags, Floats, Indices
from holeplacer.medial_axis.caps import caps
from holeplacer.medial_axis.chains import Chains, chains
from holeplacer.medial_axis.clearance import measured, on_axis
from holeplacer.medial_axis.junctions import junction_discs
from holeplacer.medial_axis.rows import Rows, chain_rows
from holeplacer.medial_axis.samples import Samples
from holeplacer.medial_axis.strands import ChainEnd, Network, Strand
from holeplacer.medial_axis.triangulation import Triangulation
from holeplacer.outline.outline import Outline


@dataclass(frozen=True, eq=False)
class Skeleton:
    """Chains between junctions and ends.

    Attributes:
        chains: Crossings in order.
        rows: Discs of the chains, those at junctions included.
        first: (c + 1,) where each chain begins in the rows.
        junctions: Disc of each junction.
        junction_of: (triangles,) its junction, or -1.
    """

    chains: Chains
    rows: Rows
    first: Indices
    junctions: Discs
    junction_of: Indices

    def cap_reach(self, boundary: Boundary, ends: list[ChainEnd]) -> Floats:
        """Distance from ends of chains to the tips of the caps beyond them."""
        places = [self.first[c + 1] - 1 if last else self.first[c] for c, last in ends]
        outgoing = np.array([last for _, last in ends], dtype=bool)
        found = caps(boundary, self.rows, np.array(places, dtype=np.intp), outgoing).reach
        # of such a chain nothing but its junction lies on the axis
        bare = [self.first[c + 1] - self.first[c] < 2 for c, _ in ends]
        return np.where(bare, 0.0, found)

    def network(self) -> tuple[Network, Floats]:
        """The strands, one for each chain, and the disc radius at each node.

        Nodes are the junctions, then two for each chain, for its free ends.
        """
        count, junctions = len(self.chains), len(self.junctions)
        at_ends = np.column_stack((self.first[:-1], self.first[1:] - 1)).ravel()
        radius = np.concatenate((self.junctions.radius, self.rows.discs.radius[at_ends]))
        own = junctions + 2 * np.arange(count)
        start, end = self.junction_of[self.chains.start], self.junction_of[self.chains.end]
        start = np.where(start < 0, own, start)
        end = np.where(end < 0, np.where(self.chains.closed, own, own + 1), end)
        lengths = self.rows.ways()[self.first[1:] - 1]
        network = Network()
        every = zip(start.tolist(), end.tolist(), lengths.tolist(), strict=True)
        for number, (from_node, to_node, length) in enumerate(every):
            network.add(number, Strand((from_node, to_node), [(number, False)], length))
        return network, radius


def skeleton_of(
    outline: Outline,
    boundary: Boundary,
    samples: Samples,
    triangulation: Triangulation,
    *,
    share: float = 1.0,
) -> Skeleton:
    """Chains of the crossings with enough chord residual, moved onto the exact axis.

    Args:
        outline: The drawn outline.
        boundary: Its segments.
        samples: Points of them.
        triangulation: Triangles between those.
        share: Of the usual least residual.
    """
    crossings = triangulation.crossings
    enough = share * residual.least_residual(boundary, samples, crossings)
    kept = np.flatnonzero(residual.chord_residual(boundary, samples, crossings) >= enough)
    before, after = crossings.before[kept], crossings.after[kept]
    sides = np.column_stack((crossings.left[kept], crossings.right[kept]))
    crossed = bisector.settle(boundary, crossings.seed[kept], samples.segment[sides])
    crossed = measured(outline, boundary, crossed)
    right = on_axis(boundary, crossed)
    right &= _unturned(crossed, samples.xy[sides])
    triangles = len(triangulation.corners)
    degree = np.bincount(np.concatenate((before, after)), minlength=triangles)
    meeting = np.flatnonzero(degree > 2)
    junction_of = np.full(triangles, -1, dtype=np.intp)
    junction_of[meeting] = np.arange(len(meeting))
    next_to = np.zeros(triangles, dtype=np.intp)
    for side in (before, after):
        for order in (np.flatnonzero(~right), np.flatnonzero(right)):
            next_to[side[order]] = order
    junctions = junction_discs(
        outline,
        boundary,
        triangulation.centre[meeting],
        samples.segment[triangulation.corners[meeting]],
        crossed.taken(next_to[meeting]),
    )
    linked = chains(before, after, triangles)
    rows = chain_rows(linked, crossed, right, samples.xy[sides], junctions, junction_of)
    return Skeleton(linked, rows, rows.first(len(linked)), junctions, junction_of)


def _unturned(crossed: Discs, sides: Floats) -> Flags:
    """Whether the contacts of each disc lie to each other as the samples it came from do."""
    chord, seen = crossed.foot[:, 0] - crossed.foot[:, 1], sides[:, 0] - sides[:, 1]
    unturned: Flags = (chord * seen).sum(axis=1) > 0.0
    return unturned
