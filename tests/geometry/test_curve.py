"""Curve values."""

import numpy as np

from holeplacer.geometry.curve import cubic
from holeplacer.geometry.evaluate import points_at


def test_cubic_is_the_bernstein_polynomial():
    """`cubic` gives sum b_i(t) p_i on 0 to 1."""
    corners = np.array([[0.0, 0.0], [1.0, 3.0], [4.0, 3.0], [5.0, -1.0]])
    t = np.linspace(0, 1, 17)[:, None]
    bernstein = np.hstack([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3])
    assert np.allclose(points_at(cubic(*corners), t[:, 0]), bernstein @ corners, atol=1e-14)
