"""Beam: stiffness of a straight strip between two stations, bent and twisted out of its plane.

Freedoms at each station are the deflection w off the wall and the slopes dw/dx and dw/dy, so that
beams of any direction join without turning anything but their own stiffness.
"""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

FREEDOMS = 3
"""w, dw/dx, dw/dy."""


def bending_mm4(width: Floats, thickness_mm: float) -> Floats:
    """Second moment b t^3 / 12 of a strip.

    Plain E I, not the plate's E I / (1 - nu^2): a stroke is free to curl across its width at both
    edges. What is held flat across its width is no stroke, and is not reckoned as one.
    """
    return np.asarray(width * thickness_mm**3 / 12.0, float)


def torsion_mm4(width: Floats, thickness_mm: float) -> Floats:
    """Torsion constant of a thin strip.

    J = b t^3 (1/3 - 0.21 (t/b) (1 - t^4 / (12 b^4))), b >= t. Source: Roark's Formulas for Stress
    and Strain, table 10.7 (from memory); agrees with Saint-Venant's series to 0.5 %.
    """
    b, t = np.maximum(width, thickness_mm), np.minimum(width, thickness_mm)
    return np.asarray(b * t**3 * (1 / 3 - 0.21 * (t / b) * (1 - t**4 / (12 * b**4))), float)


def torsion_modulus_mm3(width: Floats, thickness_mm: float) -> Floats:
    """Torque by the greatest shear stress, which is at the middle of the long sides.

    8 a b^2 / (3 (1 + 0.6095 r + 0.8865 r^2 - 1.8023 r^3 + 0.91 r^4)) with half sides a >= b and
    r = b/a. Source: Roark, table 10.7 (from memory).
    """
    a, b = np.maximum(width, thickness_mm) / 2, np.minimum(width, thickness_mm) / 2
    r = b / a
    return 8 * a * b**2 / (3 * (1 + 0.6095 * r + 0.8865 * r**2 - 1.8023 * r**3 + 0.91 * r**4))


def stiffness(step: Floats, bending: Floats, twisting: Floats) -> Floats:
    """(m, 6, 6) stiffness in w, dw/dx, dw/dy of both ends.

    Args:
        step: (m, 2) vector from first to last station, mm.
        bending: (m,) E I, N mm2.
        twisting: (m,) G J, N mm2.
    """
    length = np.hypot(step[:, 0], step[:, 1])
    local = np.zeros((len(step), 6, 6))
    # in w, slope along, slope across of both ends
    one = bending / length**3
    hermite = np.array([[12, 6, -12, 6], [6, 4, -6, 2], [-12, -6, 12, -6], [6, 2, -6, 4]], float)
    power = np.array([0, 1, 0, 1])
    scale = length[:, None, None] ** (power[:, None] + power[None, :])
    at = np.ix_(range(len(step)), [0, 1, 3, 4], [0, 1, 3, 4])
    local[at] = one[:, None, None] * hermite * scale
    two = twisting / length
    local[:, 2, 2] = local[:, 5, 5] = two
    local[:, 2, 5] = local[:, 5, 2] = -two
    turned = turning(step)
    return np.asarray(np.swapaxes(turned, 1, 2) @ local @ turned, float)


def turning(step: Floats) -> Floats:
    """(m, 6, 6) from w, dw/dx, dw/dy of both ends to w, slope along, slope across."""
    along = step / np.hypot(step[:, 0], step[:, 1])[:, None]
    turned = np.zeros((len(step), 6, 6))
    for k in (0, 3):
        turned[:, k, k] = 1.0
        turned[:, k + 1, k + 1], turned[:, k + 1, k + 2] = along[:, 0], along[:, 1]
        turned[:, k + 2, k + 1], turned[:, k + 2, k + 2] = -along[:, 1], along[:, 0]
    return turned


def shapes(step: Floats, share: Floats) -> tuple[Floats, Floats, Floats]:
    """Deflection, slope along and slope across within beams, from the freedoms of both ends.

    Cubic along, the twist linear: exact for a beam loaded at its ends.

    Args:
        step: (k, 2) vector of each beam.
        share: (k,) place along it, 0 to 1.

    Returns:
        Three (k, 6) rows in w, dw/dx, dw/dy of both ends.
    """
    length = np.hypot(step[:, 0], step[:, 1])
    x, zero = share, np.zeros_like(share)
    w = np.column_stack(
        [1 - 3 * x**2 + 2 * x**3, length * (x - 2 * x**2 + x**3), zero,
         3 * x**2 - 2 * x**3, length * (x**3 - x**2), zero]
    )  # fmt: skip
    along = np.column_stack(
        [(6 * x**2 - 6 * x) / length, 1 - 4 * x + 3 * x**2, zero,
         (6 * x - 6 * x**2) / length, 3 * x**2 - 2 * x, zero]
    )  # fmt: skip
    across = np.column_stack([zero, zero, 1 - x, zero, zero, x])
    turned = turning(step)
    rows = [np.einsum("ki,kij->kj", row, turned) for row in (w, along, across)]
    return rows[0], rows[1], rows[2]


def end_forces(step: Floats, bending: Floats, twisting: Floats) -> tuple[Floats, Floats, Floats]:
    """Bending moments at the first and last end and the torque, from the freedoms of both ends.

    Returns:
        Three (m, 6) rows: M at the first end, M at the last (both positive where the front of the
        sheet is stretched by w'' > 0 with the sign of E I w''), T.
    """
    length = np.hypot(step[:, 0], step[:, 1])
    zero, turned = np.zeros_like(length), turning(step)
    one = bending / length**2
    first = np.column_stack([-6 * one, -4 * one * length, zero, 6 * one, -2 * one * length, zero])
    last = np.column_stack([6 * one, 2 * one * length, zero, -6 * one, 4 * one * length, zero])
    torque = np.column_stack([zero, zero, -twisting / length, zero, zero, twisting / length])
    rows = [np.einsum("mi,mij->mj", row, turned) for row in (first, last, torque)]
    return rows[0], rows[1], rows[2]
