"""Rings turn back into the drawn curves they were flattened from."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.geometry.curve import CircularArc, Curve, Polyline, Spline, cubic
from holeplacer.geometry.evaluate import points_at
from holeplacer.geometry.flatten import flatten_all
from holeplacer.outline.drawn import DrawnCurves
from holeplacer.outline.trace import Chords, Run, trace

KAPPA = 4 / 3 * math.tan(math.pi / 8)


def drawn_from(*curves: Curve, tolerance: float = 0.02) -> DrawnCurves:
    flat = flatten_all(curves, tolerance)
    blank = ("",) * len(curves)
    return DrawnCurves(curves, blank, blank, flat.xy, flat.curve, flat.t)


def rows_of(drawn: DrawnCurves, curve: int) -> np.ndarray:
    return drawn.xy[drawn.curve == curve]


def bezier_ring(x: float, y: float, r: float) -> list[Spline]:
    """Four cubic quarters, anticlockwise; ends shared bit for bit."""
    k = KAPPA * r
    corners = [(x + r, y), (x, y + r), (x - r, y), (x, y - r), (x + r, y)]
    handles = [
        ((x + r, y + k), (x + k, y + r)),
        ((x - k, y + r), (x - r, y + k)),
        ((x - r, y - k), (x - k, y - r)),
        ((x + k, y - r), (x + r, y - k)),
    ]
    return [
        cubic(np.array(p), np.array(a), np.array(b), np.array(q))
        for (p, q), (a, b) in zip(pairwise(corners), handles, strict=True)
    ]


def ring_of(drawn: DrawnCurves, *curves: int) -> np.ndarray:
    return np.vstack([rows_of(drawn, curve)[:-1] for curve in curves])


def walked(stretches: tuple[Run | Chords, ...], drawn: DrawnCurves) -> np.ndarray:
    """The ring's points, from the drawn points between the parameters of each run."""
    parts = []
    for stretch in stretches:
        if isinstance(stretch, Chords):
            parts.append(stretch.xy[:-1])
            continue
        rows = np.flatnonzero(drawn.curve == stretch.curve)
        low, high = sorted((stretch.t0, stretch.t1))
        t = drawn.t[rows]
        part = drawn.xy[rows[(t >= low) & (t <= high)]]
        falls = bool(t[-1] < t[0])
        parts.append((part if (stretch.t1 > stretch.t0) != falls else part[::-1])[:-1])
    return np.vstack(parts)


def test_a_whole_circle_is_one_run_wherever_the_ring_starts() -> None:
    """A closed curve comes back whole, over its full range, in both senses."""
    drawn = drawn_from(CircularArc((3.0, 4.0), 50.0, 0.7, 2 * math.pi))
    ring = drawn.xy[:-1]
    for shift in (0, 1, 17):
        rolled = np.roll(ring, shift, axis=0)
        assert trace(rolled, drawn) == (Run(0, 0.7, 0.7 + 2 * math.pi),)
        assert trace(rolled[::-1], drawn) == (Run(0, 0.7 + 2 * math.pi, 0.7),)


def test_a_repeated_first_vertex_changes_nothing() -> None:
    """A ring as shapely gives it, closed by repetition, traces the same."""
    drawn = drawn_from(Polyline(np.array([[0.0, 0], [4, 0], [4, 3]]), None, closed=True))
    assert trace(drawn.xy, drawn) == trace(drawn.xy[:-1], drawn) == (Run(0, 0.0, 3.0),)


def test_successive_curves_of_one_contour_are_one_run_each() -> None:
    """Curves joined end to end are told apart where they meet."""
    drawn = drawn_from(*bezier_ring(0, 0, 30))
    assert trace(ring_of(drawn, 0, 1, 2, 3), drawn) == tuple(Run(i, 0.0, 1.0) for i in range(4))


def test_a_ring_of_no_drawn_curve_is_chords_all_round() -> None:
    """What mending made is kept as straight steps, closed."""
    drawn = drawn_from(CircularArc((0.0, 0.0), 5.0, 0.0, 2 * math.pi))
    square = np.array([[0.0, 0], [1, 0], [1, 1], [0, 1]])
    (chords,) = trace(square, drawn)
    assert isinstance(chords, Chords)
    np.testing.assert_array_equal(chords.xy, np.vstack([square, square[:1]]))


def test_an_empty_table_and_an_empty_ring() -> None:
    """Nothing drawn, or no ring, is no special case for the caller."""
    empty = DrawnCurves((), (), (), np.zeros((0, 2)), np.zeros(0, np.intp), np.zeros(0))
    assert isinstance(trace(np.eye(3, 2), empty)[0], Chords)
    assert trace(np.zeros((0, 2)), empty) == ()


def test_minus_zero_is_zero() -> None:
    """A vertex that uniting gave back as -0.0 is still the drawn one."""
    drawn = drawn_from(Polyline(np.array([[0.0, 0], [4, 0], [0, 3]]), None, closed=True))
    ring = np.where(drawn.xy[:-1] == 0, -0.0, drawn.xy[:-1])
    assert trace(ring, drawn) == (Run(0, 0.0, 3.0),)


def test_a_step_that_skips_a_drawn_point_is_a_chord() -> None:
    """Two points of one curve are no stretch of it unless flattening put them side by side."""
    drawn = drawn_from(CircularArc((0.0, 0.0), 50.0, 0.0, 2 * math.pi))
    ring = np.delete(drawn.xy[:-1], 5, axis=0)
    stretches = trace(ring, drawn)
    (chord,) = [stretch for stretch in stretches if isinstance(stretch, Chords)]
    np.testing.assert_array_equal(chord.xy, drawn.xy[[4, 6]])
    assert {stretch.curve for stretch in stretches if isinstance(stretch, Run)} == {0}
    np.testing.assert_array_equal(
        np.unique(walked(stretches, drawn), axis=0), np.unique(ring, axis=0)
    )


@pytest.mark.parametrize("apart", [20.0, 45.0, 59.5])
def test_united_letters_are_trimmed_curves_joined_at_their_crossings(apart: float) -> None:
    """Where two glyphs overlap, all but the steps at the two crossings is still drawn curve."""
    drawn = drawn_from(*bezier_ring(0, 0, 30), *bezier_ring(apart, 3, 30))
    rings = [shapely.Polygon(ring_of(drawn, *range(first, first + 4))) for first in (0, 4)]
    united = shapely.get_coordinates(shapely.union_all(rings).exterior)
    stretches = trace(united, drawn)
    chords = [stretch for stretch in stretches if isinstance(stretch, Chords)]
    assert [len(part.xy) for part in chords] == [3, 3]
    for run in (stretch for stretch in stretches if isinstance(stretch, Run)):
        between = np.linspace(run.t0, run.t1, 50)
        on_curve = shapely.points(points_at(drawn.curves[run.curve], between))
        assert shapely.distance(shapely.LinearRing(united), on_curve).max() <= 0.02
    np.testing.assert_array_equal(
        np.unique(walked(stretches, drawn), axis=0), np.unique(united, axis=0)
    )


@settings(max_examples=40, deadline=None)
@given(
    kept=st.lists(st.booleans(), min_size=60, max_size=60),
    shift=st.integers(0, 59),
    backwards=st.booleans(),
)
def test_the_stretches_together_are_the_ring(kept: list[bool], shift: int, backwards: bool) -> None:
    """Whatever was cut away or moved, walking the stretches gives every vertex, in order."""
    drawn = drawn_from(*bezier_ring(0, 0, 30), tolerance=0.05)
    ring = ring_of(drawn, 0, 1, 2, 3)
    moved = ~np.resize(np.array(kept), len(ring))
    ring = np.roll(np.where(moved[:, None], ring * 1.01, ring), shift, axis=0)
    ring = ring[::-1] if backwards else ring
    stretches = trace(ring, drawn)
    again = walked(stretches, drawn)
    start = int(np.flatnonzero(np.all(ring == again[0], axis=1))[0])
    np.testing.assert_array_equal(again, np.roll(ring, -start, axis=0))
