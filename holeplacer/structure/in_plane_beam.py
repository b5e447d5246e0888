"""In-plane beam: stiffness of a strip between two stations, stretched and bent in its plane.

Freedoms at each station are the movements u, v along x and y and the turn anticlockwise. A stroke
is deep in its plane, so that shear bends it too (Timoshenko's beam, shear area 5/6 b t).
"""

import numpy as np
from numpy.typing import NDArray

from holeplacer.structure.sheet_stiffness import SheetStiffness

Floats = NDArray[np.float64]


def stiffness(step: Floats, width: Floats, sheet: SheetStiffness) -> Floats:
    """(m, 6, 6) stiffness in u, v, turn of both ends.

    Args:
        step: (m, 2) vector from first to last station, mm.
        width: (m,) clear width.
        sheet: Thickness and metal.
    """
    length = np.hypot(step[:, 0], step[:, 1])
    area = width * sheet.thickness_mm
    bending = sheet.elastic_mpa * sheet.thickness_mm * width**3 / 12.0
    shear = 12.0 * bending / (sheet.shear_mpa * 5.0 / 6.0 * area * length**2)
    local = np.zeros((len(step), 6, 6))
    stretch = sheet.elastic_mpa * area / length
    local[:, 0, 0] = local[:, 3, 3] = stretch
    local[:, 0, 3] = local[:, 3, 0] = -stretch
    one = bending / (length**3 * (1.0 + shear))
    corner = (4.0 + shear) * length**2
    other = (2.0 - shear) * length**2
    local[:, 1, 1] = local[:, 4, 4] = 12.0 * one
    local[:, 1, 4] = local[:, 4, 1] = -12.0 * one
    for row, column, sign in ((1, 2, 1), (1, 5, 1), (4, 2, -1), (4, 5, -1)):
        local[:, row, column] = local[:, column, row] = sign * 6.0 * length * one
    local[:, 2, 2] = local[:, 5, 5] = corner * one
    local[:, 2, 5] = local[:, 5, 2] = other * one
    turned = turning(step)
    return np.asarray(np.swapaxes(turned, 1, 2) @ local @ turned, float)


def turning(step: Floats) -> Floats:
    """(m, 6, 6) from u, v, turn of both ends to movement along, across, turn."""
    along = step / np.hypot(step[:, 0], step[:, 1])[:, None]
    turned = np.zeros((len(step), 6, 6))
    for k in (0, 3):
        turned[:, k, k], turned[:, k, k + 1] = along[:, 0], along[:, 1]
        turned[:, k + 1, k], turned[:, k + 1, k + 1] = -along[:, 1], along[:, 0]
        turned[:, k + 2, k + 2] = 1.0
    return turned


def shapes(step: Floats, share: Floats) -> tuple[Floats, Floats, Floats]:
    """Movements u, v and turn within beams, from those of both ends.

    Linear along, cubic across: every rigid movement comes out exactly.

    Args:
        step: (k, 2) vector of each beam.
        share: (k,) place along it, 0 to 1.

    Returns:
        Three (k, 6) rows.
    """
    length = np.hypot(step[:, 0], step[:, 1])
    x, zero = share, np.zeros_like(share)
    along = np.column_stack([1 - x, zero, zero, x, zero, zero])
    across = np.column_stack(
        [zero, 1 - 3 * x**2 + 2 * x**3, length * (x - 2 * x**2 + x**3),
         zero, 3 * x**2 - 2 * x**3, length * (x**3 - x**2)]
    )  # fmt: skip
    turn = np.column_stack(
        [zero, (6 * x**2 - 6 * x) / length, 1 - 4 * x + 3 * x**2,
         zero, (6 * x - 6 * x**2) / length, 3 * x**2 - 2 * x]
    )  # fmt: skip
    turned = turning(step)
    along, across, turn = (np.einsum("ki,kij->kj", row, turned) for row in (along, across, turn))
    unit = step / length[:, None]
    u = unit[:, :1] * along - unit[:, 1:] * across
    v = unit[:, 1:] * along + unit[:, :1] * across
    return u, v, turn
