"""Small linear programs."""

import numpy as np
import pytest
from scipy.optimize import linprog
from scipy.sparse import csr_array

from holeplacer.placement.linear_program import LinearSolver


@pytest.mark.parametrize("seed", range(5))
def test_as_another_wrapper_finds(seed):
    """Least and prices agree with those of scipy."""
    rng = np.random.default_rng(seed)
    rows = rng.choice([0.0, 0.0, -1.0, 1.0], (20, 8))
    cost, most = rng.normal(size=8), rng.uniform(0, 3, 20)
    found = LinearSolver().least(cost, csr_array(rows), most, np.full(8, -1.0), np.full(8, np.inf))
    judge = linprog(cost, A_ub=rows, b_ub=most, bounds=[(-1, None)] * 8)
    if judge.x is None:
        assert found is None
        return
    assert cost @ found.x == pytest.approx(judge.fun)
    assert (rows @ found.x <= most + 1e-7).all()
    assert found.prices @ most + np.minimum(cost - found.prices @ rows, np.inf) @ -np.ones(
        8
    ) == pytest.approx(judge.fun)


def test_none():
    """Limits that contradict each other."""
    rows = csr_array(np.array([[1.0], [-1.0]]))
    assert (
        LinearSolver().least(np.ones(1), rows, np.array([1.0, -2.0]), np.zeros(1), np.ones(1))
        is None
    )


def test_says_nothing(capfd):
    """The solver prints no word: standard output belongs to the person."""
    rows = csr_array(np.ones((1, 1)))
    LinearSolver().least(np.ones(1), rows, np.ones(1), np.zeros(1), np.ones(1))
    assert capfd.readouterr() == ("", "")
