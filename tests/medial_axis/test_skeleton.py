"""The skeleton before pruning."""

import numpy as np
import pytest
import shapely
from shapes import BAR, SCRIPT, outline

from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.clearance import measured, on_axis
from holeplacer.medial_axis.samples import sampled
from holeplacer.medial_axis.skeleton import skeleton_of
from holeplacer.medial_axis.triangulation import triangulate


def skeleton(shape, **options):
    sign = outline(shape)
    segments = boundary_of(sign.region, np.arange(len(sign.pieces)))
    samples = sampled(segments)
    found = skeleton_of(sign, segments, samples, triangulate(samples), **options)
    return sign, segments, found


def test_bar_has_corners_before_pruning():
    """Two junctions, the middle line and four corner chains that end near the corners."""
    _, segments, found = skeleton(BAR)
    network, radius = found.network()
    assert len(found.chains) == 5
    assert len(found.junctions) == 2
    assert sorted(len(at) for at in network.at.values()) == [1, 1, 1, 1, 3, 3]
    assert found.junctions.radius == pytest.approx([20, 20])
    free = [n for n in network.strands if network.free_end(n)]
    ends = [network.strands[n].chain_end(network.free_end(n)[0]) for n in free]
    beyond = np.array([network.strands[n].length for n in free]) + found.cap_reach(segments, ends)
    assert beyond == pytest.approx(20 * np.sqrt(2) * np.ones(4), abs=1e-6)
    assert len(radius) == 2 + 2 * 5


def test_rows_lie_on_the_axis():
    """All discs of the chains touch their two sides and hold nothing else."""
    sign, segments, found = skeleton(SCRIPT)
    right = on_axis(segments, measured(sign, segments, found.rows.discs))
    assert right.mean() > 0.99


def test_loops_are_those_of_the_metal():
    """Chains less nodes gives one loop for each counter."""
    _, _, found = skeleton(SCRIPT)
    network, _ = found.network()
    assert len(network.strands) - len(network.at) + 1 == len(SCRIPT.interiors)


def test_less_residual_keeps_more():
    """With a smaller share of the least residual no chain is lost."""
    round_cap = shapely.LineString([(0, 0), (100, 0)]).buffer(10, 8)
    _, _, usual = skeleton(round_cap)
    _, _, careful = skeleton(round_cap, share=0.01)
    assert len(careful.chains) >= len(usual.chains)
