"""What one piece asks of its holes."""

from dataclasses import replace

import numpy as np
import pytest
from graphs import strokes

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.placement.piece_task import base_mm, tasks_of
from holeplacer.placement.watch import Watch
from holeplacer.plan.hole import Hole
from holeplacer.rules import neighbours

SIGN = strokes([[(0, 0), (400, 0)], [(0, 200), (600, 200)]])


@pytest.fixture(scope="module")
def axis():
    return medial_axis(SIGN)


def test_one_task_a_piece(plan, axis):
    """Each piece's own axis, room, base and centre of gravity."""
    one, two = tasks_of(plan, SIGN, axis, Watch())
    lengths = sorted(task.axis.length_mm for task in (one, two))
    assert lengths == pytest.approx([400, 600], abs=1)
    assert {task.piece.piece for task in (one, two)} == {0, 1}
    for task in (one, two):
        assert task.owed.base_mm == pytest.approx(task.axis.length_mm / 3, rel=1e-3)
        assert task.wanted.room.length.sum() == pytest.approx(task.axis.length_mm, rel=1e-3)
        assert base_mm(plan, task.axis) == task.owed.base_mm


def test_fixed_holes_take_room(plan, axis):
    """Only fixed holes stay; new ones keep their distance from them, and they serve."""
    holes = (Hole(1, 200.0, 0.0, fixed=True), Hole(2, 100.0, 0.0))
    tasks = tasks_of(replace(plan, holes=holes), SIGN, axis, Watch())
    (task,) = [task for task in tasks if len(task.stays)]
    np.testing.assert_allclose(task.stays, [[200, 0]])
    assert len(task.stay_feet) == 1
    taken = task.axis.length_mm - task.wanted.room.length.sum()
    assert taken == pytest.approx(2 * neighbours.limit(plan), abs=0.1)


def test_share_too_great(plan, axis):
    """A base no two places have is not asked for."""
    plan = replace(plan, limits=replace(plan.limits, turning_share=1.5))
    assert [task.owed.base_mm for task in tasks_of(plan, SIGN, axis, Watch())] == [None, None]


def test_a_glued_standoff_takes_room_and_serves_nothing(plan, axis):
    """New holes keep their distance, and its stroke needs holes as if it were not there."""
    holes = (Hole(1, 200.0, 0.0, fixed=True, fastened=False),)
    free = tasks_of(plan, SIGN, axis, Watch())
    glued = tasks_of(replace(plan, holes=holes), SIGN, axis, Watch())
    assert all(len(task.stays) == len(task.stay_feet) == 0 for task in glued)
    room = [sum(task.wanted.room.length.sum() for task in tasks) for tasks in (free, glued)]
    assert room[0] - room[1] == pytest.approx(2 * neighbours.limit(plan), abs=0.1)
