"""Misfit trees: least trees of cells that fit no sheet together, so that one of their cuts is made.

From a cell, others are added in order of distance, a cut's length being how far it is made (0 to
1), until all together fit no sheet. What reaches furthest out is what does not fit; ways from the
first cell to such cells, as few as will do, are the tree.
"""

import bisect
import itertools

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import dijkstra

from holeplacer.seams.cells import Cells

_HOP = 1e-4
"""Length of a cut that is not made: of two equally cut trees the one with fewer cells is taken."""

_NEEDED = 1.0 - 1e-6

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


def misfit_trees(
    cells: Cells, y: Floats, sources: Indices, *, exact: bool = False
) -> list[frozenset[int]]:
    """Trees whose cuts are made by less than 1 in sum, each as a set of cuts.

    Args:
        cells: The cells.
        y: (m,) how far each cut is made, 0 to 1.
        sources: Cells from which to look, one tree each at most.
        exact: Also what misses the sheet by less than the steps of angle can tell; slower.
    """
    if len(cells.joins) == 0 or len(sources) == 0:
        return []
    length = np.maximum(y, 0.0) + _HOP
    graph, cut_between = _network(cells, length)
    distance, before = dijkstra(
        graph, directed=False, indices=sources, return_predecessors=True, limit=1.0 + len(y) * _HOP
    )
    found = []
    for row in range(len(sources)):
        tree = _tree(cells, distance[row], before[row], cut_between, exact)
        if tree and y[list(tree)].sum() < _NEEDED:
            found.append(tree)
    return found


def _network(cells: Cells, length: Floats) -> tuple[csr_matrix, dict[tuple[int, int], int]]:
    """Cells as nodes; of several cuts between two cells the least made one joins them."""
    pairs = np.sort(cells.joins, axis=1)
    order = np.lexsort((length, pairs[:, 1], pairs[:, 0]))
    _, first = np.unique(pairs[order], axis=0, return_index=True)
    kept = order[first]
    shape = (len(cells), len(cells))
    graph = csr_matrix((length[kept], (pairs[kept, 0], pairs[kept, 1])), shape=shape)
    between = dict(zip(map(tuple, pairs[kept].tolist()), kept.tolist(), strict=True))
    return graph, between


def _tree(
    cells: Cells,
    distance: Floats,
    before: NDArray[np.int32],
    cut_between: dict[tuple[int, int], int],
    exact: bool,
) -> frozenset[int]:
    order = np.argsort(distance, kind="stable")
    order = order[np.isfinite(distance[order])]
    least = _first_misfit(cells, order, exact)
    if least is None:
        return frozenset()
    reached = order[: least + 1]
    ways = [_way(int(order[least]), before)]
    for cell in _outermost(cells, reached):
        if _misfit(cells, _cells_on(ways, int(order[0])), exact):
            break
        ways.append(_way(cell, before))
    for way in ways[:-1]:
        rest = [other for other in ways if other is not way]
        if _misfit(cells, _cells_on(rest, int(order[0])), exact):
            ways = rest
    return frozenset(
        cut_between[min(a, b), max(a, b)] for way in ways for a, b in itertools.pairwise(way)
    )


def _first_misfit(cells: Cells, order: Indices, exact: bool) -> int | None:
    """Place in the order of the first cell with which all so far fit no sheet."""
    reach = np.maximum.accumulate(cells.reach[order], axis=0)
    certain = np.flatnonzero(~cells.may_fit(reach))
    last = int(certain[0]) if len(certain) else len(order)
    if exact:
        doubtful = np.flatnonzero(~cells.fits_stepwise(reach[:last]))
        place = bisect.bisect_left(
            doubtful.tolist(), True, key=lambda end: not cells.fits(order[: end + 1])
        )
        if place < len(doubtful):
            return int(doubtful[place])
    return last if last < len(order) else None


def _misfit(cells: Cells, members: Indices, exact: bool) -> bool:
    if exact:
        return not cells.fits(members)
    return not cells.may_fit(cells.reach[members].max(axis=0)[None])[0]


def _outermost(cells: Cells, reached: Indices) -> list[int]:
    """Cells that reach furthest in some direction, those furthest from the last one first."""
    furthest = np.unique(cells.reach[reached].argmax(axis=0))
    return [int(cell) for cell in reached[furthest[::-1]]]


def _way(cell: int, before: NDArray[np.int32]) -> tuple[int, ...]:
    """Cells from one back to the source."""
    way = [cell]
    while before[way[-1]] >= 0:
        way.append(int(before[way[-1]]))
    return tuple(way)


def _cells_on(ways: list[tuple[int, ...]], source: int) -> Indices:
    return np.array(sorted({source, *(cell for way in ways for cell in way)}), dtype=np.intp)
