"""An independent exact solver: the same covering on a dense grid, nothing left out, nothing clever.

Shares no code with the package but the axis value: its own grid, its own shortest ways, one plain
integer program, and for tiny cases plain enumeration.
"""

from itertools import combinations

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra


class Grid:
    """All points of the axis at a pitch, with the ways between them."""

    def __init__(self, axis, pitch_mm):
        count = len(axis.node_xy)
        one, two, way, clear = [], [], [], list(axis.node_clearance)
        self.place = {("node", n): n for n in range(count)}
        for number, branch in enumerate(axis.branches):
            steps = max(int(np.ceil(branch.length_mm / pitch_mm)), 1)
            inner = np.arange(count, count + steps - 1)
            s = np.linspace(0, branch.length_mm, steps + 1)
            chain = [branch.start, *inner, branch.end]
            clear += list(np.interp(s[1:-1], branch.s, branch.clearance))
            one += chain[:-1]
            two += chain[1:]
            way += list(np.diff(s))
            count += steps - 1
            self.place[number] = (inner, s[1:-1])
        self.clearance = np.array(clear)
        order = np.argsort(way, kind="stable")[::-1]
        shortest = {}
        for k in order:
            shortest[min(one[k], two[k]), max(one[k], two[k])] = way[k]
        ends = np.array([key for key in shortest if key[0] != key[1]])
        ways = np.array([shortest[tuple(key)] for key in ends.tolist()])
        matrix = coo_array((ways, (ends[:, 0], ends[:, 1])), shape=(count, count))
        self.way = dijkstra(matrix.tocsr(), directed=False)
        self.tips = [(tip.node, tip.reach_mm) for tip in axis.tips]


def fewest(axis, half_mm, overhang_mm, pitch_mm, least_mm=5.0, give_mm=0.0):
    """Fewest grid points within `half + give` of all grid points, and near enough to tips.

    What no grid point may be near enough to is not asked for.
    """
    grid = Grid(axis, pitch_mm)
    covers = grid.way <= half_mm + give_mm + 1e-9
    rows = [covers]
    for node, reach in grid.tips:
        rows.append(grid.way[[node]] + reach <= overhang_mm + give_mm + 1e-9)
    covers = np.concatenate(rows)[:, grid.clearance >= least_mm - 1e-6]
    covers = covers[covers.any(axis=1)]
    solved = milp(
        np.ones(covers.shape[1]),
        integrality=np.ones(covers.shape[1]),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(covers.astype(float), lb=1),
    )
    assert solved.status == 0
    return round(solved.fun)


def enumerated(axis, half_mm, pitch_mm, most):
    """The same by trying all sets of up to `most` grid points; infinite if none covers."""
    covers = Grid(axis, pitch_mm).way <= half_mm + 1e-9
    for count in range(1, most + 1):
        sets = np.array(list(combinations(range(covers.shape[1]), count)))
        if covers[:, sets].any(axis=2).all(axis=0).any():
            return count
    return np.inf
