"""All strokes fatter or thinner."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.outline import offset
from holeplacer.outline.outline import Outline

BAR = Outline.from_geometry(shapely.box(0, 0, 100, 10))
RING = Outline.from_geometry(
    shapely.Point(0, 0)
    .buffer(20, quad_segs=90)
    .difference(shapely.Point(0, 0).buffer(4, quad_segs=90))
)


def test_fatter_bar_has_round_corners():
    """Area grows by perimeter times offset plus one whole disc at the corners."""
    area = offset.offset(BAR, 2.0).area_mm2
    assert area == pytest.approx(1000 + 220 * 2 + math.pi * 4, abs=0.03)


def test_thinner_bar_keeps_square_corners():
    """Inwards the corners stay sharp."""
    found = offset.offset(BAR, -2.0)
    assert found.bounds_mm == (2, 2, 98, 8)
    assert found.area_mm2 == pytest.approx(96 * 6)


@settings(max_examples=40, deadline=None)
@given(st.floats(-4, 6), st.floats(5, 95), st.floats(0.5, 9.5))
def test_edge_distance_grows_by_the_offset(mm, x, y):
    """Every place's distance to the edge grows by just the offset, on a shape without gaps."""
    before, after = (o.edge_distance((x, y))[0] for o in (BAR, offset.offset(BAR, mm)))
    if before + mm > 0:
        assert after == pytest.approx(before + mm, abs=offset.TOLERANCE_MM)


WAVE = Outline.from_geometry(
    shapely.LineString([(x, 15 * math.sin(x / 9)) for x in range(0, 200, 2)]).buffer(6, 4)
)


@pytest.mark.parametrize("mm", [0.3, 1.0, 4.0, -1.0, -3.0])
def test_the_new_edge_is_one_offset_away_everywhere(mm):
    """On a coarse wavy stroke no point of the new edge strays further than the tolerance."""
    edge = offset.offset(WAVE, mm).boundary.segmentize(0.2)
    apart = shapely.length(
        shapely.shortest_line(WAVE.boundary, shapely.points(shapely.get_coordinates(edge)))
    )
    assert apart == pytest.approx(abs(mm), abs=offset.STRAY_MM)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.001, 500), st.floats(0.001, 0.5))
def test_joins_stray_no_further_than_the_tolerance(radius, tolerance):
    """The sagitta of a join's chords is within the tolerance, and no finer than two of them."""
    segments = offset.quarter_segments(radius, tolerance)
    assert radius * (1 - math.cos(math.pi / 4 / segments)) <= tolerance * (1 + 1e-9)
    if segments > 2:
        assert radius * (1 - math.cos(math.pi / 4 / (segments - 1))) > tolerance


def test_closed_counter_is_told():
    """A counter that closes is named with a place inside it."""
    after = offset.offset(RING, 4.5)
    (change,) = offset.changes(RING, after)
    assert change.what == "counter closed"
    assert np.hypot(*change.xy_mm) < 4
    assert offset.changes(RING, offset.offset(RING, 3.0)) == ()


def test_joined_pieces_are_told():
    """Two pieces that grow together are named with the place between them."""
    two = Outline.from_geometry(
        shapely.union_all([shapely.box(0, 0, 10, 10), shapely.box(12, 0, 20, 10)])
    )
    (change,) = offset.changes(two, offset.offset(two, 1.5))
    assert change.what == "pieces joined"
    assert change.xy_mm[0] == pytest.approx(11)


def test_lost_and_parted_pieces_are_told():
    """A piece that vanishes and a dumb-bell that parts are named."""
    dumb_bell = shapely.union_all(
        [shapely.box(0, 0, 10, 10), shapely.box(10, 4, 20, 6), shapely.box(20, 0, 30, 10)]
    )
    sign = Outline.from_geometry(shapely.union_all([dumb_bell, shapely.box(50, 0, 52, 2)]))
    after = offset.offset(sign, -1.5)
    assert len(after.pieces) == 2
    assert [change.what for change in offset.changes(sign, after)] == ["piece parted", "piece lost"]


def test_nothing_left_is_an_error():
    """An offset that eats all metal is refused, and so is no number."""
    with pytest.raises(InputError, match="leave no metal"):
        offset.offset(BAR, -6)
    with pytest.raises(InputError, match="not a length"):
        offset.offset(BAR, math.nan)


def test_no_offset_is_the_same_outline():
    """Zero gives the identical value back."""
    assert offset.offset(BAR, 0.0) is BAR
