"""Best places for a number of holes."""

import numpy as np
import pytest
from graphs import NO_XY, NONE, path, ring, star, wanted

from holeplacer.placement.fewest import fewest
from holeplacer.placement.keeping import Owed
from holeplacer.placement.p_center import STEP, centred, tightened
from holeplacer.placement.watch import Watch


def owed(axis):
    return Owed(axis, NO_XY, 1.0, (0.0, 0.0), None)


@pytest.mark.parametrize("count", [1, 2, 5])
def test_ring(count):
    """On a ring holes stand evenly, and none is known to be tighter by more than a step."""
    axis = ring(1000.0)
    found = centred(wanted(axis, 100.0), NONE, count, owed(axis), Watch(), tries=30)
    assert len(found.cover.holes) == count
    assert found.cover.tightness == pytest.approx(1000 / (2 * count) / 100)
    assert found.least >= found.cover.tightness * (1 - 1.5 * STEP)


def test_best_arms_are_chosen():
    """Which arms get the holes is decided, not only where on them."""
    axis = star(400.0, 100.0, 100.0)
    found = centred(wanted(axis, 100.0), NONE, 2, owed(axis), Watch(), tries=30)
    assert found.cover.tightness == pytest.approx(1.25, rel=STEP)


def test_more_than_needed():
    """Spare holes make spans shorter."""
    axis = path(1000.0)
    found = centred(wanted(axis, 300.0), NONE, 8, owed(axis), Watch(), tries=30)
    np.testing.assert_allclose(np.sort(found.cover.holes.s), 62.5 + 125 * np.arange(8), atol=1)


def test_cover_improved():
    """The fewest, spread: tightness below that of the cover, the count unchanged."""
    axis = path(850.0)
    cover = fewest(wanted(axis, 150.0), NONE, Watch())
    best = tightened(wanted(axis, 150.0), cover, owed(axis), Watch(), tries=10).cover
    assert len(best.holes) == len(cover.holes) == 3
    assert best.tightness == pytest.approx(850 / 6 / 150)
