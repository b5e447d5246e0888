"""What one hole more buys."""

from dataclasses import replace

import numpy as np
import pytest
from graphs import strokes

from holeplacer.errors import Cancelled
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.placement.count_curve import count_curve
from holeplacer.placement.propose import propose
from holeplacer.plan.hole import Hole


@pytest.fixture(scope="module")
def sign():
    outline = strokes([[(0, 0), (900, 0)], [(0, 200), (300, 200)]])
    return outline, medial_axis(outline)


def test_falls(plan, sign):
    """Spans fall with every hole; the fewest that keep the limits is where tightness passes 1."""
    curve = count_curve(plan, *sign, range(1, 10))
    assert [point.count for point in curve] == list(range(2, 10))
    spans = [point.largest_span_mm for point in curve]
    assert spans == sorted(spans, reverse=True)
    first = next(point.count for point in curve if point.tightness <= 1 + 1e-6)
    assert first == propose(plan, *sign).count


def test_never_rises(plan):
    """On a chain of rings, where a better layout is hard to find, spans never grow with holes."""
    rings = [
        [(x + 90 * np.cos(t), 90 * np.sin(t)) for t in np.linspace(0, 2 * np.pi, 40)]
        for x in (0, 260, 520)
    ]
    links = [[(x + 90, 0), (x + 170, 0)] for x in (0, 260, 520)]
    outline = strokes([*rings, *links])
    curve = count_curve(plan, outline, medial_axis(outline), range(2, 16))
    spans = [point.largest_span_mm for point in curve]
    assert len(spans) == 14
    assert spans == sorted(spans, reverse=True)
    assert spans[-1] < spans[0] / 3


def test_fixed_holes_count(plan, sign):
    """Fixed holes are among the number."""
    fixed = replace(plan, holes=(Hole(1, 450.0, 0.0, fixed=True),))
    assert [point.count for point in count_curve(fixed, *sign, range(2, 4))] == [2, 3]


def test_cancel(plan, sign):
    """The person stops it."""
    with pytest.raises(Cancelled):
        count_curve(plan, *sign, range(2, 9), cancelled=lambda: True)


def test_nothing_in_range(plan, sign):
    """No number that the pieces can do with: no points."""
    assert count_curve(plan, *sign, range(1, 2)) == ()
