"""The order of tacks and welds."""

import numpy as np
import pytest
from shapely.geometry import box

from holeplacer.outline.outline import Outline
from holeplacer.plan.seam import Seam
from holeplacer.seams import sections, tacking


def bar_welds(places, height=10.0, length=600.0):
    outline = Outline.from_geometry(box(0, 0, length, height))
    seams = [Seam(x, 0.0, x, height) for x in places]
    return tacking.welds(outline, seams, sections.sections(outline, seams)), seams


def test_work_goes_from_the_middle_outward_to_either_side_in_turn():
    """The seam nearest the middle first, then its neighbours left and right of the middle."""
    made, seams = bar_welds([100, 200, 310, 400, 500])
    places = [seams[weld.seam].x1_mm for weld in made]
    assert places == [310, 200, 400, 100, 500]
    assert [weld.order for weld in made] == [1, 2, 3, 4, 5]
    assert [weld.between for weld in made] == [(3, 4), (2, 3), (4, 5), (1, 2), (5, 6)]


def test_every_seam_is_tacked_once_before_one_is_tacked_twice():
    """Passes over all seams; orders are 1, 2, 3 and so on without a gap."""
    made, _ = bar_welds([100, 200, 310, 400, 500], height=100.0)
    tacks = sorted((tack for weld in made for tack in weld.tacks), key=lambda tack: tack.order)
    assert [tack.order for tack in tacks] == list(range(1, len(tacks) + 1))
    assert [tack.seam for tack in tacks[:5]] == [weld.seam for weld in made]
    assert all(tack.y_mm == pytest.approx(50.0) for tack in tacks[:5])


@pytest.mark.parametrize("length", [3.0, 15.0, 20.0, 20.1, 60.0, 250.0])
def test_tacks_lie_in_the_seam_no_further_apart_than_the_pitch(length):
    """Off both cut edges, even, an end in turn; a short seam takes two, none at its middle."""
    made, _ = bar_welds([300], height=length)
    at = np.array([tack.y_mm for tack in made[0].tacks])
    assert 0 < at.min() <= 0.1 * length + 1e-9
    assert at.max() < length
    assert np.diff(np.sort(at)).max() <= tacking.PITCH_MM
    if length <= tacking.SHORT_MM:
        assert len(at) == 2
    else:
        assert at[0] == pytest.approx(length / 2)
        turns = np.sign(at[1:] - length / 2)
        assert (turns[::2] == turns[0]).all()
        assert (turns[1::2] == -turns[0]).all()


def test_neighbouring_seams_begin_at_opposite_ends():
    """What one seam draws to the top the next draws to the bottom."""
    made, _ = bar_welds([200, 310, 400], height=15.0)
    first = [weld.tacks[0].y_mm < 7.5 for weld in made]
    assert first == [True, False, True]


def test_the_weld_is_as_long_as_the_metal_it_joins():
    """A seam drawn past the cut edges is welded only in metal; one that parts nothing is none."""
    outline = Outline.from_geometry(box(0, 0, 600, 10))
    seams = [Seam(300.0, -20.0, 300.0, 30.0)]
    (weld,) = tacking.welds(outline, seams, sections.sections(outline, seams))
    assert weld.weld_mm == pytest.approx(10.0)
    assert tacking.welds(outline, [], sections.sections(outline, [])) == ()


def test_pieces_are_joined_each_by_itself():
    """Each from its own middle, the left one first."""
    outline = Outline.from_geometry(box(0, 0, 300, 10).union(box(400, 0, 1000, 10)))
    seams = [Seam(x, 0.0, x, 10.0) for x in (150.0, 600.0, 700.0)]
    made = tacking.welds(outline, seams, sections.sections(outline, seams))
    assert [weld.seam for weld in made] == [0, 2, 1]
