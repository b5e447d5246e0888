"""Rows: linear functions of a body's freedoms that each look at a few of them."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Rows:
    """k functions of n freedoms.

    Attributes:
        columns: (k, c) freedoms each looks at; a freedom may be named twice.
        values: (k, c) their factors.
        size: n.
    """

    columns: Indices
    values: Floats
    size: int

    def __len__(self) -> int:
        return len(self.columns)

    def of(self, freedoms: Floats) -> Floats:
        """(k,) their values."""
        found: Floats = (self.values * freedoms[self.columns]).sum(axis=1)
        return found

    def transposed(self, weights: Floats) -> Floats:
        """(n,) forces on the freedoms that do the work of these forces."""
        forces = self.values * weights[:, None]
        every = np.bincount(self.columns.ravel(), forces.ravel(), minlength=self.size)
        return every.astype(float)

    def sparse(self) -> csr_array:
        """(k, n) matrix."""
        count, width = self.columns.shape
        pointer = np.arange(count + 1) * width
        # copies, since adding up doubles is done in place
        parts = (self.values.flatten(), self.columns.flatten(), pointer)
        matrix = csr_array(parts, shape=(count, self.size))
        matrix.sum_duplicates()
        return matrix

    def taken(self, chosen: Indices) -> "Rows":
        """Some of them."""
        return Rows(self.columns[chosen], self.values[chosen], self.size)
