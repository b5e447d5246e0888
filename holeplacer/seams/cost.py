"""Cost of a seam: the length of its weld, and what makes it worse as millimetres of weld.

The sum over a sign's seams says which of two divisions is the better one.

    cost = b (1 + CURVATURE turn + TAPER taper + NEARNESS (n_hole + n_tip + n_junction))

with b the weld's length, turn the axis's change of direction over a stroke's width (rad), taper
the change of clear width per way, and n = 1 at the least distance c entered, falling to 0 at twice
that (at c + 10 mm where c is less). The factors are own judgement, no source: a bend of one radian
or a taper of one in one is worth half a weld more, for the pieces fit up badly and pull; a hole,
tip or junction beside the weld a quarter.
"""

import numpy as np
from numpy.typing import NDArray

from holeplacer.seams.candidates import Candidates

CURVATURE = 0.5
TAPER = 0.5
NEARNESS = 0.25
_LEAST_RANGE_MM = 10.0


def cost(cuts: Candidates, clear_mm: float) -> NDArray[np.float64]:
    """Cost of each cut, mm of weld.

    Args:
        cuts: The cuts.
        clear_mm: Least distance of a seam from a hole, tip or junction.
    """
    share = 1.0 + CURVATURE * cuts.turn_rad + TAPER * cuts.taper
    for distance in (cuts.hole_mm, cuts.tip_mm, cuts.junction_mm):
        share += NEARNESS * _nearness(distance, clear_mm)
    return np.asarray(cuts.weld_mm * share, float)


def _nearness(distance_mm: NDArray[np.float64], clear_mm: float) -> NDArray[np.float64]:
    over = (distance_mm - clear_mm) / max(clear_mm, _LEAST_RANGE_MM)
    return np.clip(1.0 - over, 0.0, 1.0)
