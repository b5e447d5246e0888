"""Base pair: two places that hold a piece and, with no or one more, cover it; all pairs tried.

Small pieces are where the base binds. With two or three holes, trying all pairs of places is
quicker than an integer program, and as exact.
"""

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

from holeplacer.medial_axis.ways import Indices
from holeplacer.placement import dominance

MOST = 3
"""Largest number of holes this can decide."""


def with_base(covers: csr_array, partners: NDArray[np.bool_], count: int) -> Indices | None:
    """Columns of a cover with a base, one that leaves most to spare; None if there is none.

    Args:
        covers: (rows, columns) 0/1.
        partners: (columns, columns) whether two are a base.
        count: 2 or 3 columns.
    """
    dense = covers.toarray().astype(np.float32)
    if count == 2:
        return _pair(dense, partners)
    for third in dominance.reduced(covers).columns.tolist():
        pair = _pair(dense[dense[:, third] == 0], partners)
        if pair is not None:
            return np.append(pair, third)
    return None


def _pair(dense: NDArray[np.float32], partners: NDArray[np.bool_]) -> Indices | None:
    both = dense.T @ dense
    own = np.diag(both)
    covered = own[:, np.newaxis] + own - both
    good = partners & (covered > len(dense) - 0.5)
    if not good.any():
        return None
    spare = np.where(good, both, -1.0)
    one, two = np.unravel_index(int(np.argmax(spare)), spare.shape)
    return np.array([one, two], np.intp)
