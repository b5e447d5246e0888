"""Local swellings with fillets."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.outline import boss
from holeplacer.outline.outline import Outline


def outline_of(*parts):
    return Outline.from_geometry(shapely.union_all(parts))


BAR = outline_of(shapely.box(0, 0, 100, 10))
RING = outline_of(
    shapely.Point(0, 0)
    .buffer(40, quad_segs=60)
    .difference(shapely.Point(0, 0).buffer(28, quad_segs=60))
)
WAVE = outline_of(
    shapely.LineString([(x, 15 * math.sin(x / 25)) for x in range(0, 240, 3)]).buffer(5, 16)
)


def vertices(outline):
    return {tuple(xy) for xy in shapely.get_coordinates(outline.region).tolist()}


def concave_corners(outline, other):
    """Turns of more than 20 degrees towards the metal at vertices that another outline lacks."""
    old, found = vertices(other), []
    for piece in outline.pieces:
        for ring in (piece.polygon.exterior, *piece.polygon.interiors):
            xy = np.array(ring.coords)[:-1]
            before, after = xy - np.roll(xy, 1, 0), np.roll(xy, -1, 0) - xy
            cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
            turn = np.degrees(np.arctan2(cross, (before * after).sum(1)))
            found += [
                tuple(at)
                for at, t in zip(xy.tolist(), turn, strict=True)
                if t < -20 and tuple(at) not in old
            ]
    return found


@pytest.mark.parametrize(
    ("outline", "x", "y"),
    [
        (BAR, 50, 5),
        (BAR, 50, 2),
        (BAR, 97, 5),
        (BAR, 1, 1),
        (RING, 34, 0),
        (RING, 0, 30),
        (WAVE, 39.27, 15),
    ],
    ids=["middle", "near the edge", "end", "corner", "round a counter", "into a counter", "wave"],
)
@pytest.mark.parametrize("blend", [1.0, 6.0, 20.0])
def test_boss_gives_the_distance_and_blends(outline, x, y, blend):
    """The centre has its distance, nothing is cut away, no sharp inner corner is made."""
    found = boss.with_boss(outline, x, y, 9.0, blend)
    assert found.edge_distance((x, y))[0] >= 9.0 - 1e-9
    assert outline.region.difference(found.region).area < 1e-9
    assert found.region.is_valid
    assert [p.counters for p in found.pieces] == [p.counters for p in outline.pieces]
    assert concave_corners(found, outline) == []


@settings(max_examples=40, deadline=None)
@given(st.floats(0, 235), st.floats(-4, 4), st.floats(0.3, 9), st.floats(0.5, 15))
def test_boss_against_closing(x, across, more, blend):
    """It is the disc united with the stroke and closed by a ball, as buffering there and back."""
    y = 15 * math.sin(x / 25) + across
    (distance,) = WAVE.edge_distance((x, y))
    if distance < 0.2:
        return
    radius = float(distance) + more
    found = boss.with_boss(WAVE, x, y, radius, blend).region
    disc = shapely.Point(x, y).buffer(radius, quad_segs=200)
    bare = WAVE.region.union(disc)
    judge = bare.buffer(blend, quad_segs=200).buffer(-blend, quad_segs=200)
    near = shapely.Point(x, y).buffer(radius)
    assert bare.difference(found).area < 1e-3
    assert found.difference(judge.buffer(0.02)).area < 0.05
    assert judge.intersection(near).difference(found.buffer(0.02)).area < 0.05


def test_other_vertices_stay_bit_for_bit():
    """Vertices further than the boss reaches are the very same numbers."""
    sign = outline_of(WAVE.region, shapely.Point(300, 0).buffer(7.123))
    found = boss.with_boss(sign, 39.27, 15.0, 9.0, 6.0)
    lost = np.array(sorted(vertices(sign) - vertices(found)))
    assert len(lost)
    assert np.hypot(*(lost - (39.27, 15.0)).T).max() < 9 + 2 * 6
    assert found.pieces[1].polygon.equals_exact(sign.pieces[1].polygon, 0)


def test_enough_metal_needs_no_boss():
    """Where the distance is there already, the outline itself comes back."""
    assert boss.with_boss(BAR, 50, 5, 4.0, 3.0) is BAR


@pytest.mark.parametrize(
    ("parts", "what"),
    [
        ([shapely.box(0, 0, 100, 10), shapely.box(0, 14, 100, 20)], "next piece"),
        (
            [shapely.box(0, 0, 100, 10), shapely.box(0, 14, 100, 24), shapely.box(-9, 0, 0, 24)],
            "neighbouring stroke",
        ),
        (
            [shapely.box(0, 0, 100, 10).difference(shapely.box(48, 7, 52, 9))],
            "close a counter",
        ),
        (
            [shapely.box(0, 0, 100, 30).difference(shapely.box(10, 10, 90, 14))],
            "bridge a counter",
        ),
    ],
    ids=["piece", "stroke", "closes", "bridges"],
)
def test_bridges_are_refused(parts, what):
    """A boss that would change what is connected is refused with a sentence that says so."""
    with pytest.raises(InputError, match=what):
        boss.with_boss(outline_of(*parts), 50, 4, 12.0, 3.0)


def test_fillets_keep_clear_of_a_neighbouring_stroke():
    """Where large fillets would bridge to the next stroke, smaller ones are taken instead."""
    fork = outline_of(
        shapely.box(0, 0, 100, 10), shapely.box(0, 16, 100, 26), shapely.box(-9, 0, 0, 26)
    )
    found = boss.with_boss(fork, 50, 5, 9.0, 40.0)
    assert found.edge_distance((50, 5))[0] >= 9 - 1e-9
    assert [piece.counters for piece in found.pieces] == [0]
    assert concave_corners(found, fork) == []


def test_narrow_notch_gets_a_smaller_ball():
    """Where the blend's ball does not fit, a smaller one fillets the corner all the same."""
    slot = outline_of(shapely.box(0, 0, 100, 30).difference(shapely.box(60, 12, 101, 16)))
    found = boss.with_boss(slot, 55, 14, 8.0, 10.0)
    assert concave_corners(found, slot) == []
    assert found.edge_distance((55, 14))[0] >= 8 - 1e-9


@pytest.mark.parametrize(
    ("x", "y", "radius", "blend", "what"),
    [
        (50, 20, 9, 3, "outside the metal"),
        (50, 5, 0, 3, "more than 0"),
        (50, 5, 9, -1, "more than 0"),
        (math.nan, 5, 9, 3, "more than 0"),
    ],
)
def test_impossible_boss_is_refused(x, y, radius, blend, what):
    """A centre off the metal or a size that is none is an input error."""
    with pytest.raises(InputError, match=what):
        boss.with_boss(BAR, x, y, radius, blend)
