"""Chains of crossings: the dual graph cut at its junctions and ends, each chain in order."""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from holeplacer.medial_axis.boundary import Flags, Indices


@dataclass(frozen=True, eq=False)
class Chains:
    """Crossings in order, chain after chain.

    Attributes:
        crossing: (k,) crossing passed.
        forward: (k,) whether it is passed from its `before` to its `after` triangle.
        first: (c + 1,) where each chain begins in the two arrays above.
        start, end: (c,) triangle each chain starts and ends in; the same for a closed chain.
        closed: (c,) whether the chain is a ring without junction.
    """

    crossing: Indices
    forward: Flags
    first: Indices
    start: Indices
    end: Indices
    closed: Flags

    def __len__(self) -> int:
        """Number of chains."""
        return len(self.start)


def chains(before: Indices, after: Indices, triangles: int) -> Chains:
    """Link crossings through triangles that have just two of them.

    A dart is a crossing passed one way: dart 2e leads from `before[e]` to `after[e]`, dart
    2e + 1 back. Ranks come from pointer doubling, so that the work is a few array operations per
    doubling of the longest chain.

    Args:
        before: (e,) triangle on the one side of each crossing.
        after: (e,) triangle on its other side.
        triangles: Number of triangles.
    """
    count = len(before)
    tail = np.column_stack((before, after)).ravel()
    degree = np.bincount(tail, minlength=triangles)
    follow = np.arange(2 * count)
    out = np.argsort(tail, kind="stable")
    out = out[degree[tail[out]] == 2].reshape(-1, 2)
    follow[out[:, 0] ^ 1] = out[:, 1]
    follow[out[:, 1] ^ 1] = out[:, 0]
    links = coo_array(
        (np.ones(len(out), np.int8), (out[:, 0] >> 1, out[:, 1] >> 1)), shape=(count, count)
    )
    number, labels = connected_components(links, directed=False)
    chain: Indices = labels.astype(np.intp)
    closed = np.bincount(chain[out[:, 0] >> 1], minlength=number) == np.bincount(
        chain, minlength=number
    )
    head = _heads(chain, closed, degree[tail] != 2)
    into = np.flatnonzero(np.isin(follow, head[closed]))
    follow[into] = into
    last, to_go = _followed_to_the_end(follow)
    # of the two directions of each chain, the darts that lead where its head leads
    darts = np.flatnonzero(last == last[head][np.repeat(chain, 2)])
    darts = darts[np.lexsort((-to_go[darts], chain[darts >> 1]))]
    first = np.concatenate(([0], np.cumsum(np.bincount(chain, minlength=number))))
    return Chains(
        crossing=darts >> 1,
        forward=(darts & 1) == 0,
        first=first.astype(np.intp),
        start=tail[darts[first[:-1]]],
        end=tail[darts[first[1:] - 1] ^ 1],
        closed=closed,
    )


def _heads(chain: Indices, closed: Flags, starts: Flags) -> Indices:
    """First dart of each chain: of an open one at either end, of a closed one anywhere."""
    dart = np.flatnonzero(starts | np.repeat(closed[chain], 2))
    head = np.full(len(closed), 2 * len(chain), dtype=np.intp)
    np.minimum.at(head, chain[dart >> 1], dart)
    return head


def _followed_to_the_end(follow: Indices) -> tuple[Indices, Indices]:
    """Where each dart's successors end, and how many steps it takes; rings never end."""
    to_go = (follow != np.arange(len(follow))).astype(np.intp)
    for _ in range(len(follow).bit_length()):
        further = follow[follow]
        if np.array_equal(further, follow):
            break
        to_go += to_go[follow]
        follow = further
    return follow, to_go
