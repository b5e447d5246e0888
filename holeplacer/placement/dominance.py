"""Dominance: rows and columns of a covering problem that can be left out without loss.

A column whose demands another column covers too is never needed; a row that is covered whenever
another one is need not be asked for. Both are repeated until nothing changes. On trees what is
left is often an identity matrix.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

from holeplacer.medial_axis.ways import Indices


@dataclass(frozen=True, eq=False)
class Reduced:
    """What is left: indices of rows and columns, and their matrix."""

    rows: Indices
    columns: Indices
    covers: csr_array


def reduced(covers: csr_array) -> Reduced:
    """Leave out dominated rows and columns of a 0/1 matrix (demands x places) to a fixed point."""
    rows, columns = np.arange(covers.shape[0]), np.arange(covers.shape[1])
    left = covers
    while True:
        needed = _least_sets(left)
        rows, left = rows[needed], left[needed]
        across = csr_array(left.T)
        kept = ~_dominated(across)
        columns, across = columns[kept], across[kept]
        left = csr_array(across.T)
        if needed.all() and kept.all():
            return Reduced(rows, columns, left)


def _least_sets(sets: csr_array) -> NDArray[np.bool_]:
    """Rows that contain no other row (of equal ones, the first)."""
    first = _distinct(sets)
    _, larger = _contained(sets[first])
    needed = np.zeros(sets.shape[0], bool)
    needed[first] = True
    needed[first[larger]] = False
    return needed


def _dominated(sets: csr_array) -> NDArray[np.bool_]:
    """Rows that another row contains, or that repeat an earlier one, or are empty."""
    first = _distinct(sets)
    smaller, _ = _contained(sets[first])
    dominated = np.ones(sets.shape[0], bool)
    dominated[first] = False
    dominated[first[smaller]] = True
    dominated[np.diff(sets.indptr) == 0] = True
    return dominated


def _contained(sets: csr_array) -> tuple[Indices, Indices]:
    """Pairs (i, j) of different rows with row i contained in row j; no two rows are equal."""
    size = np.diff(sets.indptr)
    shared = (sets @ sets.T).tocoo()
    inside = (shared.data == size[shared.row]) & (shared.row != shared.col)
    return shared.row[inside], shared.col[inside]


def _distinct(sets: csr_array) -> Indices:
    """First of each group of equal rows, found by two independent 60-bit sums."""
    rng = np.random.default_rng(20_26)
    marks = rng.integers(1, 2**60, (sets.shape[1], 2), dtype=np.uint64)
    sums = np.zeros((sets.shape[0], 2), np.uint64)
    row = np.repeat(np.arange(sets.shape[0]), np.diff(sets.indptr))
    np.add.at(sums, row, marks[sets.indices])
    _, first = np.unique(sums, axis=0, return_index=True)
    return np.sort(first)
