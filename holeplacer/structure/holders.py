"""Holders: where a body is held while it is factored, so that no part reaches far from one."""

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.sparse.csgraph import dijkstra

from holeplacer.structure.stations import Stations

REACH_MM = 300.0
"""No station is further along the axis from a holder than this, or a thirtieth of the axis: a
cantilever of such a length loses no more than a few digits."""
SHARE = 1.0 / 30.0


def holders(strip: Stations) -> NDArray[np.intp]:
    """Stations of one piece so chosen that every other one is near one of them.

    Args:
        strip: Its stations.
    """
    count = len(strip.xy)
    if count == 1:
        return np.zeros(1, np.intp)
    length = np.hypot(*(strip.xy[strip.last] - strip.xy[strip.first]).T)
    graph = csr_array((length, (strip.first, strip.last)), shape=(count, count))
    reach = max(REACH_MM, SHARE * float(length.sum()))
    chosen = [0]
    way = dijkstra(graph, directed=False, indices=[0])[0]
    while way.max() > reach:
        chosen.append(int(way.argmax()))
        from_there = dijkstra(graph, directed=False, indices=chosen[-1:], limit=4.0 * reach)[0]
        way = np.minimum(way, from_there)
    return np.array(chosen, np.intp)
