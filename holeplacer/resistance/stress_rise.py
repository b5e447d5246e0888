"""Stress rise: how much higher the stress at a hole's edge is than beside it, Kt.

A peak of a few hundredths of a millimetre yields and stays: static strength is that of the net
section without Kt. Kt is shown for what it means to fatigue in gusts, brittle paint and powder.
"""

import math
from functools import lru_cache

from scipy import special

from holeplacer.resistance import coefficient, given

IN_PLANE = 3.0
"""Kt of a small round hole in a wide plate pulled in its plane (Kirsch)."""


def tension_on_net(hole_mm: float, width_mm: float) -> float:
    """Kt on the net section of a strip of finite width in tension, 2 + (1 - d/W)^3.

    Heywood's formula (from memory); Roark's polynomial for the same case agrees within 2 %.

    Args:
        hole_mm: Diameter d, in the strip's middle.
        width_mm: Strip W, more than d.

    Raises:
        InputError: The hole is not smaller than the strip is wide.

    >>> tension_on_net(10.0, 20.0)
    2.125
    """
    return 2 + (1 - _share(hole_mm, width_mm)) ** 3


@lru_cache(maxsize=256)
def plate_bending(hole_mm: float, thickness_mm: float, poisson: float) -> float:
    """Kt of a round hole in a wide plate bent out of its plane.

    Between the two limits, (5 + 3 ν)/(3 + ν) for d >> t (Goodier) and 3 for d << t, it is not
    interpolated: it is the closed solution of plates with shear deformation (Reissner 1945),

        Kt = 3/2 + 1/2 [3 (1 + ν) K2(μ) - 2 K0(μ)] / [(1 + ν) K2(μ) + 2 K0(μ)],  μ = sqrt(10) a/t

    with a = d/2 and modified Bessel functions K. Within 3 % of Roark's curve fit.

    Args:
        hole_mm: Diameter d.
        thickness_mm: Plate t.
        poisson: ν.

    Raises:
        InputError: A length is not above 0.

    >>> round(plate_bending(1000.0, 1.0, 0.3), 3)
    1.788
    """
    d = given.positive(hole_mm, "the hole's diameter in mm")
    t = given.positive(thickness_mm, "the sheet's thickness in mm")
    mu = math.sqrt(coefficient.value("plate hole", "reissner shear")) * d / 2 / t
    # Scaled by e^μ: the plain functions vanish for wide holes, their ratio does not.
    k0, k2 = float(special.kve(0, mu)), float(special.kve(2, mu))
    if math.isinf(k2):
        return IN_PLANE
    return 1.5 + 0.5 * (3 * (1 + poisson) * k2 - 2 * k0) / ((1 + poisson) * k2 + 2 * k0)


def bending_on_net(hole_mm: float, width_mm: float, thickness_mm: float, poisson: float) -> float:
    """Kt on the net section of a strip of finite width bent out of its plane.

    That of the wide plate, falling with d/W as in tension (Heywood). Roark's fit for bending falls
    alike, within 3 % to d/W = 0.3, where it ends.

    Raises:
        InputError: A length is not above 0, or the hole not smaller than the strip is wide.
    """
    finite = tension_on_net(hole_mm, width_mm) / IN_PLANE
    return plate_bending(hole_mm, thickness_mm, poisson) * finite


def _share(hole_mm: float, width_mm: float) -> float:
    d = given.positive(hole_mm, "the hole's diameter in mm")
    w = given.positive(width_mm, "the stroke's width in mm")
    return 1 - given.positive(w - d, "the metal left beside the hole in mm") / w
