"""Discrete Kirchhoff triangles."""

import numpy as np
import pytest
from scipy.sparse.linalg import splu

from holeplacer.structure import triangles
from holeplacer.structure.plate import Plate

NU, D = 0.3, 210e3 * 27 / 12 / 0.91


def square(count, side=1000.0):
    line = np.linspace(0, side, count + 1)
    x, y = np.meshgrid(line, line)
    corner = np.arange((count + 1) * count).reshape(count, count + 1)[:, :-1].ravel()
    up = corner + count + 1
    cells = np.concatenate(
        [np.column_stack([corner, corner + 1, up + 1]), np.column_stack([corner, up + 1, up])]
    )
    return Plate.of(np.column_stack([x.ravel(), y.ravel()]), cells)


def middle_of_square(count, *, clamped):
    plate = square(count)
    parts = triangles.divided(plate.xy[plate.corners], 500.0 / count)
    one, two = parts[:, 1] - parts[:, 0], parts[:, 2] - parts[:, 0]
    area = 0.5 * np.abs(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])
    load = plate.rows(parts.mean(axis=1))[0].transposed(area)
    rim = np.flatnonzero(((plate.xy == 0) | (plate.xy == 1000)).any(axis=1))
    fixed = np.concatenate([3 * rim, 3 * rim + 1, 3 * rim + 2]) if clamped else 3 * rim
    free = np.setdiff1d(np.arange(len(load)), fixed)
    stiff = plate.stiffness(D, NU)
    moved = np.zeros(len(load))
    moved[free] = splu(stiff[:, free][free, :].tocsc()).solve(load[free])
    return plate.rows(np.array([[500.0, 500.0]]))[0].of(moved)[0] * D / 1000**4


@pytest.mark.parametrize(("clamped", "wanted"), [(False, 0.00406), (True, 0.00126)])
def test_square_plate_converges(clamped, wanted):
    """The middle of a square plate sinks as the series say, better on a finer mesh.

    Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells (from memory).
    """
    coarse, fine = (middle_of_square(n, clamped=clamped) for n in (8, 16))
    assert fine == pytest.approx(wanted, rel=0.012)
    assert abs(fine - wanted) < abs(coarse - wanted)


def test_constant_curvature_is_exact():
    """Any quadratic surface has its own curvature everywhere, and its own heights and slopes."""
    rng = np.random.default_rng(3)
    plate = square(4)
    bent = Plate.of(plate.xy + rng.uniform(-40, 40, plate.xy.shape), plate.corners)
    x, y = bent.xy.T
    freedoms = np.column_stack(
        [x**2 - 2 * x * y + 3 * y**2, 2 * x - 2 * y, 6 * y - 2 * x]
    ).ravel() * 1e-3  # fmt: skip
    for row, wanted in zip(bent.curvature(), (2e-3, 6e-3, -4e-3), strict=True):
        assert row.of(freedoms) == pytest.approx(wanted, rel=1e-9)
    at = rng.uniform(200, 800, (20, 2))
    p, q = at.T
    found = [row.of(freedoms) for row in bent.rows(at)]
    assert found[0] == pytest.approx(1e-3 * (p**2 - 2 * p * q + 3 * q**2), rel=1e-9)
    assert found[1] == pytest.approx(1e-3 * (2 * p - 2 * q), rel=1e-9, abs=1e-9)
    assert found[2] == pytest.approx(1e-3 * (6 * q - 2 * p), rel=1e-9, abs=1e-9)


def test_rigid_movements_cost_nothing_and_reach_beyond():
    """A tilt needs no force, and a point just off the mesh moves with it."""
    plate = square(3, side=90.0)
    x, y = plate.xy.T
    tilt = np.column_stack([5 + 0.1 * x - 0.2 * y, np.full(len(x), 0.1), np.full(len(x), -0.2)])
    stiff = plate.stiffness(D, NU)
    assert np.abs(stiff @ tilt.ravel()).max() < 1e-9 * np.abs(stiff).max()
    beyond = plate.rows(np.array([[93.0, 95.0]]))[0].of(tilt.ravel())[0]
    assert beyond == pytest.approx(5 + 9.3 - 19.0)
