"""Scaling: from the artwork as drawn to the sign's size, level and hand.

Mirror, then rotation, then scale, all about the artwork's origin.
"""

import math
from collections.abc import Sequence

from holeplacer.artwork.options import ReadOptions
from holeplacer.errors import ArtworkError, UnitsMissing
from holeplacer.geometry.transform import Matrix, combined, matrix
from holeplacer.units import DRAWING_UNITS_MM

LARGEST_MM = 1e6
"""A sign of a kilometre is a mistake in units."""


def units_of(stated: str | None, options: ReadOptions) -> str:
    """The unit that applies: what the person entered before what the file states.

    Raises:
        UnitsMissing: There is neither.
        ArtworkError: The entered unit is unknown.
    """
    units = options.units or stated
    if units is None:
        raise UnitsMissing(
            "the drawing states no units",
            remedy="say what one drawing unit is, such as mm or in",
        )
    if units not in DRAWING_UNITS_MM:
        names = ", ".join(DRAWING_UNITS_MM)
        raise ArtworkError(f"{units!r} is no unit", remedy=f"take one of {names}")
    return units


def levelled(units: str, options: ReadOptions) -> Matrix:
    """Map from drawing units to mm, mirrored and turned, not yet scaled."""
    factor = DRAWING_UNITS_MM[units]
    sign = -1.0 if options.mirror else 1.0
    by = matrix(sign * factor, 0, 0, factor, 0, 0)
    if options.rotation_rad == 0:
        return by
    cos, sin = math.cos(options.rotation_rad), math.sin(options.rotation_rad)
    return combined(matrix(cos, sin, -sin, cos, 0, 0), by)


def known_scale(options: ReadOptions) -> float | None:
    """The scale if it doesn't depend on the outline's size, else None.

    Raises:
        ArtworkError: Sizes contradict each other or are no sizes.
    """
    given = [options.width_mm, options.height_mm, options.known]
    if sum(item is not None for item in given) + (options.scale != 1) > 1:
        raise ArtworkError(
            "more than one size is given", remedy="give width, height, a distance or a scale"
        )
    for name, value in (
        ("scale", options.scale),
        ("width", options.width_mm),
        ("height", options.height_mm),
        ("tolerance", options.tolerance_mm),
        ("chaining distance", options.chain_mm),
    ):
        if value is not None and not 0 < value < math.inf:
            raise ArtworkError(f"a {name} of {value:g} is no size", remedy="give a positive number")
    if options.known is not None:
        known = options.known
        drawn = math.hypot(known.x2 - known.x1, known.y2 - known.y1)
        if not (drawn > 0 and 0 < known.distance_mm < math.inf):
            raise ArtworkError("the known distance needs two different points and a length")
        return known.distance_mm / drawn
    return None if options.width_mm or options.height_mm else options.scale


def fitting_scale(bounds: Sequence[float], options: ReadOptions) -> float:
    """The scale that gives the overall width or height wanted.

    Args:
        bounds: Left, bottom, right, top of the outline, mirrored and turned.
        options: With `width_mm` or `height_mm`.
    """
    width, height = bounds[2] - bounds[0], bounds[3] - bounds[1]
    drawn, wanted = (width, options.width_mm) if options.width_mm else (height, options.height_mm)
    if wanted is None or not drawn > 0:
        raise ArtworkError("the outline has no extent to scale by")
    return wanted / drawn
