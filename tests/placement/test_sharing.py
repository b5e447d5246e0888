"""Holes given out to pieces."""

import pytest
from graphs import strokes

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.placement.piece_task import tasks_of
from holeplacer.placement.sharing import Sharing
from holeplacer.placement.watch import Watch


@pytest.fixture
def shared(plan):
    sign = strokes([[(0, 0), (1000, 0)], [(0, 200), (400, 200)]])
    return Sharing(tasks_of(plan, sign, medial_axis(sign), Watch()), Watch())


def by_length(shared):
    return sorted(len(layout.centres) for layout in shared.holes())


def test_each_piece_needs_one(shared):
    """The least is one hole a piece."""
    assert shared.least == 2
    shared.start(2)
    assert by_length(shared) == [1, 1]


def test_next_hole_where_it_helps_most(shared):
    """Holes go to the longer piece until both fare alike."""
    shared.start(2)
    tightness = [shared.tightness]
    while shared.count < 6:
        assert shared.add()
        tightness.append(shared.tightness)
    assert by_length(shared) == [2, 4]
    assert tightness == sorted(tightness, reverse=True)


def test_start_at_once(shared):
    """Beginning with many gives the same as adding one by one."""
    shared.start(6)
    while shared.count < 6:
        assert shared.add()
    assert by_length(shared) == [2, 4]


def test_no_piece_is_left_to_turn(plan):
    """Where the limits can be kept, a short piece gets its second hole before others more."""
    sign = strokes([[(0, 0), (1000, 0)], [(0, 200), (90, 200)]])
    shared = Sharing(tasks_of(plan, sign, medial_axis(sign), Watch()), Watch())
    shared.start(9)
    assert by_length(shared)[0] == 2
    assert all(layout.held for layout in shared.holes())
