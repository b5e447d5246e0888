"""Feet of points on strokes."""

import numpy as np
import pytest
import shapely
from shapely.geometry import box

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.structure.body import Place, rigid
from holeplacer.structure.feet import Strokes
from holeplacer.structure.stations import stations


@pytest.mark.parametrize("name", ["bar", "ring", "tee", "disc", "drop"])
def test_rigid_movements_come_out_exactly(name, request):
    """Any point of the metal moves with it when the whole piece rises or tilts."""
    sign = request.getfixturevalue(name)
    strokes, place = Strokes.of(sign.strip), Place.of(sign.polygon)
    rng = np.random.default_rng(5)
    low, high = np.array(sign.polygon.bounds).reshape(2, 2)
    at = rng.uniform(low, high, (200, 2))
    at = at[shapely.contains_xy(sign.polygon, at[:, 0], at[:, 1])]
    w, x, y = strokes.rows(strokes.feet(at))
    for index, movement in enumerate(rigid(sign.strip.xy, place).T):
        assert np.allclose(w.of(movement), place.rigid_at(at)[:, index], atol=1e-9)
        slope = np.array([0.0, 0.0, 0.0])
        slope[index] = 1.0 / place.size_mm
        assert np.allclose(x.of(movement), slope[1] if index else 0.0, atol=1e-12)
        assert np.allclose(y.of(movement), slope[2] if index else 0.0, atol=1e-12)


def test_foot_is_the_nearest_axis_point_of_a_bar(bar):
    """A point of a bar stands off its middle line."""
    strokes = Strokes.of(bar.strip)
    feet = strokes.feet(np.array([[333.0, 7.0]]))
    assert feet.off[0] == pytest.approx([0.0, -13.0], abs=1e-9)
    at = bar.strip.xy[bar.strip.first[feet.beam[0]]] + feet.share[0] * strokes.step[feet.beam[0]]
    assert at == pytest.approx([333.0, 20.0])


def test_no_foot_lies_across_a_gap():
    """Metal near another, thinner stroke across a gap stays with its own."""
    wide, thin, joint = box(0, 0, 600, 100), box(0, 103, 600, 113), box(0, 90, 10, 110)
    outline = Outline.from_geometry(shapely.union_all([wide, thin, joint]))
    strip = stations(medial_axis(outline), 0)
    strokes = Strokes.of(strip)
    feet = strokes.feet(np.column_stack([np.linspace(100, 500, 50), np.full(50, 98.0)]))
    middle = 0.5 * (strip.xy[strip.first] + strip.xy[strip.last])
    assert middle[feet.beam, 1] == pytest.approx(50.0, abs=1.0)
