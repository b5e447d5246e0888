"""Holders of a body while it is factored."""

import numpy as np

from holeplacer.structure import holders


def test_no_station_is_far_from_a_holder(ring):
    """Along the axis every station is within reach of one."""
    strip = ring.strip
    chosen = holders.holders(strip)
    at = strip.ways[0][np.isin(strip.of_branch[0], chosen)]
    gaps = np.diff(np.concatenate([at, [at[0] + strip.ways[0][-1]]]))
    assert gaps.max() <= 2 * holders.REACH_MM + 40.0
    assert len(chosen) < 12


def test_a_dot_is_held_at_its_node(disc):
    """One station, one holder."""
    assert holders.holders(disc.strip).tolist() == [0]
