"""Which ends of loose segments meet."""

import numpy as np
import pytest

from holeplacer.artwork import loose_ends
from holeplacer.artwork.loose_ends import Ends, meet
from holeplacer.errors import ArtworkError

REACH = 0.1


def found(*segments: tuple[float, float, float, float]) -> Ends:
    ends = np.array(segments, float).reshape(-1, 2, 2)
    length = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    return meet(ends, ends.mean(axis=1), length, REACH)


def test_ends_within_a_hundredth_of_the_reach_are_one_node() -> None:
    """And no gap."""
    ends = found((0, 0, 5, 0), (5.0005, 0, 5, 5))
    assert ends.node[1] == ends.node[2]
    assert len(set(ends.node.tolist())) == 3
    assert len(ends.gaps) == 0


def test_loose_ends_are_joined_nearest_first() -> None:
    """A third end within reach stays loose."""
    ends = found((0, 0, 5, 0), (5.05, 0, 5.05, 5), (5.03, 0, 9, -9))
    assert sorted(map(sorted, ends.gaps.tolist())) == [[2, 4]]
    ends = found((0, 0, 5, 0), (5.02, 0, 5.05, 5), (5.09, 0, 9, -9))
    assert sorted(map(sorted, ends.gaps.tolist())) == [[1, 2]]
    assert ends.node[1] == ends.node[2] != ends.node[4]


def test_ends_beyond_reach_stay_apart() -> None:
    """A gap of 0.11 is none of 0.1."""
    assert len(found((0, 0, 5, 0), (5.11, 0, 9, 0)).gaps) == 0


def test_a_segment_drawn_again_counts_once() -> None:
    """Either way round, to within a micrometre; three times is odd, twice even."""
    ends = found(
        (0, 0, 5, 0), (5, 0, 0, 0.0005), (9, 9, 8, 8), (0, 0, 5, 0), (7, 7, 6, 6), (7, 7, 6, 6)
    )
    assert ends.counts.tolist().count(False) == 3
    assert len(ends.repeated) == 3
    assert ends.doubled.sum() == 1
    assert ends.doubled[4] or ends.doubled[5]


def test_two_ways_between_the_same_nodes_are_two_segments() -> None:
    """The halves of a circle share their ends but not their middles."""
    ends = np.array([[[0.0, 0], [2, 0]], [[0, 0], [2, 0]]])
    both = meet(ends, np.array([[1.0, 1], [1, -1]]), np.array([2.0, 2]), REACH)
    assert both.counts.all()
    assert len(both.repeated) == 0


def test_specks_take_no_part_and_loops_do() -> None:
    """A segment shorter than a node is a speck unless it goes somewhere and comes back."""
    ends = np.zeros((2, 2, 2))
    ends[1] += 5
    speck = meet(ends, ends.mean(axis=1), np.array([0.0, 40.0]), REACH)
    assert speck.counts.tolist() == [False, True]


def test_more_ends_than_can_be_told_apart_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Before the pairs are listed."""
    monkeypatch.setattr(loose_ends, "MOST_PAIRS", 100)
    with pytest.raises(ArtworkError, match="more ends of lines lie together"):
        found(*((i * 1e-3, 0, i * 1e-3, 50 + i) for i in range(40)))
