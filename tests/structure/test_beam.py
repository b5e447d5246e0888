"""Beam stiffness, shapes and end forces."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.structure import beam

FEW = pytest.approx


def test_inertia_of_a_strip():
    """40 x 3 mm has I = 90.0 mm4 and J = 342.98 mm4."""
    assert beam.bending_mm4(np.array([40.0]), 3.0)[0] == FEW(90.0)
    assert beam.torsion_mm4(np.array([40.0]), 3.0)[0] == FEW(342.98, rel=5e-5)


@pytest.mark.parametrize(
    ("ratio", "wanted"),
    [(1, 0.1406), (1.5, 0.1958), (2, 0.2287), (3, 0.2633), (5, 0.2913), (10, 0.3123), (20, 0.3228)],
)
def test_torsion_constant_agrees_with_saint_venant(ratio, wanted):
    """J / b t^3 is that of the series, within half a percent."""
    assert beam.torsion_mm4(np.array([2.0 * ratio]), 2.0)[0] / (ratio * 16.0) == FEW(
        wanted, rel=5e-3
    )


def test_torsion_does_not_care_which_side_is_the_longer():
    """A strip narrower than the sheet is thick twists about its own longer side."""
    assert beam.torsion_mm4(np.array([2.0]), 5.0)[0] == FEW(
        beam.torsion_mm4(np.array([5.0]), 2.0)[0]
    )
    assert beam.torsion_modulus_mm3(np.array([2.0]), 5.0)[0] == FEW(
        beam.torsion_modulus_mm3(np.array([5.0]), 2.0)[0]
    )


def test_shear_of_a_thin_strip():
    """A wide strip's torque by stress nears b t^2 / 3; a square's is 0.208 b^3."""
    assert beam.torsion_modulus_mm3(np.array([1000.0]), 1.0)[0] == FEW(1000 / 3, rel=2e-3)
    assert beam.torsion_modulus_mm3(np.array([10.0]), 10.0)[0] == FEW(208.0, rel=2e-3)


@given(st.floats(-3, 3), st.floats(5, 200))
def test_rigid_movements_cost_nothing(angle, length):
    """Rise and both tilts need no force, whatever way the beam lies."""
    step = length * np.array([[np.cos(angle), np.sin(angle)]])
    stiff = beam.stiffness(step, np.array([1e7]), np.array([4e6]))[0]
    x, y = step[0]
    for movement in ([1, 0, 0, 1, 0, 0], [0, 1, 0, x, 1, 0], [0, 0, 1, y, 0, 1]):
        assert np.abs(stiff @ np.array(movement)).max() < 1e-9 * np.abs(stiff).max() * (1 + length)


def test_cantilever_bends_and_twists():
    """P L^3 / 3 E I at a cantilever's end, T L / G J for its twist."""
    bending, twisting, length = 1.9e7, 2.7e7, 250.0
    stiff = beam.stiffness(np.array([[length, 0.0]]), np.array([bending]), np.array([twisting]))[0]
    moved = np.linalg.solve(stiff[3:, 3:], [10.0, 0.0, 500.0])
    assert moved[0] == FEW(10 * length**3 / 3 / bending)
    assert moved[2] == FEW(500 * length / twisting)


def test_end_forces_of_a_cantilever():
    """The moment at the root of a cantilever is P L, at its end nothing; the torque is T."""
    bending, twisting, length = np.array([1.9e7]), np.array([2.7e7]), 250.0
    step = np.array([[0.0, length]])
    stiff = beam.stiffness(step, bending, twisting)[0]
    moved = np.concatenate([np.zeros(3), np.linalg.solve(stiff[3:, 3:], [10.0, 500.0, 0.0])])
    first, last, torque = (row[0] @ moved for row in beam.end_forces(step, bending, twisting))
    assert abs(first) == FEW(10 * length)
    assert last == FEW(0.0, abs=1e-8)
    assert abs(torque) == FEW(500.0)


@given(st.floats(0, 1), st.floats(-3, 3))
def test_shapes_give_back_a_plane(share, angle):
    """A tilted beam's inner points lie on the same plane as its ends."""
    step = 80.0 * np.array([[np.cos(angle), np.sin(angle)]])
    ends = np.array([2.0, 0.3, -0.1, 2.0 + step[0] @ [0.3, -0.1], 0.3, -0.1])
    w, along, across = (row[0] @ ends for row in beam.shapes(step, np.array([share])))
    unit = step[0] / 80.0
    assert w == FEW(2.0 + share * (step[0] @ [0.3, -0.1]), abs=1e-9)
    assert along == FEW(unit @ [0.3, -0.1], abs=1e-12)
    assert across == FEW(-unit[1] * 0.3 - unit[0] * 0.1, abs=1e-12)
