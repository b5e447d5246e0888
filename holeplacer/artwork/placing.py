"""Placing: where a point of the artwork as drawn lies on the sign, and back."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from holeplacer.artwork import scaling
from holeplacer.artwork.artwork import Artwork
from holeplacer.artwork.options import ReadOptions
from holeplacer.geometry.curve import Points
from holeplacer.geometry.transform import Matrix, combined, matrix, moved
from holeplacer.units import DRAWING_UNITS_MM


def on_sign(artwork: Artwork, options: ReadOptions, drawn: ArrayLike) -> Points:
    """Places on the sign of points of the artwork as drawn.

    Args:
        artwork: What was read with the options.
        options: How it was read.
        drawn: (n, 2) points, mm: units applied, no scale, rotation or mirror.
    """
    return moved(drawn, _from_drawn(artwork, options))


def as_drawn(artwork: Artwork, options: ReadOptions, sign: ArrayLike) -> Points:
    """Points of the artwork as drawn, mm, of places on the sign; undoes `on_sign`."""
    return moved(sign, _inverse(_from_drawn(artwork, options)))


def between(
    old: Artwork, old_options: ReadOptions, new: Artwork, new_options: ReadOptions
) -> NDArray[np.float64]:
    """The (2, 3) map that carries a place on the sign along when its artwork is read otherwise.

    Args:
        old: The artwork as it was read.
        old_options: How.
        new: The same file read otherwise.
        new_options: How.
    """
    return combined(_from_units(new, new_options), _inverse(_from_units(old, old_options)))


def _from_units(artwork: Artwork, options: ReadOptions) -> Matrix:
    """From drawing units to the sign."""
    scale = artwork.scale
    by = scaling.levelled(artwork.units, options)
    return combined(matrix(scale, 0, 0, scale, 0, 0), by)


def _from_drawn(artwork: Artwork, options: ReadOptions) -> Matrix:
    """From mm as drawn to the sign."""
    unit = DRAWING_UNITS_MM[artwork.units]
    return combined(_from_units(artwork, options), matrix(1 / unit, 0, 0, 1 / unit, 0, 0))


def _inverse(by: Matrix) -> Matrix:
    whole = np.vstack([by, [0.0, 0.0, 1.0]])
    return np.linalg.inv(whole)[:2]
