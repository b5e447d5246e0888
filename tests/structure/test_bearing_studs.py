"""Studs in holes with room."""

import math

import numpy as np
import pytest
from scipy.optimize import minimize

from holeplacer.errors import InputError
from holeplacer.structure import bearing_studs
from holeplacer.structure.bearing_studs import Stud, at_rest

STUD = Stud(6.0, 25.0, 200e3, 0.4)


def energy(stiff, load, away, stud, moved):
    """Of the sheet, bent and let down, and of the studs it presses on."""
    studs = bearing_studs._studs_energy(moved + away, stud)
    return 0.5 * moved @ stiff @ moved - load @ moved + studs


def test_stiffness_of_a_cantilever():
    """20 lb on 6 studs of 0.1887 in and 1 in, fixed and free: 0.00062 in."""
    inch, pound = 25.4, 4.4482216
    stud = Stud(0.1887 * inch, inch, 29e6 * pound / inch**2)
    assert 20 / 6 * pound / stud.stiffness_n_mm / inch == pytest.approx(0.00062, abs=5e-6)
    guided = Stud(0.1887 * inch, inch, 29e6 * pound / inch**2, guided=True)
    assert guided.stiffness_n_mm == pytest.approx(4 * stud.stiffness_n_mm)


@pytest.mark.parametrize(
    ("figures", "words"),
    [
        ((0, 25, 2e5), "diameter must be more than zero"),
        ((6, -1, 2e5), "projection must be more than zero"),
        ((6, 25, math.nan), "elastic modulus must be more than zero"),
        ((6, 25, 2e5, -0.1), "must not be smaller than its stud"),
    ],
)
def test_nonsense_is_refused(figures, words):
    """Each impossible figure is named in one sentence."""
    with pytest.raises(InputError, match=words):
        Stud(*figures)


def rigid_sheet(xy, stiff=1e6):
    """Stiffness of a sheet that hardly deforms, on holes at xy."""
    basis = np.zeros((2 * len(xy), 3))
    basis[::2, 0] = basis[1::2, 1] = 1.0
    basis[::2, 2], basis[1::2, 2] = -xy[:, 1], xy[:, 0]
    q, _ = np.linalg.qr(basis)
    return stiff * (np.eye(2 * len(xy)) - q @ q.T)


def test_weight_passes_through_the_room_and_is_shared():
    """A stiff sheet falls through the room, then four studs carry a quarter each."""
    xy = np.array([(0, 0), (100, 0), (100, 50), (0, 50.0)])
    load = np.tile([0.0, -25.0], 4)
    rest = at_rest(rigid_sheet(xy), load, np.zeros((4, 2)), STUD)
    assert rest.settled
    assert rest.forces == pytest.approx(np.tile([0.0, -25.0], (4, 1)), abs=1e-3)
    sunk = 0.4 + 25 / STUD.stiffness_n_mm
    assert rest.movement == pytest.approx(np.tile([0.0, -sunk], (4, 1)), abs=1e-4)


def test_growth_within_the_room_costs_nothing():
    """A free expansion smaller than the room presses on no stud."""
    xy = np.array([(-100, 0), (100, 0), (0, 50.0)])
    rest = at_rest(rigid_sheet(xy), np.zeros(6), 0.003 * xy, STUD)
    assert np.abs(rest.forces).max() < 0.02 * STUD.stiffness_n_mm * 0.4
    rest = at_rest(rigid_sheet(xy), np.zeros(6), 0.01 * xy, STUD)
    assert rest.forces[0, 0] < -100
    assert rest.forces.sum(axis=0) == pytest.approx(0.0, abs=1e-3)


def test_rest_has_the_least_energy():
    """A general minimiser finds no lower place."""
    rng = np.random.default_rng(2)
    xy = rng.uniform(-100, 100, (4, 2))
    stiff = rigid_sheet(xy, 3e3)
    load, free = rng.normal(0, 40, 8), rng.normal(0, 0.5, (4, 2))
    rest = at_rest(stiff, load, free, STUD)
    assert rest.settled

    def least(moved):
        return energy(stiff, load, free.ravel(), STUD, moved)

    here = (rest.movement - free).ravel()
    found = minimize(least, here + rng.normal(0, 0.05, 8), method="BFGS", options={"gtol": 1e-4})
    assert least(here) <= found.fun + 1e-6 * abs(found.fun)


def test_forces_are_the_slope_of_the_energy():
    """Pushes and their change agree with differences."""
    rng = np.random.default_rng(4)
    at = rng.normal(0, 0.6, 6)
    push, blocks = bearing_studs._pushes(at, STUD)
    tangent = np.zeros((6, 6))
    bearing_studs._add_blocks(tangent, blocks)
    zero = np.zeros(6)
    for k in range(6):
        step = np.zeros(6)
        step[k] = 1e-5
        up, down = (
            energy(np.zeros((6, 6)), zero, zero, STUD, at + sign * step) for sign in (1, -1)
        )
        assert (up - down) / 2e-5 == pytest.approx(push[k], rel=1e-5, abs=1e-3)
        high, low = (bearing_studs._pushes(at + sign * step, STUD)[0] for sign in (1, -1))
        assert (high - low) / 2e-5 == pytest.approx(tangent[k], rel=1e-3, abs=1.0)
