"""Drawn curves beside the outline."""

import dataclasses

import numpy as np
import pytest

from holeplacer.geometry.curve import CircularArc
from holeplacer.outline.drawn import DrawnCurves


def test_every_point_names_its_curve_and_parameter():
    """A flattened point leads back to the curve it was made from."""
    t = np.array([0.0, 0.5, 1.0])
    xy = np.stack([5 * np.cos(t), 5 * np.sin(t)], axis=1)
    drawn = DrawnCurves(
        (CircularArc((0.0, 0.0), 5.0, 0.0, 1.0),), ("CUT",), ("ARC",), xy, np.zeros(3, int), t
    )
    curve = drawn.curves[drawn.curve[1]]
    assert drawn.layers[drawn.curve[1]] == "CUT"
    assert curve.radius * np.cos(drawn.t[1]) == pytest.approx(drawn.xy[1, 0])


def test_it_is_a_value():
    """No field can be put in another's place."""
    drawn = DrawnCurves((), (), (), np.empty((0, 2)), np.empty(0, int), np.empty(0))
    with pytest.raises(dataclasses.FrozenInstanceError):
        drawn.curves = ()
