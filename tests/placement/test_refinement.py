"""Sliding holes to even places."""

import numpy as np
import pytest
from graphs import NONE, graph, path, star, wanted
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import csr_array

from holeplacer.medial_axis import ways
from holeplacer.placement.refinement import Holes, evened, peaks


def layout(found, branch, s):
    s = np.asarray(s, float)
    return Holes(found.room, found.room.holding(np.asarray(branch), s), s, NONE)


def test_even_on_a_stroke():
    """From anywhere, holes of a stroke end evenly: (2i - 1) L / 2n."""
    found = wanted(path(1000.0), 100.0)
    holes, now = evened(found, layout(found, [0] * 4, [10.0, 20.0, 30.0, 990.0]))
    np.testing.assert_allclose(np.sort(holes.s), [125, 375, 625, 875], atol=1e-6)
    assert now.tightness.max() == pytest.approx(1.25)


def test_tips_are_served_as_well():
    """Overhang counts against its own limit: ends 50 of 100, spans 300 of 600 and even."""
    found = wanted(path(400.0, reach=10.0), 300.0, 60.0)
    holes, now = evened(found, layout(found, [0, 0], [150.0, 250.0]))
    assert now.tightness.max() == pytest.approx(4 / 7.2, rel=0.2)
    assert np.sort(holes.s)[0] == pytest.approx(400 - np.sort(holes.s)[1])


def test_next_worst_too():
    """Where the worst can't be helped, the next worst still is."""
    clear = np.where((np.arange(301) > 100) & (np.arange(301) < 200), 2.0, 10.0)
    axis = graph([(0, 0), (300, 0)], [(0, 1)], clearance=[clear], steps=301)
    found = wanted(axis, 60.0)
    holes, now = evened(found, layout(found, [0, 0, 0], [90.0, 210.0, 220.0]))
    neck = found.room.low[1]
    assert now.way.max() == pytest.approx(neck / 3)
    np.testing.assert_allclose(np.sort(now.way)[:3], (300 - neck) / 3, rtol=1e-6)
    assert np.sort(holes.s)[:2] == pytest.approx([neck / 3, neck])


def test_stops_when_good_enough():
    """Nothing moves once everything is served."""
    found = wanted(path(200.0), 150.0)
    start = layout(found, [0], [80.0])
    holes, _ = evened(found, start, enough=1.0)
    assert holes.s.tolist() == [80.0]


@settings(max_examples=25, deadline=None)
@given(st.lists(st.floats(0, 1), min_size=3, max_size=6), st.integers(0, 2**32 - 1))
def test_never_worse(shares, seed):
    """The greatest tightness never grows, and holes stay on their stretches."""
    rng = np.random.default_rng(seed)
    axis = star(*rng.uniform(50, 300, 3).tolist())
    found = wanted(axis, 80.0, 60.0)
    branch = rng.integers(0, 3, len(shares))
    start = layout(found, branch, np.array(shares) * ways.network(axis).length[branch])
    before = peaks(found, start).tightness.max()
    holes, now = evened(found, start)
    assert now.tightness.max() <= before + 1e-9
    assert (holes.room.low[holes.stretch] <= holes.s).all()
    assert (holes.s <= holes.room.high[holes.stretch]).all()


def test_slopes_are_derivatives():
    """A small slide changes each way by its slope."""
    axis = star(200.0, 150.0, 300.0)
    found = wanted(axis, 80.0, 60.0)
    start = layout(found, [0, 2, 2], [150.0, 100.0, 220.0])
    now = peaks(found, start)
    slide = np.array([0.01, -0.02, 0.015])
    after = peaks(found, start.slid(slide))
    np.testing.assert_allclose(after.way, now.way + now.slopes @ slide, atol=1e-9)


class Still:
    """Keeps everything where it is."""

    def kept(self, holes):
        return False

    def rows(self, holes, slide_mm):
        return csr_array((0, len(holes))), np.empty(0)


def test_what_must_stay_true():
    """Slides that break it are not made."""
    found = wanted(path(1000.0), 100.0)
    start = layout(found, [0, 0], [10.0, 20.0])
    holes, _ = evened(found, start, keeps=Still())
    assert holes.s.tolist() == [10.0, 20.0]


def test_unserved_are_those_a_hair_too_far():
    """A way longer than the radius by more than rounding; tighter, more of them."""
    asked = wanted(path(600.0), 150.0)
    found = peaks(asked, layout(asked, [0, 0], [150.0, 450.001]))
    assert found.way[found.unserved()] == pytest.approx([150.0005])
    assert not found.served()
    assert found.served(1.0001)
    assert len(found.unserved(0.9)) > 1
