"""From places to coordinates."""

import numpy as np
import pytest
import shapely
from graphs import NO_XY, NONE, strokes, wanted

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import candidates, settling
from holeplacer.placement.keeping import Owed
from holeplacer.placement.refinement import Holes
from holeplacer.rules import edge_distance


def test_ends_keep_the_true_edge_distance():
    """On a wedge the outline has the last word at both ends of the room."""
    sign = Outline.from_geometry(shapely.Polygon([(0, 0), (600, 40), (600, 90), (0, 60)]))
    axis = medial_axis(sign)
    room = candidates.candidates(axis, 27.0, NO_XY, np.empty(0))
    true = settling.true_room(sign, axis, room, 27.0)
    for s in (true.low, true.high):
        at = ways.places(axis, ways.AxisPoints.on_branches(true.branch, s))
        assert sign.edge_distance(at).min() >= 27.0 - 1e-6
    assert true.length.sum() == pytest.approx(room.length.sum(), abs=0.1)


def test_rounded_to_the_kept_side():
    """A centre goes to the nearest hundredth that keeps the edge distance, else nowhere."""
    sign = Outline.from_geometry(shapely.box(0, 0, 100, 20))
    near = settling.rounded(sign, np.array([[50.0049, 9.0049]]), 9.0)
    np.testing.assert_allclose(near, [[50.0, 9.0]], atol=1e-12)
    up = settling.rounded(sign, np.array([[50.004, 9.004]]), 9.001)
    np.testing.assert_allclose(up, [[50.0, 9.01]], atol=1e-12)
    stays = settling.rounded(sign, np.array([[50.004, 10.004]]), 10.5)
    np.testing.assert_allclose(stays, [[50.004, 10.004]])


def test_rounded_only_if_all_still_holds(plan):
    """Where a hundredth would leave a tip unserved the exact place stays."""
    sign = strokes([[(0, 0), (600.0, 0)]])
    axis = medial_axis(sign)
    net = ways.network(axis)
    middle = float(net.length[0]) / 2
    for spare, is_round in ((0.0, False), (0.02, True)):
        found = wanted(axis, middle - 100.004 + spare)
        s = np.array([100.004, net.length[0] - 100.004])
        holes = Holes(found.room, np.zeros(2, np.intp), s, NONE)
        owed = Owed(axis, NO_XY, 20.0, (300.0, 0.0), None)
        xy = settling.settled(sign, found, holes, owed, plan)
        assert (np.abs(xy - np.round(xy, 2)).max() < 1e-9) == is_round
        assert sign.edge_distance(xy).min() >= edge_distance.limit(plan)
