"""Covering: the fewest columns that cover every row, proven by integer programming (HiGHS)."""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from holeplacer.medial_axis.ways import Floats, Indices
from holeplacer.placement import dominance

_INTEGRAL = 1e-6


@dataclass(frozen=True, eq=False)
class Chosen:
    """A cover.

    Attributes:
        columns: The chosen columns, None if none was found in the time given.
        bound: No cover has fewer columns.
        possible: False if it is proven that no choice keeps all the constraints.
    """

    columns: Indices | None
    bound: int
    possible: bool = True


def fewest(covers: csr_array, needs: Indices, *, seconds: float) -> Chosen:
    """Fewest columns that cover each row as often as it needs; a column may be taken repeatedly.

    Args:
        covers: (rows, columns) 0/1; each row has a column.
        needs: (k,) how many columns each of the last k rows needs; the others need one.
        seconds: Time the solver may take.
    """
    left = dominance.reduced(covers, len(needs))
    if not len(left.rows):
        return Chosen(np.empty(0, np.intp), 0)
    if not len(needs) and (np.diff(left.covers.indptr) == 1).all():
        return Chosen(left.columns[np.unique(left.covers.indices)], len(left.columns))
    least = np.ones(len(left.rows))
    least[len(left.rows) - len(needs) :] = needs
    found = constrained(left.covers, least, (), seconds=seconds)
    columns = None if found.columns is None else left.columns[found.columns]
    return Chosen(columns, found.bound)


def greedy(covers: csr_array) -> Indices:
    """Columns that cover every row, always the one that covers most rows yet uncovered.

    Args:
        covers: (rows, columns) 0/1; each row has a column.
    """
    by_column = csr_array(covers.T)
    gain = np.asarray(by_column.sum(axis=1)).ravel()
    open_ = np.ones(covers.shape[0], bool)
    chosen = []
    while open_.any():
        best = int(np.argmax(gain))
        chosen.append(best)
        rows = by_column.indices[by_column.indptr[best] : by_column.indptr[best + 1]]
        new = rows[open_[rows]]
        open_[new] = False
        np.subtract.at(gain, covers[new].indices, 1)
    return np.array(chosen, np.intp)


def constrained(
    covers: csr_array,
    least: Floats,
    more: tuple[LinearConstraint, ...],
    *,
    seconds: float,
    extra: int = 0,
) -> Chosen:
    """Fewest columns that cover all rows often enough and keep further linear constraints.

    Args:
        covers: (rows, columns) 0/1.
        least: (rows,) how often each is to be covered.
        more: Constraints over the columns and, after them, `extra` further 0/1 variables.
        seconds: Time the solver may take.
        extra: Number of those.
    """
    size = covers.shape[1]
    rows = csr_array(
        (covers.data.astype(float), covers.indices, covers.indptr), (covers.shape[0], size + extra)
    )
    most = float(least.max(initial=1.0))
    solved = milp(
        np.concatenate([np.ones(size), np.zeros(extra)]),
        integrality=np.ones(size + extra, np.int8),
        bounds=Bounds(0, np.append(np.full(size, most), np.ones(extra))),
        constraints=[LinearConstraint(rows, lb=least), *more],
        options={"time_limit": seconds},
    )
    bound = 0 if solved.mip_dual_bound is None else int(np.ceil(solved.mip_dual_bound - _INTEGRAL))
    if solved.x is None:
        return Chosen(None, bound, possible=solved.status != 2)
    times = np.rint(solved.x[:size]).astype(np.intp)
    return Chosen(np.repeat(np.arange(size), times), bound)
