"""Contour order: what is inside is cut before what is around it, and travel between is short.

Holes first, counters next, outer contours last, so that nothing is cut into a part that has come
loose; within each kind the nearest to where the torch stands. A part that lies in another part's
counter is cut out before that counter drops.
"""

from collections.abc import Sequence

import numpy as np
import shapely

from holeplacer.cutting.contours import Contour


def order(contours: Sequence[Contour], start: tuple[float, float] = (0.0, 0.0)) -> tuple[int, ...]:
    """Indices of the contours in the order of cutting.

    Args:
        contours: On one sheet, nominal or as paths.
        start: Where the torch stands at first, mm.
    """
    regions = np.array([contour.region for contour in contours])
    if not len(regions):
        return ()
    waits = _inside(regions)
    middles = np.array([contour.xy.mean(axis=0) for contour in contours])
    kinds = np.array([int(contour.kind) for contour in contours])
    done: list[int] = []
    left = np.ones(len(contours), dtype=bool)
    at = np.array(start)
    while left.any():
        # A contour is ready when nothing inside it is left to cut; the innermost always is.
        ready = np.flatnonzero(left & ~(waits[:, left].any(axis=1)))
        ready = ready[kinds[ready] == kinds[ready].min()]
        index = int(ready[np.argmin(np.hypot(*(middles[ready] - at).T))])
        done.append(index)
        left[index] = False
        at = middles[index]
    return tuple(done)


def _inside(regions: np.ndarray) -> np.ndarray:
    """(n, n) whether the second lies inside the first."""
    points = np.array([shapely.Point(shapely.get_coordinates(region)[0]) for region in regions])
    areas = shapely.area(regions)
    inside = np.zeros((len(regions), len(regions)), dtype=bool)
    around, within = shapely.STRtree(points).query(regions, predicate="intersects")
    smaller = areas[within] < areas[around]
    inside[around[smaller], within[smaller]] = True
    return inside
