"""Rows of a few freedoms."""

import numpy as np

from holeplacer.structure.rows import Rows

ROWS = Rows(np.array([[0, 2], [1, 1]]), np.array([[2.0, 3.0], [4.0, 5.0]]), 4)


def test_values_are_those_of_the_matrix():
    """A freedom named twice counts twice, as in the matrix."""
    freedoms = np.array([1.0, 10.0, 100.0, 1000.0])
    assert ROWS.of(freedoms).tolist() == [302.0, 90.0]
    assert (ROWS.sparse() @ freedoms).tolist() == [302.0, 90.0]


def test_forces_do_the_same_work():
    """Forces on the freedoms are the matrix's transpose."""
    weights = np.array([1.0, 10.0])
    assert ROWS.transposed(weights).tolist() == (ROWS.sparse().T @ weights).tolist()


def test_some_rows():
    """Taken rows keep their freedoms."""
    assert len(ROWS.taken(np.array([1]))) == 1
    assert ROWS.taken(np.array([1])).of(np.ones(4)).tolist() == [9.0]
