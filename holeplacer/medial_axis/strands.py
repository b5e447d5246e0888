"""Strands: chains joined at junctions, pruned to those that a person would call a stroke.

End reach decides: an end strand stays if it leads at least half the junction disc's radius beyond
that disc. Square corners lead 0.41 radii beyond and fall; strokes and slanted cuts stay.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

from holeplacer.medial_axis.boundary import Floats

LEAST_REACH = 0.5
"""What an end strand leads beyond its junction's disc, in that disc's radii."""
ALIKE = 0.8
"""Two short ends reach equally far if their reaches beyond the disc are in this ratio."""

ChainEnd = tuple[int, bool]
"""A chain, and whether its last end is meant (else its first)."""


@dataclass
class Strand:
    """A stretch between two nodes, made of chains one after another.

    Attributes:
        nodes: Start and end.
        parts: Chains in order, each with whether it is passed backwards.
        length: mm.
    """

    nodes: tuple[int, int]
    parts: list[tuple[int, bool]]
    length: float

    def chain_end(self, node: int) -> ChainEnd:
        """Which end of which chain lies at that one of its nodes."""
        if node == self.nodes[1]:
            chain, backwards = self.parts[-1]
            return chain, not backwards
        chain, backwards = self.parts[0]
        return chain, backwards

    def turned(self) -> "Strand":
        """The same from end to start."""
        parts = [(chain, not backwards) for chain, backwards in reversed(self.parts)]
        return Strand((self.nodes[1], self.nodes[0]), parts, self.length)


@dataclass
class Network:
    """Strands by number and, for each node, the strands that meet there (loops twice)."""

    strands: dict[int, Strand] = field(default_factory=dict)
    at: dict[int, list[int]] = field(default_factory=dict)

    def add(self, number: int, strand: Strand) -> None:
        """Put a strand in."""
        self.strands[number] = strand
        for node in strand.nodes:
            self.at.setdefault(node, []).append(number)

    def remove(self, number: int) -> Strand:
        """Take a strand out; its nodes stay, if need be without strands."""
        strand = self.strands.pop(number)
        for node in strand.nodes:
            self.at[node].remove(number)
        return strand

    def free_end(self, number: int) -> tuple[int, int] | None:
        """Free node and junction of a strand that ends free, None for any other."""
        start, end = self.strands[number].nodes
        for free, junction in ((start, end), (end, start)):
            if len(self.at[free]) == 1 and len(self.at[junction]) > 1:
                return free, junction
        return None

    def smooth(self, node: int) -> None:
        """Join the two strands of a node that is no junction any more."""
        numbers = tuple(self.at[node])
        if len(numbers) != 2 or numbers[0] == numbers[1]:
            return
        first, second = self.remove(numbers[0]), self.remove(numbers[1])
        first = first if first.nodes[1] == node else first.turned()
        second = second if second.nodes[0] == node else second.turned()
        del self.at[node]
        parts = first.parts + second.parts
        nodes = (first.nodes[0], second.nodes[1])
        self.add(numbers[0], Strand(nodes, parts, first.length + second.length))


def merge_close_junctions(network: Network, radius: Floats, nearness: Floats) -> dict[int, int]:
    """Contract strands between junctions that are as good as one; loops never.

    Args:
        network: Changed in place.
        radius: Disc radius at each node.
        nearness: Strand length, for each node, below which its neighbour is the same junction.

    Returns:
        For each node that is gone, the one that stands for it.
    """
    stands_for: dict[int, int] = {}
    for number, strand in list(network.strands.items()):
        keep, gone = strand.nodes
        if radius[gone] > radius[keep]:
            keep, gone = gone, keep
        junctions = len(network.at[keep]) > 1 and len(network.at[gone]) > 1
        if keep == gone or not junctions or strand.length > nearness[keep]:
            continue
        network.remove(number)
        for other in network.at.pop(gone):
            start, end = network.strands[other].nodes
            network.strands[other].nodes = (
                keep if start == gone else start,
                keep if end == gone else end,
            )
            network.at[keep].append(other)
        stands_for[gone] = keep
    return {gone: _followed(stands_for, gone) for gone in stands_for}


def prune_short_ends(
    network: Network,
    radius: Floats,
    cap_reach: Callable[[list[ChainEnd]], Floats],
) -> None:
    """Drop end strands that reach too little, all of one round at once, until none does.

    At the end of a stroke, where only one other strand leads on, the furthest reaching of several
    short ends stays as the stroke's own end, so that it does not matter whether a flattened cap
    happens to have a junction in it; but not if others reach as far, as at a square cut.

    Args:
        network: Changed in place.
        radius: Disc radius at each node.
        cap_reach: Distance from ends of chains to the tips of their caps.
    """
    known: dict[ChainEnd, float] = {}
    while True:
        short = _short_ends(network, radius, cap_reach, known)
        falling = [
            (junction, spur)
            for junction, at in short.items()
            for spur in _falling(network, junction, at)
        ]
        if not falling:
            return
        for _, spur in falling:
            network.remove(spur.strand)
            del network.at[spur.node]
        for junction in {junction for junction, _ in falling}:
            network.smooth(junction)


@dataclass(frozen=True, order=True)
class _Spur:
    """A short end strand: how far it reaches beyond its junction's disc, itself, its free node."""

    beyond: float
    strand: int
    node: int


def _short_ends(
    network: Network,
    radius: Floats,
    cap_reach: Callable[[list[ChainEnd]], Floats],
    known: dict[ChainEnd, float],
) -> dict[int, list[_Spur]]:
    """Short end strands at each junction."""
    ends = [(number, network.free_end(number)) for number in network.strands]
    free = [(number, *end) for number, end in ends if end is not None]
    chain_ends = [network.strands[number].chain_end(node) for number, node, _ in free]
    new = [end for end in chain_ends if end not in known]
    known.update(zip(new, cap_reach(new).tolist(), strict=True))
    short: dict[int, list[_Spur]] = {}
    for (number, node, junction), end in zip(free, chain_ends, strict=True):
        beyond = (network.strands[number].length + known[end]) / float(radius[junction]) - 1.0
        if beyond < LEAST_REACH:
            short.setdefault(junction, []).append(_Spur(beyond, number, node))
    return short


def _falling(network: Network, junction: int, spurs: list[_Spur]) -> list[_Spur]:
    """The short ends of a junction that fall."""
    others = len(network.at[junction]) - len(spurs)
    weakest_first = sorted(spurs)
    fall = len(spurs) - max(0, 2 - others)
    if fall <= 0:
        return []
    alike = fall < len(spurs) and (
        weakest_first[fall - 1].beyond >= ALIKE * weakest_first[fall].beyond
    )
    return weakest_first if alike else weakest_first[:fall]


def _followed(stands_for: dict[int, int], node: int) -> int:
    while node in stands_for:
        node = stands_for[node]
    return node
