"""Intervals on branches, against marks on a fine scale."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.placement import stretches

SCALE = 40


@st.composite
def intervals(draw):
    found = draw(
        st.lists(st.tuples(st.integers(0, 2), st.integers(0, SCALE), st.integers(0, SCALE)))
    )
    branch = np.array([b for b, _, _ in found], np.intp)
    low = np.array([min(a, b) for _, a, b in found], float)
    high = np.array([max(a, b) for _, a, b in found], float)
    return branch, low, high


def marks(branch, low, high):
    """(3, scale) whether each unit step is inside."""
    inside = np.zeros((3, SCALE), bool)
    for b, first, last in zip(branch, low, high, strict=True):
        inside[b, int(first) : int(last)] = True
    return inside


def marks_of(found):
    return marks(found.branch, found.low, found.high)


@settings(max_examples=80, deadline=None)
@given(intervals(), intervals())
def test_set_operations(one, two):
    """Union, intersection and difference mark the same steps as marks do."""
    a, b = stretches.joined(*one), stretches.joined(*two)
    np.testing.assert_array_equal(marks_of(a), marks(*one))
    np.testing.assert_array_equal(marks_of(stretches.common(a, b)), marks(*one) & marks(*two))
    np.testing.assert_array_equal(marks_of(stretches.without(a, b)), marks(*one) & ~marks(*two))
    assert (a.length > 0).all()


@settings(max_examples=60, deadline=None)
@given(intervals(), intervals())
def test_overlaps_are_the_intersection(one, two):
    """The overlaps of two families make up their intersection, each within both its members."""
    a, b = stretches.joined(*one), stretches.joined(*two)
    i, j, low, high = stretches.overlaps(a, b)
    np.testing.assert_array_equal(a.branch[i], b.branch[j])
    assert ((a.low[i] <= low) & (high <= b.high[j])).all()
    np.testing.assert_array_equal(marks(a.branch[i], low, high), marks_of(stretches.common(a, b)))


def test_holding():
    """Ends belong to a stretch; gaps and other branches don't."""
    found = stretches.joined(np.array([0, 0, 2]), np.array([0.0, 8, 1]), np.array([5.0, 9, 2]))
    branch = np.array([0, 0, 0, 0, 1, 2])
    s = np.array([0.0, 5.0, 6.0, 8.5, 1.5, 2.0])
    assert found.holding(branch, s).tolist() == [0, 0, -1, 1, -1, 2]
    assert stretches.joined([], [], []).holding(branch, s).tolist() == [-1] * 6


def test_runs():
    """Every member of every range, with its range; empty ranges give none."""
    owner, member = stretches.runs(np.array([3, 5, 0]), np.array([5, 5, 2]))
    assert owner.tolist() == [0, 0, 2, 2]
    assert member.tolist() == [3, 4, 0, 1]


@pytest.mark.parametrize("chosen", [[True, False], [0]])
def test_some_of_them(chosen):
    """Chosen by mask or index."""
    found = stretches.joined(np.array([0, 1]), np.array([0.0, 0]), np.array([5.0, 9]))
    assert found[np.array(chosen)].high.tolist() == [5.0]
