"""Dominance keeps the optimum."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from holeplacer.placement.dominance import reduced


def optimum(dense):
    if not dense.size:
        return 0
    found = milp(
        np.ones(dense.shape[1]),
        integrality=np.ones(dense.shape[1]),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(dense.astype(float), lb=1),
    )
    return round(found.fun)


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 12), st.integers(1, 12), st.floats(0.1, 0.7), st.integers(0, 2**32 - 1))
def test_same_optimum(rows, columns, density, seed):
    """What is left needs as many columns as the whole, and they cover the whole."""
    rng = np.random.default_rng(seed)
    dense = (rng.random((rows, columns)) < density).astype(np.int32)
    dense[np.arange(rows), rng.integers(0, columns, rows)] = 1
    left = reduced(csr_array(dense))
    np.testing.assert_array_equal(left.covers.toarray(), dense[np.ix_(left.rows, left.columns)])
    assert optimum(left.covers.toarray()) == optimum(dense)
    assert optimum(dense[:, left.columns]) == optimum(dense)


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 10), st.integers(2, 10), st.integers(0, 2**32 - 1))
def test_fixed_point(rows, columns, seed):
    """In what is left no row contains another and no column is contained in another."""
    rng = np.random.default_rng(seed)
    dense = (rng.random((rows, columns)) < 0.4).astype(np.int32)
    dense[:, 0] |= (dense.sum(axis=1) == 0).astype(np.int32)
    left = reduced(csr_array(dense)).covers.toarray()
    for sets in (left, left.T):
        shared = sets @ sets.T
        contained = (shared == sets.sum(axis=1)[:, None]) & ~np.eye(len(sets), dtype=bool)
        assert not contained.any()


def test_path_becomes_an_identity():
    """On a stroke the leaves decide all."""
    dense = np.array([[abs(r - c) <= 2 for c in range(20)] for r in range(20)], np.int32)
    left = reduced(csr_array(dense))
    assert left.covers.toarray() == pytest.approx(np.eye(4))


def test_kept_rows():
    """The last rows stay though another is contained in them."""
    left = reduced(csr_array(np.array([[1, 0, 0], [0, 1, 0], [1, 1, 1]], np.int32)), 1)
    assert left.rows.tolist() == [0, 1, 2]


@pytest.mark.parametrize("seed", range(4))
def test_large_as_small(seed):
    """A large matrix of separate blocks is reduced as each of its blocks is by itself."""
    rng = np.random.default_rng(seed)
    block = (rng.random((12, 12)) < 0.3).astype(np.int32)
    block[np.arange(12), rng.integers(0, 12, 12)] = 1
    alone = reduced(csr_array(block))
    large = reduced(csr_array(np.kron(np.eye(60, dtype=np.int32), block)))
    np.testing.assert_array_equal(
        large.covers.toarray(), np.kron(np.eye(60), alone.covers.toarray())
    )
