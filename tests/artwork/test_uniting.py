"""Areas united: bit for bit, without crumbs, and told."""

import numpy as np
import pytest
import shapely
from shapely.geometry import MultiPolygon, Polygon

from holeplacer.artwork import uniting
from holeplacer.artwork.uniting import rings_of, unite
from holeplacer.errors import ArtworkError

TOLERANCE = 0.02


def test_overlapping_shapes_become_one_and_others_stay_as_they_are() -> None:
    """With a place in each overlap."""
    apart = shapely.box(50, 0, 60, 10)
    united = unite([shapely.box(0, 0, 10, 10), apart, shapely.box(8, 0, 20, 10)], TOLERANCE)
    assert sorted(part.area for part in united.polygons) == [100, 200]
    assert united.overlaps == ((9, 5),)
    assert any(part is apart or part.equals_exact(apart) for part in united.polygons)


def test_drawn_vertices_keep_their_coordinates_bit_for_bit() -> None:
    """Only crossings are new."""
    rng = np.random.default_rng(5)
    turn = np.linspace(0, 2 * np.pi, 300, endpoint=False)
    rings = [
        np.column_stack([np.cos(turn), np.sin(turn)]) * 30 + rng.uniform(-20, 20, 2)
        for _ in range(6)
    ]
    drawn = {tuple(point) for ring in rings for point in ring.tolist()}
    united = unite([Polygon(ring) for ring in rings], TOLERANCE)
    after = [tuple(p) for part in united.polygons for ring in rings_of(part) for p in ring.tolist()]
    new = [point for point in after if point not in drawn]
    assert len(after) > 300
    assert 0 < len(new) < 60


def test_crumbs_are_dropped_and_slits_filled() -> None:
    """A splinter beside two glyphs and a hairline gap between them; a thin stroke stays."""
    splinter = Polygon([(0, 20), (10, 20), (5, 20.01)])
    glyph = Polygon(shapely.box(0, 0, 10, 10).exterior, [shapely.box(2, 5, 8, 5.01).exterior])
    thin = shapely.box(20, 0, 20.1, 10)
    united = unite([splinter, glyph, thin], TOLERANCE)
    assert sorted(part.area for part in united.polygons) == pytest.approx([1, 100])
    assert len(united.crumbs) == 2


def test_touching_points_are_told() -> None:
    """Two pieces that meet in a corner, and a counter that meets its outer contour."""
    united = unite([shapely.box(0, 0, 10, 10), shapely.box(10, 10, 20, 20)], TOLERANCE)
    assert united.touching == ((10, 10),)
    assert len(united.polygons) == 2
    assert united.overlaps == ()
    pinched = Polygon([(0, 0), (10, 0), (10, 10), (0, 10)], [[(0, 0), (5, 2), (2, 5)]])
    assert unite([pinched], TOLERANCE).touching == ((0, 0),)
    assert unite([shapely.box(0, 0, 1, 1)], TOLERANCE).touching == ()


def test_nothing_united_is_nothing() -> None:
    """No shapes, or shapes without area."""
    assert unite([], TOLERANCE).polygons == ()
    assert unite([Polygon()], TOLERANCE).polygons == ()


def test_more_overlaps_than_any_lettering_has_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Before any is united."""
    monkeypatch.setattr(uniting, "MOST_OVERLAPS", 100)
    with pytest.raises(ArtworkError, match="more than 100 of its shapes overlap"):
        unite([shapely.box(i / 100, 0, 1 + i / 100, 1) for i in range(20)], TOLERANCE)


def test_a_lattice_of_bars_is_refused_by_its_crossings() -> None:
    """120 x 120 bars cross 57 600 times."""
    bars = [shapely.box(i * 10, 0, i * 10 + 5, 1200) for i in range(120)]
    bars += [shapely.box(0, i * 10, 1200, i * 10 + 5) for i in range(120)]
    with pytest.raises(ArtworkError, match="cross each other more than"):
        unite(bars, TOLERANCE)


def test_parts_of_one_region_that_touch_are_no_overlap(monkeypatch: pytest.MonkeyPatch) -> None:
    """They meet in points at most, so that a region of many parts needs no uniting."""
    monkeypatch.setattr(uniting, "MOST_OVERLAPS", 0)
    chain = MultiPolygon([shapely.box(i, i, i + 1, i + 1) for i in range(20)])
    united = unite([chain], TOLERANCE)
    assert len(united.polygons) == 20
    assert len(united.touching) == 19
