"""Dominance: rows and columns of a covering problem that can be left out without loss.

A column whose demands another column covers too is never needed; a row that is covered whenever
another one is need not be asked for. Both are repeated until nothing changes: a column can only
become dominated by losing a row, and a row only make others needless by losing a column, so after
the first pass only those are looked at again. On trees what is left is often an identity matrix.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

from holeplacer.medial_axis.ways import Indices

_SMALL = 250_000
"""Entries up to which a matrix is reduced dense."""


@dataclass(frozen=True, eq=False)
class Reduced:
    """What is left: indices of rows and columns, and their matrix."""

    rows: Indices
    columns: Indices
    covers: csr_array


def reduced(covers: csr_array, kept_rows: int = 0) -> Reduced:
    """Leave out dominated rows and columns of a 0/1 matrix (demands x places) to a fixed point.

    Args:
        covers: The matrix.
        kept_rows: The last so many rows ask for more than one column; they always stay.
    """
    last = covers.shape[0] - kept_rows
    rows = _distinct(covers)
    rows = np.concatenate([rows[rows < last], np.arange(last, covers.shape[0])])
    across = csr_array(covers[rows].T)
    columns = _distinct(across)
    across = across[columns]
    if across.shape[0] * across.shape[1] <= _SMALL:
        return _reduced_dense(rows, columns, across.T.toarray(), last)
    left = csr_array(across.T)
    rows_lost = np.ones(len(rows), bool)
    columns_lost = np.ones(len(columns), bool)
    while rows_lost.any() or columns_lost.any():
        needed = ~_needless(left, across, np.flatnonzero(rows_lost)) | (rows >= last)
        columns_lost |= _touched(left, ~needed)
        rows, left = rows[needed], left[needed]
        across = csr_array(left.T)
        kept = ~_dominated(across, left, np.flatnonzero(columns_lost))
        rows_lost = _touched(across, ~kept)
        columns, across = columns[kept], across[kept]
        left = csr_array(across.T)
        columns_lost = np.zeros(len(columns), bool)
    return Reduced(rows, columns, left)


def _reduced_dense(
    rows: Indices, columns: Indices, covers: NDArray[np.int32], last: int
) -> Reduced:
    """The same for a small matrix, where a dense product costs less than a sparse one's upkeep."""
    left = covers.astype(np.float32)
    size = -1
    while left.size != size:
        size = left.size
        inside = _inside(left)
        needed = ~inside.any(axis=0) | (rows >= last)
        rows, left = rows[needed], left[needed]
        kept = ~_inside(left.T, keep_first=True).any(axis=1) & left.any(axis=0)
        columns, left = columns[kept], left[:, kept]
    return Reduced(rows, columns, csr_array(left.astype(np.int32)))


def _inside(sets: NDArray[np.float32], *, keep_first: bool = False) -> NDArray[np.bool_]:
    """(n, n) whether the first set is contained in the second; equal sets one way only."""
    shared = sets @ sets.T
    size = np.diag(shared)
    number = np.arange(len(sets))
    ordered = np.greater if keep_first else np.less
    real = (size[:, np.newaxis] < size) | ordered(number[:, np.newaxis], number)
    return np.asarray((shared == size[:, np.newaxis]) & real, bool)


def _needless(sets: csr_array, members: csr_array, shrunk: Indices) -> NDArray[np.bool_]:
    """Sets that contain one of the shrunk ones; of equal sets the first is kept."""
    _, large = _contained(sets, members, shrunk)
    needless = np.zeros(sets.shape[0], bool)
    needless[large] = True
    return needless


def _dominated(sets: csr_array, members: csr_array, shrunk: Indices) -> NDArray[np.bool_]:
    """Shrunk sets that another one contains, or that are empty; of equal sets the first is kept."""
    small, _ = _contained(sets, members, shrunk, keep_first=True)
    dominated = np.zeros(sets.shape[0], bool)
    dominated[small] = True
    dominated[np.diff(sets.indptr) == 0] = True
    return dominated


def _contained(
    sets: csr_array, members: csr_array, chosen: Indices, *, keep_first: bool = False
) -> tuple[Indices, Indices]:
    """Pairs (i, j), i among the chosen and contained in another set j.

    Equal sets are paired one way only: the later one is j, or, to keep the first of contained
    sets, i.
    """
    size = np.diff(sets.indptr)
    shared = (sets[chosen] @ members).tocoo()
    small, large = chosen[shared.row], shared.col
    inside = (shared.data == size[small]) & (small != large)
    small, large = small[inside], large[inside]
    equal = size[small] == size[large]
    ordered = small > large if keep_first else small < large
    real = ~equal | ordered
    return small[real], large[real]


def _touched(sets: csr_array, lost: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Members of the lost sets."""
    touched = np.zeros(sets.shape[1], bool)
    touched[sets[np.flatnonzero(lost)].indices] = True
    return touched


def _distinct(sets: csr_array) -> Indices:
    """First of each group of equal rows, found by two independent 60-bit sums."""
    rng = np.random.default_rng(20_26)
    marks = rng.integers(1, 2**60, (sets.shape[1], 2), dtype=np.uint64)
    running = np.zeros((len(sets.indices) + 1, 2), np.uint64)
    np.cumsum(marks[sets.indices], axis=0, out=running[1:])
    sums = running[sets.indptr[1:]] - running[sets.indptr[:-1]]
    order = np.lexsort((np.arange(len(sums)), sums[:, 1], sums[:, 0]))
    new = np.ones(len(sums), bool)
    new[1:] = (sums[order[1:]] != sums[order[:-1]]).any(axis=1)
    return np.sort(order[new])
