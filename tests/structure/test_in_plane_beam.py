"""Beams in the sign's plane."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.structure import in_plane_beam
from holeplacer.structure.sheet_stiffness import SheetStiffness

SHEET = SheetStiffness(2.0, 200e3, 77e3)


@given(st.floats(-3, 3), st.floats(5, 300))
def test_rigid_movements_cost_nothing(angle, length):
    """Shifts and a turn need no force."""
    step = length * np.array([[np.cos(angle), np.sin(angle)]])
    stiff = in_plane_beam.stiffness(step, np.array([30.0]), SHEET)[0]
    x, y = step[0]
    for moved in ([1, 0, 0, 1, 0, 0], [0, 1, 0, 0, 1, 0], [0, 0, 1, -y, x, 1]):
        assert np.abs(stiff @ np.array(moved)).max() < 1e-9 * np.abs(stiff).max() * (1 + length)


def test_cantilever_stretches_bends_and_shears():
    """P L / E A; P L^3 / 3 E I + P L / (5/6 G A)."""
    stiff = in_plane_beam.stiffness(np.array([[100.0, 0.0]]), np.array([30.0]), SHEET)[0]
    moved = np.linalg.solve(stiff[3:, 3:], [10.0, 20.0, 0.0])
    area, inertia = 60.0, 2.0 * 30**3 / 12
    assert moved[0] == pytest.approx(10 * 100 / 200e3 / area)
    shear = 20 * 100 / (5 / 6 * 77e3 * area)
    assert moved[1] == pytest.approx(20 * 100**3 / 3 / 200e3 / inertia + shear)


@given(st.floats(0, 1), st.floats(-3, 3))
def test_shapes_give_back_a_turn(share, angle):
    """Points within a turned beam turn with it."""
    step = 80.0 * np.array([[np.cos(angle), np.sin(angle)]])
    x, y = step[0]
    ends = np.array([1.0, 2.0, 0.1, 1.0 - 0.1 * y, 2.0 + 0.1 * x, 0.1])
    u, v, turn = (row[0] @ ends for row in in_plane_beam.shapes(step, np.array([share])))
    assert u == pytest.approx(1.0 - 0.1 * y * share, abs=1e-9)
    assert v == pytest.approx(2.0 + 0.1 * x * share, abs=1e-9)
    assert turn == pytest.approx(0.1)
