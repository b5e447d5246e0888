"""Staying near an earlier layout."""

import numpy as np
import pytest
from graphs import NO_XY, NONE, path, wanted

from holeplacer.placement.fewest import fewest
from holeplacer.placement.keeping import Owed
from holeplacer.placement.near_places import layout
from holeplacer.placement.watch import Watch


@pytest.fixture
def case():
    found = wanted(path(600.0), 110.0)
    owed = Owed(found.axis, NO_XY, 20.0, (300.0, 0.0), None)
    return found, fewest(found, NONE, Watch()), owed


def test_good_places_stay(case):
    """Earlier holes that still serve are not moved."""
    found, cover, owed = case
    near = np.array([(95.0, 2.0), (300.0, 0.0), (505.0, 0.0)])
    holes = layout(found, NONE, near, cover, owed)
    assert holes.s.tolist() == [95.0, 300.0, 505.0]


def test_slid_as_far_as_needed(case):
    """One that serves too little is slid until it does."""
    found, cover, owed = case
    holes = layout(found, NONE, np.array([(140.0, 0), (300.0, 0), (505.0, 0)]), cover, owed)
    assert holes.s[0] <= 110.0 + 1e-6


def test_other_numbers_are_no_use(case):
    """More or fewer than the fewest: not kept."""
    found, cover, owed = case
    assert layout(found, NONE, NO_XY, cover, owed) is None
    assert layout(found, NONE, np.array([(140.0, 0), (300.0, 0)]), cover, owed) is None
