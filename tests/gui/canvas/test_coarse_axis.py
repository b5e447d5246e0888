"""The axis thinned for each zoom."""

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString

from holeplacer.gui.canvas.coarse_axis import CoarseAxis
from holeplacer.gui.canvas.paths import COARSE_PX
from holeplacer.medial_axis.routes import Part, polylines


@pytest.fixture
def ring(foot):
    """The branch of the ring, 653 mm long."""
    return foot(900.0, 216.0).branch


@pytest.mark.parametrize("px_per_mm", [0.2, 1.0, 7.0])
def test_a_part_strays_less_than_a_quarter_pixel(strokes, ring, px_per_mm):
    """Judged by the distance to the axis' own points, on the round ring."""
    part = Part(ring, 40.0, 600.0)
    line = CoarseAxis(strokes.axis).line(part, px_per_mm)
    (true,) = polylines(strokes.axis, (part,))
    strays = shapely.hausdorff_distance(LineString(line), LineString(true))
    assert strays * px_per_mm <= COARSE_PX + 1e-6
    assert len(line) < len(true)


def test_both_ends_are_exact_and_order_is_kept(strokes, ring):
    """Walked backwards, the points come backwards."""
    coarse = CoarseAxis(strokes.axis)
    there, back = (
        coarse.line(Part(ring, 40.0, 600.0), 1.0),
        coarse.line(Part(ring, 600.0, 40.0), 1.0),
    )
    (true,) = polylines(strokes.axis, (Part(ring, 40.0, 600.0),))
    assert np.allclose(there[[0, -1]], true[[0, -1]])
    assert np.array_equal(there, back[::-1])


def test_close_up_nothing_is_thinned(strokes, ring):
    """At 100 pixels a millimetre all points are kept."""
    (true,) = polylines(strokes.axis, (Part(ring, 40.0, 600.0),))
    assert np.allclose(CoarseAxis(strokes.axis).line(Part(ring, 40.0, 600.0), 100.0), true)
