"""Covering by integer program."""

import numpy as np
from scipy.optimize import LinearConstraint
from scipy.sparse import csr_array

from holeplacer.placement import covering

NONE = np.empty(0, np.intp)


def cycle(size, width):
    return csr_array(
        np.array([[(c - r) % size < width for c in range(size)] for r in range(size)], np.int32)
    )


def test_proven():
    """A ring of nine, three each: three columns, and no fewer; all rows covered."""
    covers = cycle(9, 3)
    found = covering.fewest(covers, NONE, seconds=5.0)
    assert (len(found.columns), found.bound) == (3, 3)
    assert covers[:, found.columns].toarray().any(axis=1).all()


def test_nothing_to_cover():
    """No rows, no columns."""
    found = covering.fewest(csr_array((0, 5), dtype=np.int32), NONE, seconds=1.0)
    assert (len(found.columns), found.bound) == (0, 0)


def test_row_that_needs_two():
    """A last row that needs two gets two, though one would cover all others."""
    covers = csr_array(np.ones((3, 4), np.int32))
    found = covering.fewest(covers, np.array([2]), seconds=5.0)
    assert (len(found.columns), found.bound) == (2, 2)


def test_further_constraints():
    """A forbidden pair costs a column; an impossible demand is known to be impossible."""
    covers = csr_array(np.array([[1, 0, 1, 0], [0, 1, 0, 0], [1, 0, 0, 1]], np.int32))
    least = np.ones(3)
    free = covering.constrained(covers, least, (), seconds=5.0)
    apart = LinearConstraint(np.array([[1.0, 1, 0, 0]]), ub=1)
    held = covering.constrained(covers, least, (apart,), seconds=5.0)
    assert (len(free.columns), len(held.columns), held.bound) == (2, 3, 3)
    never = LinearConstraint(np.array([[0.0, 1, 0, 0]]), ub=0)
    none = covering.constrained(covers, least, (never,), seconds=5.0)
    assert (none.columns, none.possible) == (None, False)


def test_extra_variables_cost_nothing():
    """Variables after the columns are free, and not columns."""
    covers = csr_array(np.array([[1, 1]], np.int32))
    asked = LinearConstraint(np.array([[0.0, 0, 1]]), lb=1)
    found = covering.constrained(covers, np.ones(1), (asked,), seconds=5.0, extra=1)
    assert (len(found.columns), found.bound) == (1, 1)


def test_greedy():
    """The column that serves most comes first; all rows are covered, perhaps by more columns."""
    covers = csr_array(
        np.array(
            [[1, 1, 0], [0, 1, 0], [1, 1, 0], [1, 0, 1], [1, 1, 0], [1, 0, 1], [1, 0, 0]], np.int32
        )
    )
    chosen = covering.greedy(covers)
    assert chosen.tolist() == [0, 1]
    ring = cycle(9, 3)
    assert ring[:, covering.greedy(ring)].toarray().any(axis=1).all()
