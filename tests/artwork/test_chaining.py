"""Loose segments in any order and sense, with gaps and extras, give the contours they came from."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork import chaining
from holeplacer.artwork.chaining import Chained, chained
from holeplacer.artwork.drawing import DrawnContour, DrawnSegment, LooseLines
from holeplacer.artwork.rings import flattened_rings
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import CircularArc, Curve, Points, Polyline, cubic
from holeplacer.geometry.trim import reversed_curve

REACH = 0.1


def line(*points: tuple[float, float]) -> Polyline:
    return Polyline(np.array(points, float))


def joined(*curves: Curve, lines: Points | None = None) -> Chained:
    loose = [DrawnSegment(curve, "L", "LINE") for curve in curves]
    bulk = [] if lines is None else [LooseLines(lines, "B", "LINE")]
    return chained(loose, bulk, REACH)


def polygons(contours: tuple[DrawnContour, ...]) -> list[shapely.Polygon]:
    return [shapely.Polygon(ring) for ring in flattened_rings(contours, 0.02).rings]


def polygon_lines(points: Points) -> list[Polyline]:
    return [
        line(tuple(a), tuple(b)) for a, b in zip(points, np.roll(points, -1, axis=0), strict=True)
    ]


SQUARE = np.array([[0.0, 0], [10, 0], [10, 10], [0, 10]])


@settings(max_examples=60, deadline=None)
@given(data=st.data(), corners=st.integers(3, 9))
def test_shuffled_reversed_gapped_segments_give_the_same_contour(
    data: st.DataObject, corners: int
) -> None:
    """Lines, arcs and Beziers round a ring, shuffled, turned round, ends moved within reach."""
    turn = np.arange(corners) * math.tau / corners
    points = np.column_stack([np.cos(turn), np.sin(turn)]) * 50
    apart = st.floats(-0.03, 0.03)
    segments: list[Curve] = []
    for a, b in zip(points, np.roll(points, -1, axis=0), strict=True):
        a, b = (end + [data.draw(apart), data.draw(apart)] for end in (a, b))  # noqa: RUF005 (vectors)
        kind = data.draw(st.sampled_from(["line", "bezier"]))
        curve = line(tuple(a), tuple(b)) if kind == "line" else cubic(a, a * 1.2, b * 1.2, b)
        segments.append(reversed_curve(curve) if data.draw(st.booleans()) else curve)
    found = joined(*data.draw(st.permutations(segments)))
    assert (len(found.contours), found.open, found.branches) == (1, (), ())
    (area,) = (polygon.area for polygon in polygons(found.contours))
    exact = [
        np.array([curve.xy[0], curve.xy[-1]]) if isinstance(curve, Polyline) else curve.control
        for curve in segments
    ]
    hull = shapely.MultiPoint(np.concatenate(exact)).convex_hull
    assert shapely.Polygon(points).area * 0.99 <= area <= hull.area * 1.01


def test_lines_become_one_closed_polyline() -> None:
    """Loose ones and those in bulk alike."""
    (contour,) = joined(*polygon_lines(SQUARE)).contours
    (segment,) = contour.segments
    assert isinstance(segment.curve, Polyline)
    assert segment.curve.closed
    assert (len(segment.curve.xy), segment.layer, segment.kind) == (4, "L", "LINE")
    bulk = np.stack([SQUARE, np.roll(SQUARE, -1, axis=0)], axis=1)[::-1]
    (contour,) = joined(lines=bulk).contours
    assert contour.segments[0].layer == "B"
    assert polygons((contour,))[0].equals(shapely.Polygon(SQUARE))


def test_two_lines_meet_half_way_and_a_line_gives_way_to_a_curve() -> None:
    """Gaps are closed without a tiny extra step, and told with place and width."""
    arc = CircularArc((5.0, 0.0), 5.0, 0.0, math.pi)
    found = joined(
        arc, line((0, 0.06), (0, -5)), line((0, -5.04), (10, -5)), line((10, -5), (10, 0))
    )
    (contour,) = found.contours
    (ring,) = flattened_rings(found.contours, 0.02).rings
    assert ring[np.abs(ring[:, 0]) < 1e-9][:, 1].min() == pytest.approx(-5.02)
    assert len(contour.segments) == 2
    assert sorted(width for _, width in found.gaps) == pytest.approx([0.04, 0.06])


def test_curves_that_miss_each_other_keep_their_ends() -> None:
    """Two half circles 0.05 apart are bridged when they are flattened."""
    halves = [
        CircularArc((5.0, 0.0), 5.0, 0.0, math.pi),
        CircularArc((5.0, -0.05), 5.0, 0.0, -math.pi),
    ]
    found = joined(*halves)
    assert len(found.contours) == 1
    assert len(flattened_rings(found.contours, 0.02).bridges) == 2


def test_an_open_contour_is_left_out_with_its_gap_and_place() -> None:
    """Three sides of a square, and a gap too wide to close."""
    found = joined(*polygon_lines(SQUARE)[:3])
    assert found.contours == ()
    (chain,) = found.open
    assert (chain.layer, chain.kind, chain.gap) == ("L", "LINE", 10)
    assert chain.end in {(0, 0), (0, 10)}


def test_tails_are_cut_off_and_told() -> None:
    """A stray line at a corner, and one between two contours, leave the contours whole."""
    other = SQUARE + 30
    found = joined(
        *polygon_lines(SQUARE),
        line((10, 10), (20, 15)),
        *polygon_lines(other),
        line((10, 0), (30, 30)),
    )
    assert sorted(part.area for part in polygons(found.contours)) == pytest.approx([100, 100])
    assert len(found.open) == 2


def test_contours_that_share_a_corner_are_both_found() -> None:
    """Four ends at one node: two loops."""
    found = joined(*polygon_lines(SQUARE), *polygon_lines(SQUARE + 10))
    assert [part.area for part in polygons(found.contours)] == pytest.approx([100, 100])


def test_contours_that_share_two_corners_enclose_what_even_odd_says() -> None:
    """A square within a diamond, corners on corners."""
    inner = np.array([[0.0, -5], [5, 0], [0, 5], [-5, 0]])
    outer = np.array([[-5.0, 0], [0, -15], [5, 0], [0, 15]])
    parts = polygons(joined(*polygon_lines(inner), *polygon_lines(outer)).contours)
    region = parts[0]
    for part in parts[1:]:
        region = region.symmetric_difference(part)
    assert region.area == pytest.approx(150 - 50)


def test_an_edge_that_two_contours_share_is_no_wall_and_a_spur_no_news() -> None:
    """Drawn twice on top of itself, it bounds nothing; told once as drawn twice."""
    found = joined(*polygon_lines(SQUARE), *polygon_lines(SQUARE + [10, 0]))  # noqa: RUF005 (vectors)
    (merged,) = polygons(found.contours)
    assert merged.area == pytest.approx(200)
    assert len(found.repeated) == 1
    spur = joined(*polygon_lines(SQUARE), line((0, 0), (-5, 0)), line((-5, 0), (0, 0)))
    assert [part.area for part in polygons(spur.contours)] == [100]
    assert spur.open == ()


def test_a_contour_drawn_twice_is_found_once() -> None:
    """Every segment repeated, in another order."""
    found = joined(*polygon_lines(SQUARE), *polygon_lines(SQUARE[::-1]))
    assert [part.area for part in polygons(found.contours)] == [100]
    assert len(found.repeated) == 4


def test_a_wall_across_a_contour_is_ambiguous_and_pointed_at() -> None:
    """Three ends meet at two places: which way the contour goes can't be told."""
    found = joined(*polygon_lines(SQUARE), line((0, 0), (10, 10)))
    assert found.contours == ()
    assert sorted(found.branches) == [((0, 0), 3), ((10, 10), 3)]


def test_an_arc_all_round_closes_on_itself() -> None:
    """One curve whose two ends lie within reach."""
    found = joined(CircularArc((0.0, 0.0), 10.0, 0.0, math.tau - 0.005))
    assert [part.area for part in polygons(found.contours)] == pytest.approx([314], abs=1)


def test_arrays_of_the_drawing_are_not_changed() -> None:
    """Joining moves ends of copies."""
    first, second = line((0, 0), (5, 0), (5, 5)), line((5, 5.05), (0, 0.05))
    before = first.xy.copy(), second.xy.copy()
    arc = CircularArc((0.0, 2.5), 2.5, math.pi / 2, math.pi)
    joined(first, second)
    joined(first, line((5, 5), (0.04, 5)), arc)
    np.testing.assert_array_equal(first.xy, before[0])
    np.testing.assert_array_equal(second.xy, before[1])


def test_nothing_loose_is_nothing() -> None:
    """No segments, no work."""
    assert (joined().contours, joined().open, joined().gaps) == ((), (), ())


def test_hatching_is_refused_by_its_loose_ends(monkeypatch: pytest.MonkeyPatch) -> None:
    """Lines that close are no matter, however many; ends where nothing goes on are counted."""
    monkeypatch.setattr(chaining, "MOST_LOOSE", 4)
    hatching = [line((0, i), (5, i)) for i in range(20, 23)]
    assert len(joined(*polygon_lines(SQUARE), *hatching[:2]).contours) == 1
    with pytest.raises(ArtworkError, match="more than 4 of its lines end where nothing goes on"):
        joined(*polygon_lines(SQUARE), *hatching)
