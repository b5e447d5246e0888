"""Distance between holes and the base that holds a piece."""

import numpy as np
import pytest
from graphs import NO_XY, NONE, path, wanted

from holeplacer.placement.keeping import Owed
from holeplacer.placement.refinement import Holes, evened, parted, peaks


def layout(found, s):
    s = np.asarray(s, float)
    return Holes(found.room, np.zeros(len(s), np.intp), s, NONE)


@pytest.fixture
def found():
    return wanted(path(300.0), 200.0)


def owed(found, apart=20.0, base=None, stays=NO_XY):
    return Owed(found.axis, stays, apart, (150.0, 0.0), base)


def test_too_near(found):
    """Pairs nearer than allowed; exactly as near as allowed is kept."""
    assert owed(found).too_near(layout(found, [0.0, 20.0, 39.9])).tolist() == [[1, 2]]
    assert owed(found).kept(layout(found, [0.0, 20.0]))


def test_held(found):
    """Far enough apart, around the centre of gravity; a hole that stays counts."""
    asked = owed(found, base=100.0)
    assert asked.held(layout(found, [100.0, 200.0]))
    assert not asked.held(layout(found, [110.0, 200.0]))
    assert not asked.held(layout(found, [160.0, 300.0]))
    stays = owed(found, base=100.0, stays=np.array([[60.0, 0.0]]))
    assert stays.held(layout(found, [170.0]))


def test_kept_while_holes_slide(found):
    """Evening two holes stops where they would come too near, or the base too short."""
    start = layout(found, [20.0, 280.0])
    near, _ = evened(found, start, keeps=owed(found, apart=200.0))
    assert np.ptp(near.s) >= 200.0 - 1e-6
    assert np.ptp(near.s) < 240.0
    base, _ = evened(found, start, keeps=owed(found, base=180.0))
    assert np.ptp(base.s) >= 180.0 - 1e-6
    free, _ = evened(found, start)
    assert np.ptp(free.s) == pytest.approx(150.0)


def test_parted(found):
    """Holes that are too near are slid apart, and a base made, all still served."""
    for rule in (owed(found, apart=60.0), owed(found, base=110.0)):
        near = layout(found, [125.0, 170.0])
        assert not rule.kept(near)
        apart = parted(found, near, rule)
        assert rule.kept(apart)
        assert peaks(found, apart).tightness.max() <= 1 + 1e-9


def test_not_parted(found):
    """Where service leaves no room, holes are not slid apart."""
    tight = wanted(path(300.0), 80.0)
    assert parted(tight, layout(tight, [75.0, 225.0]), owed(tight, apart=180.0)) is None
    assert parted(found, layout(found, [150.0]), owed(found, base=50.0)) is None
