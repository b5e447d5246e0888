"""Wider metal, other things being equal."""

import numpy as np
import pytest
from graphs import NO_XY, NONE, graph, wanted

from holeplacer.medial_axis import ways
from holeplacer.placement import refinement
from holeplacer.placement.keeping import Owed
from holeplacer.placement.preferences import followed
from holeplacer.placement.refinement import Holes


def layout(found, s):
    return Holes(found.room, np.zeros(len(s), np.intp), np.asarray(s, float), NONE)


@pytest.fixture
def wedge():
    """400 mm of stroke, clearance 10 on the left and 20 on the right."""
    return wanted(graph([(0, 0), (400, 0)], [(0, 1)], clearance=[np.linspace(10, 20, 30)]), 300.0)


def test_slides_to_wider_metal(wedge):
    """A hole whose demands are not the worst slides to wider metal; the others stay."""
    owed = Owed(wedge.axis, NO_XY, 20.0, (200.0, 0.0), None)
    start = layout(wedge, [100.0, 180.0, 300.0])
    found = followed(wedge, start, owed, 10.0)
    gained = ways.clearances(wedge.axis, found.points) - ways.clearances(wedge.axis, start.points)
    assert gained[1] > 0.1
    assert gained[[0, 2]] == pytest.approx(0.0, abs=1e-6)


def test_worst_served_is_served_no_worse(wedge):
    """The greatest tightness stays."""
    owed = Owed(wedge.axis, NO_XY, 20.0, (200.0, 0.0), None)
    start = layout(wedge, [200.0])
    found = followed(wedge, start, owed, 10.0)
    before = refinement.peaks(wedge, start).tightness.max()
    assert refinement.peaks(wedge, found).tightness.max() <= before + 1e-9


def test_what_is_owed_is_kept(wedge):
    """Distance and base outrank width."""
    owed = Owed(wedge.axis, NO_XY, 200.0, (200.0, 0.0), 200.0)
    found = followed(wedge, layout(wedge, [90.0, 310.0]), owed, 10.0)
    assert owed.kept(found)
