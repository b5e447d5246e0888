"""Outlines that tests of the axis share."""

import numpy as np
import shapely
from hypothesis import strategies as st

from holeplacer.outline.outline import Outline


def outline(*parts):
    """Outline of the union of parts."""
    return Outline.from_geometry(shapely.union_all(list(parts)))


def stroke(points, half_width, quad_segs=8):
    """What a round pen draws along points."""
    return shapely.LineString(points).buffer(half_width, quad_segs=quad_segs)


BAR = shapely.box(0, 0, 400, 40)
RING = shapely.Point(0, 0).buffer(60, 32).difference(shapely.Point(0, 0).buffer(40, 32))
CROSS = shapely.union_all([shapely.box(-100, -20, 100, 20), shapely.box(-20, -100, 20, 100)])
SCRIPT = shapely.union_all(
    [
        stroke([(10 * t, 40 * np.sin(t)) for t in np.linspace(0, 14, 120)], 6),
        stroke([(30 + 25 * np.cos(t), 25 * np.sin(t)) for t in np.linspace(0, 6, 60)], 4),
        stroke([(120, -60), (118, 70)], 9),
    ]
)
"""A wave, a bowl and a stem: strokes that cross and enclose counters."""

_coordinates = st.integers(-200, 200).map(float)
_points = st.tuples(_coordinates, _coordinates)
_strokes = st.builds(
    stroke,
    st.lists(_points, min_size=2, max_size=5, unique=True),
    st.integers(3, 15).map(float),
    st.sampled_from([2, 4, 8]),
)


@st.composite
def lettering(draw):
    """Unions of a few strokes, turned by any angle."""
    strokes = draw(st.lists(_strokes, min_size=1, max_size=4))
    turned = shapely.affinity.rotate(
        shapely.union_all(strokes), draw(st.floats(0, 360)), origin=(0, 0)
    )
    return Outline.from_geometry(turned)
