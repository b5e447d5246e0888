"""Metal too narrow for a hole."""

import pytest
import shapely

from holeplacer.outline import thin_strokes
from holeplacer.outline.outline import Outline

NECK = Outline.from_geometry(
    shapely.union_all(
        [shapely.box(0, 0, 40, 20), shapely.box(40, 8, 100, 14), shapely.box(100, 0, 140, 20)]
    )
)


def test_neck_is_found_with_its_place():
    """The narrow part between two wide ones is one thin stroke."""
    (found,) = thin_strokes.thin_strokes(NECK, 12.0)
    assert found.piece == 0
    assert 40 < found.xy_mm[0] < 100
    assert found.area_mm2 == pytest.approx(60 * 6, rel=0.03)


def test_corners_are_not_thin():
    """A bar as wide as asked has no thin strokes, though no disc fills its corners."""
    bar = Outline.from_geometry(shapely.box(0, 0, 100, 20))
    assert thin_strokes.thin_strokes(bar, 19.9) == ()
    (whole,) = thin_strokes.thin_strokes(bar, 20.2)
    assert whole.area_mm2 == pytest.approx(2000)


def test_largest_comes_first_over_pieces():
    """Thin strokes of all pieces, by area."""
    sign = Outline.from_geometry(
        shapely.union_all([shapely.box(0, 0, 20, 5), shapely.box(30, 0, 90, 5)])
    )
    assert [stroke.piece for stroke in thin_strokes.thin_strokes(sign, 8.0)] == [1, 0]
