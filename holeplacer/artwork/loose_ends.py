"""Loose ends: where the ends of open curves meet, exactly or across a gap.

Terms: every segment has two ends, numbered 2i (start) and 2i + 1 (end). Ends within a hundredth
of the chaining distance of each other are one **node**. A segment drawn twice between the same
nodes by the same way counts once. An end alone at its node is **loose**; loose ends within the
chaining distance are joined in pairs, the nearest first.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import Points

NODE_SHARE = 0.01
MOST_PAIRS = 2_000_000


@dataclass(frozen=True, eq=False)
class Ends:
    """What the ends of segments have to do with each other.

    Attributes:
        node: (2 m,) node of each end.
        counts: (m,) whether a segment takes part: False for repeated ones and those too short to
            have two nodes.
        repeated: Segments that were drawn before.
        doubled: (m,) whether a segment was drawn an even number of times, so that it may be the
            common edge of two contours, or a line out and back, and bound nothing.
        gaps: (k, 2) pairs of ends that were joined across a gap.
    """

    node: NDArray[np.intp]
    counts: NDArray[np.bool_]
    repeated: NDArray[np.intp]
    doubled: NDArray[np.bool_]
    gaps: NDArray[np.intp]


def meet(
    ends: NDArray[np.float64], middle: Points, length: NDArray[np.float64], reach: float
) -> Ends:
    """Find which ends meet.

    Args:
        ends: (m, 2, 2) start and end of each segment.
        middle: (m, 2) a point half way along each.
        length: (m,) how far each gets from its start: a loop has its ends together, yet length.
        reach: Ends no further apart than this are joined.

    Raises:
        ArtworkError: Millions of ends lie within reach of each other.
    """
    places = ends.reshape(-1, 2)
    node = _nodes(places, NODE_SHARE * reach)
    pair = np.sort(node.reshape(-1, 2), axis=1)
    counts = (pair[:, 0] != pair[:, 1]) | (length > reach)
    repeated, doubled = _repeated(pair, middle, counts, NODE_SHARE * reach)
    counts[repeated] = False
    gaps = _joined(places, node, counts, reach)
    node = node.copy()
    node[gaps[:, 1]] = node[gaps[:, 0]]
    return Ends(node, counts, repeated, doubled, gaps)


def _nodes(places: Points, reach: float) -> NDArray[np.intp]:
    """Number of the cluster each place belongs to."""
    # slow to load, and most artwork has no loose ends
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    distinct, index = np.unique(places, axis=0, return_inverse=True)
    pairs = _near(distinct, reach)
    graph = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(len(distinct),) * 2)
    _, label = connected_components(graph, directed=False)
    return np.asarray(label[index.ravel()], dtype=np.intp)


def _near(places: Points, reach: float) -> NDArray[np.intp]:
    """Pairs (k, 2) of places within reach."""
    from scipy.spatial import cKDTree  # slow to load, and most artwork has no loose ends

    tree = cKDTree(places)
    if (tree.count_neighbors(tree, reach) - len(places)) / 2 > MOST_PAIRS:
        raise ArtworkError(
            "more ends of lines lie together than can be told apart",
            remedy="check the units and the chaining distance",
        )
    return np.asarray(tree.query_pairs(reach, output_type="ndarray"), dtype=np.intp)


def _repeated(
    pair: NDArray[np.intp], middle: Points, counts: NDArray[np.bool_], reach: float
) -> tuple[NDArray[np.intp], NDArray[np.bool_]]:
    """Segments with the nodes and the middle of one before, and those drawn evenly often."""
    order = np.lexsort((middle[:, 1], middle[:, 0], pair[:, 1], pair[:, 0]))
    order = order[counts[order]]
    same = np.all(pair[order[1:]] == pair[order[:-1]], axis=1)
    same &= np.hypot(*(middle[order[1:]] - middle[order[:-1]]).T) <= reach
    begins = np.flatnonzero(np.append(True, ~same))[: len(order)]
    times = np.diff(np.append(begins, len(order)))
    doubled = np.zeros(len(pair), dtype=bool)
    doubled[order[begins[times % 2 == 0]]] = True
    return np.sort(order[1:][same]), doubled


def _joined(
    places: Points, node: NDArray[np.intp], counts: NDArray[np.bool_], reach: float
) -> NDArray[np.intp]:
    """Pairs (k, 2) of loose ends joined across a gap, nearest first, each end once."""
    used = np.repeat(counts, 2)
    degree = np.bincount(node[used], minlength=int(node.max(initial=-1)) + 1)
    loose = np.flatnonzero(used & (degree[node] == 1))
    if len(loose) < 2:
        return np.zeros((0, 2), dtype=np.intp)
    pairs = loose[_near(places[loose], reach)]
    distance = np.hypot(*(places[pairs[:, 0]] - places[pairs[:, 1]]).T)
    free = set(loose.tolist())
    joined = []
    for one, other in pairs[np.argsort(distance, kind="stable")].tolist():
        if one in free and other in free:
            free -= {one, other}
            joined.append((one, other))
    return np.array(joined, dtype=np.intp).reshape(-1, 2)
