"""Parting: the cheapest cuts of one piece after which every part fits a sheet.

An integer program. A tree of cells that together fit no sheet must be cut somewhere: for each such
tree T, the cuts y along it sum to at least 1. There are too many trees to write down, so that they
are found as they are broken: from a cell, neighbours are added in order of their distance (a cut's
length being its y) until the whole fits no more, then the tree is thinned to a least one. First
with fractions, then with whole cuts, until every part fits. What then comes out is the optimum over
all divisions, since trees never added are kept as well.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

from holeplacer.seams import misfit_trees
from holeplacer.seams.cells import Cells

_SOURCES = 48
"""Cells from which trees are sought in one round."""

_EXACT_EVERY = 12
"""Of these cells, every so many are tried in the slow exact search; one in every part would do."""

_ROUNDS = 40

Floats = NDArray[np.float64]


@dataclass
class Trees:
    """Trees known so far that must be cut somewhere: sets of cuts, each once."""

    known: dict[frozenset[int], None] = field(default_factory=dict)

    def add_broken(
        self, cells: Cells, y: Floats, sources: NDArray[np.intp], *, exact: bool = False
    ) -> bool:
        """Find trees that are cut by less than 1; whether there were any new ones."""
        before = len(self.known)
        self.known.update(dict.fromkeys(misfit_trees.misfit_trees(cells, y, sources, exact=exact)))
        return len(self.known) > before

    def matrix(self, cuts: int) -> csr_matrix:
        """(trees, cuts) which cut lies along which tree."""
        rows = [np.full(len(tree), row) for row, tree in enumerate(self.known)]
        columns = [np.fromiter(tree, np.intp) for tree in self.known]
        at = (np.concatenate(rows), np.concatenate(columns))
        return csr_matrix((np.ones(len(at[0])), at), shape=(len(self.known), cuts))


@dataclass(frozen=True, eq=False)
class Parting:
    """Cuts that make every part fit.

    Attributes:
        cut: (m,) which of the cells' cuts are made.
        cost: Sum of their costs.
        optimal: Whether no cheaper ones were left unproven.
    """

    cut: NDArray[np.bool_]
    cost: float
    optimal: bool


def parting(
    cells: Cells, cost: Floats, trees: Trees, expired: Callable[[], bool]
) -> Parting | None:
    """The cheapest cuts.

    Args:
        cells: The cells; each alone fits.
        cost: (m,) cost of each cut, above 0.
        trees: Trees found before under other costs; new ones are added to them.
        expired: Whether time is up; then parts that still don't fit are cut by merging.

    Returns:
        None where the solver came to nothing in its time.
    """
    everywhere = np.arange(len(cells))
    y = np.zeros(len(cost))
    for turn in range(_ROUNDS):
        if not trees.add_broken(cells, y, _every(everywhere, turn)) or expired():
            break
        y = _relaxed(cost, trees)
    return _whole(cells, cost, trees, expired)


def by_merging(cells: Cells, cost: Floats, cut: NDArray[np.bool_] | None = None) -> Parting:
    """Cells joined across the dearest cuts first, as long as they fit: quick, seldom the least.

    Args:
        cells: The cells; each alone fits.
        cost: (m,) cost of each cut.
        cut: Cuts to begin with: parts between them that fit are left whole; None begins with
            all.
    """
    part = np.arange(len(cells))
    if cut is not None:
        known = cells.parts(cut)
        for number in range(int(known.max()) + 1):
            members = np.flatnonzero(known == number)
            if cells.fits(members):
                part[members] = members[0]
    for index in np.argsort(-cost, kind="stable").tolist():
        one, two = part[cells.joins[index]]
        if one != two and cells.fits(np.flatnonzero((part == one) | (part == two))):
            part[part == two] = one
    made = part[cells.joins[:, 0]] != part[cells.joins[:, 1]]
    return Parting(made, float(cost[made].sum()), optimal=False)


def _whole(cells: Cells, cost: Floats, trees: Trees, expired: Callable[[], bool]) -> Parting | None:
    optimal = True
    while trees.known:
        y, proven = _solved(cost, trees)
        if y is None:
            return None
        optimal &= proven
        wide = _misfits(cells, y > 0.5)
        if len(wide) == 0:
            return _of(cells, y > 0.5, cost, optimal)
        if expired():
            return by_merging(cells, cost, y > 0.5)
        y = np.round(y)
        if not trees.add_broken(cells, y, wide) and not trees.add_broken(
            cells, y, wide[::_EXACT_EVERY], exact=True
        ):
            return None
    cut = np.zeros(len(cost), bool)
    return _of(cells, cut, cost, True) if len(_misfits(cells, cut)) == 0 else None


def _of(cells: Cells, cut: NDArray[np.bool_], cost: Floats, optimal: bool) -> Parting:
    part = cells.parts(cut)
    real = cut & (part[cells.joins[:, 0]] != part[cells.joins[:, 1]])
    return Parting(real, float(cost[real].sum()), optimal)


def _misfits(cells: Cells, cut: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Some cells of every part that fits no sheet."""
    part = cells.parts(cut)
    found = [np.empty(0, np.intp)]
    for number in range(int(part.max()) + 1):
        members = np.flatnonzero(part == number)
        if not cells.fits(members):
            found.append(_every(members, 0))
    return np.concatenate(found)


def _every(members: NDArray[np.intp], turn: int) -> NDArray[np.intp]:
    """No more than so many of the members, others every turn."""
    step = max(1, -(-len(members) // _SOURCES))
    return members[turn % step :: step]


def _relaxed(cost: Floats, trees: Trees) -> Floats:
    y, _ = _solved(cost, trees, whole=False)
    return np.zeros(len(cost)) if y is None else y


def _solved(cost: Floats, trees: Trees, *, whole: bool = True) -> tuple[Floats | None, bool]:
    found = milp(
        cost,
        integrality=np.full(len(cost), int(whole), dtype=np.intp),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(trees.matrix(len(cost)), lb=1.0),
        options={"time_limit": 1.0, "mip_rel_gap": 1e-6},
    )
    return (None, False) if found.x is None else (np.asarray(found.x, float), found.status == 0)
