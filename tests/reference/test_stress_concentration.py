"""Stress rise at a round hole against closed forms, published fits, and the plate equations.

Sources: Kirsch (3), Goodier (5 + 3 ν)/(3 + ν) (M; recomputed), Heywood 2 + (1 - d/W)^3 (M), Roark's
fits of Table 17.1 for tension (P) and out-of-plane bending (P), Reissner 1945 (R: the differential
equations of plates with shear deformation are solved here by collocation).
"""

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from holeplacer.resistance import stress_rise


@pytest.mark.parametrize(("poisson", "kt"), [(0.3, 1.788), (0.0, 5 / 3), (0.33, 5.99 / 3.33)])
def test_wide_hole_in_a_bent_plate(poisson, kt):
    """For d >> t Kt is (5 + 3 ν)/(3 + ν), 1.788 at ν = 0.3."""
    assert stress_rise.plate_bending(5000.0, 1.0, poisson) == pytest.approx(kt, abs=1e-3)


def test_narrow_hole_in_a_bent_plate():
    """For d << t Kt is that of tension, 3.0; however small the hole."""
    assert stress_rise.plate_bending(1e-3, 1.0, 0.3) == pytest.approx(3.0, abs=2e-3)
    assert stress_rise.plate_bending(1e-200, 1.0, 0.3) == 3.0


@pytest.mark.parametrize(("share", "kt"), [(0.5, 2.125), (1e-9, 3.0), (0.25, 2 + 0.75**3)])
def test_heywood(share, kt):
    """2 + (1 - d/W)^3: 2.125 at half the width."""
    assert stress_rise.tension_on_net(share * 100, 100.0) == pytest.approx(kt)


@pytest.mark.parametrize("share", [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6])
def test_tension_against_roark(share):
    """Roark's 3 - 3.13 x + 3.66 x^2 - 1.53 x^3 agrees within 3 %."""
    roark = 3 - 3.13 * share + 3.66 * share**2 - 1.53 * share**3
    assert stress_rise.tension_on_net(share, 1.0) == pytest.approx(roark, rel=0.03)


@pytest.mark.parametrize("ratio", [0.2, 0.5, 1.0, 2.0, 3.0, 5.0, 10.0, 50.0])
def test_bending_against_roark(ratio):
    """Roark's fit over d/t agrees within 3 % for ν 0.3."""
    roark = 1.79 + 0.25 / (0.39 + ratio) + 0.81 / (1 + ratio**2) - 0.26 / (1 + ratio**3)
    assert stress_rise.plate_bending(ratio, 1.0, 0.3) == pytest.approx(roark, rel=0.03)


@pytest.mark.parametrize("share", [0.05, 0.1, 0.2, 0.3])
def test_finite_width_in_bending_against_roark(share):
    """Roark's 1 - 1.04 d/W + 1.22 (d/W)^2 to d/W 0.3, within 3 %."""
    d, t = 7.0, 1.5
    fall = stress_rise.bending_on_net(d, d / share, t, 0.3) / stress_rise.plate_bending(d, t, 0.3)
    assert fall == pytest.approx(1 - 1.04 * share + 1.22 * share**2, rel=0.03)


def kt_by_collocation(ratio: float, poisson: float, reach: float = 60.0) -> float:
    """Kt of a bent plate with shear deformation, hole radius 1, thickness 2/ratio.

    Far bending M about one axis is M/2 all round, which gives M at the hole, and a part that goes
    with cos 2θ: six first-order equations for slopes f, g, deflection h, moments m, s, shear q.
    """
    shear = 5 * (1 - poisson) / (2 / ratio) ** 2

    def hoop(r, f, g, m):
        slope = m - poisson * (f + 2 * g) / r
        return (f + 2 * g) / r + poisson * slope

    def equations(log_r, y):
        r = np.exp(log_r)
        f, g, h, m, s, q = y
        around = hoop(r, f, g, m)
        across = shear * (g - 2 * h / r)
        return r * np.vstack(
            [
                m - poisson * (f + 2 * g) / r,
                2 * s / (1 - poisson) + (2 * f + g) / r,
                q / shear - f,
                -2 * s / r - (m - around) / r + q,
                2 * around / r - 2 * s / r + across,
                -2 * across / r - q / r,
            ]
        )

    def ends(at_hole, far):
        return np.array([*at_hole[3:], far[3] - 0.5, far[4] + 0.5, far[5]])

    start = np.linspace(0.0, np.log(reach), 200)
    guess = np.zeros((6, start.size))
    solved = solve_bvp(equations, ends, start, guess, tol=1e-6, max_nodes=20000)
    assert solved.success
    f, g, _, m, _, _ = solved.y[:, 0]
    return 1.0 - float(hoop(1.0, f, g, m))


@pytest.mark.parametrize("ratio", [0.5, 1.0, 2.0, 5.0])
def test_reissner_against_the_plate_equations(ratio):
    """The closed form between the limits is the plate equations' own answer."""
    assert stress_rise.plate_bending(ratio, 1.0, 0.3) == pytest.approx(
        kt_by_collocation(ratio, 0.3), rel=2e-3
    )
