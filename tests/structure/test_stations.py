"""Stations along the axis."""

import numpy as np

from holeplacer.structure import stations


def test_beams_join_up_along_every_branch(tee):
    """Each branch is a chain of beams from node to node, as long as the branch."""
    strip = tee.strip
    for number, at in strip.of_branch.items():
        branch = tee.axis.branches[number]
        assert np.allclose(strip.xy[at[[0, -1]]], branch.xy[[0, -1]])
        assert strip.ways[number][-1] == branch.length_mm
        own = strip.branch == number
        assert np.array_equal(strip.first[own], at[:-1])
        assert np.array_equal(strip.last[own], at[1:])


def test_no_beam_is_longer_than_half_the_stroke_is_wide(bar):
    """A straight bar is cut up evenly."""
    step = np.diff(bar.strip.xy[bar.strip.of_branch[0]], axis=0)
    assert np.hypot(*step.T).max() <= stations.STEP * 40.0 * 1.01


def test_bends_are_followed(ring):
    """No beam of a ring turns by more than allowed."""
    strip = ring.strip
    at = strip.xy[strip.of_branch[0]]
    heading = np.unwrap(np.arctan2(*np.diff(at, axis=0).T[::-1]))
    assert np.abs(np.diff(heading)).max() <= stations.TURN * 1.1


def test_width_turns_as_much_as_the_taper(drop):
    """Beams of a tapered stroke have widths between those of their ends."""
    strip = drop.strip
    ends = 2.0 * strip.clearance[np.stack([strip.first, strip.last])]
    assert (strip.width >= ends.min(axis=0) * 0.98).all()
    assert (strip.width <= ends.max(axis=0) * 1.02).all()


def test_all_branches_in_a_row(tee):
    """The row holds each branch's stations one after the other."""
    strip = tee.strip
    for index, at in enumerate(strip.of_branch.values()):
        part = slice(strip.first_of_branch[index], strip.first_of_branch[index + 1])
        assert np.array_equal(strip.in_a_row[part], at)


def test_a_dot_is_one_station(disc):
    """A piece without branches has its node alone."""
    assert len(disc.strip.xy) == 1
    assert disc.strip.of_branch == {}
    assert len(disc.strip.in_a_row) == 0
