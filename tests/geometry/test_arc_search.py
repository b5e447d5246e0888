"""The search for the fewest arcs, judged by shortest ways over all pairs of points."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.geometry import arc_search


def passes(xy, begin, end, within):
    """Whether one of very many arcs from point to point passes all points between: the slow way."""
    one, other = (complex(*xy[index]) for index in (begin, end))
    z = xy[begin + 1 : end, 0] + 1j * xy[begin + 1 : end, 1]
    if len(z) == 0:
        return True
    local = (z - one) / (other - one)
    length = abs(other - one)
    for half in np.linspace(-1.0, 1.0, 801):
        if abs(half) < 1e-9:
            off = np.abs(local.imag) * length
        else:
            radius, centre = 1 / (2 * math.sin(abs(half))), 0.5 - 0.5j / math.tan(half)
            off = np.abs(np.abs(local - centre) - radius) * length
        if off.max() <= within:
            return True
    return False


def fewest_between_points(xy, within):
    best = [0] + [len(xy)] * (len(xy) - 1)
    for end in range(1, len(xy)):
        for begin in range(end):
            if best[begin] + 1 < best[end] and passes(xy, begin, end, within):
                best[end] = best[begin] + 1
    return best[-1]


@settings(max_examples=8, deadline=None)
@given(bends=st.tuples(st.floats(-0.02, 0.02), st.floats(-0.02, 0.02)), count=st.integers(10, 26))
def test_no_more_arcs_than_with_ends_at_points(bends, count):
    """On any clothoid the ends off the points never cost an arc."""
    s = np.linspace(0, 60.0, 601)
    course = bends[0] * s + (bends[1] - bends[0]) * s**2 / 120
    fine = np.cumsum(np.column_stack([np.cos(course), np.sin(course)]), axis=0) * 0.1
    xy = fine[np.linspace(0, 600, count).astype(int)]
    way = arc_search.fewest(xy, 0.05)
    assert len(way.tangents) <= fewest_between_points(xy, 0.0499)


def test_ends_lie_on_their_gates_and_arcs_pass_the_others():
    """Every point is as near its arc as the gates are wide, and the first and last are kept."""
    x = np.linspace(0, 100, 60)
    xy = np.column_stack([x, 12 * np.sin(x / 15)])
    way = arc_search.fewest(xy, 0.1)
    assert np.array_equal(way.xy[[0, -1]], xy[[0, -1]])
    assert np.hypot(*(way.xy - xy[way.gates]).T) == pytest.approx(np.abs(way.offsets) * 0.1)
    for (begin, end), (one, other), tangent in zip(
        zip(way.gates, way.gates[1:], strict=False),
        zip(way.xy, way.xy[1:], strict=False),
        way.tangents,
        strict=False,
    ):
        local = (
            (xy[begin + 1 : end] - one) @ np.array([1, 1j]) / ((other - one) @ np.array([1, 1j]))
        )
        half = math.atan(tangent)
        radius, centre = 1 / (2 * math.sin(abs(half))), 0.5 - 0.5j / math.tan(half)
        off = np.abs(np.abs(local - centre) - radius) * math.dist(one, other)
        assert off.max(initial=0.0) <= 0.1 + 1e-6


def test_arcs_end_only_where_they_may():
    """With every third gate allowed, all ends are such."""
    x = np.linspace(0, 100, 61)
    way = arc_search.fewest(np.column_stack([x, 12 * np.sin(x / 15)]), 0.05, 3)
    assert (way.gates % 3 == 0).all()
    assert way.gates[-1] == 60


def test_a_row_of_points_is_one_step():
    """It is straight within what the gates allow."""
    way = arc_search.fewest(np.column_stack([np.arange(9.0), np.arange(9.0)]), 0.01)
    assert way.gates.tolist() == [0, 8]
    assert way.tangents == pytest.approx([0.0], abs=1e-9)
