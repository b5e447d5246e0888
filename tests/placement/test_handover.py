"""What one side of a point hands over to the other."""

from math import inf

import pytest

from holeplacer.placement.handover import NOTHING, Step, along, asking, better, joined

ORDER = [
    (0, True, 0.0, None),
    (0, True, 20.0, None),
    NOTHING,
    (0, False, 80.0, None),
    (0, False, 0.0, None),
]


def bare(options):
    return [option[:3] for option in options]


def step(length, *, room=True, radius=100.0, growth=0.0):
    return Step(3, 0.0, 1, length, room, radius, growth)


def test_order():
    """From a need on the spot to a hole on the spot."""
    for place, worse in enumerate(ORDER):
        for other in ORDER[place + 1 :]:
            assert better(other, worse)
            assert not better(worse, other)


def test_a_near_hole_meets_a_need():
    """The nearer of hole and need counts."""
    hole, need = [(2, False, 30.0, None)], [(1, True, 40.0, None)]
    assert bare(joined(hole, need)) == [(3, False, 30.0)]
    assert bare(joined([(2, False, 50.0, None)], need)) == [(3, True, 40.0)]
    assert joined(hole, [NOTHING]) == hole


def test_only_better_ones_are_kept():
    """One more hole must buy something."""
    one = [(1, True, 10.0, None), (2, False, 0.0, None)]
    assert bare(joined(one, one)) == [(2, True, 10.0), (3, False, 0.0)]


def test_asking():
    """A point out of reach needs a hole itself; one in reach does not."""
    assert bare(asking([(1, False, 120.0, None)], 100.0)) == [(1, True, 100.0)]
    assert bare(asking([(1, False, 90.0, None)], 100.0)) == [(1, False, 90.0)]
    assert bare(asking([(1, True, 30.0, None)], 100.0)) == [(1, True, 30.0)]


@pytest.mark.parametrize(
    ("length", "count", "needs", "away"),
    [(60.0, 0, True, 40.0), (100.0, 0, True, 0.0), (150.0, 1, False, 50.0), (250.0, 1, True, 50.0)],
)
def test_a_stroke_from_its_tip(length, count, needs, away):
    """Holes are set as far on as their reach allows; one more at the end hands over most."""
    found = along([NOTHING], [step(length)])
    assert bare(found) == [(count, needs, away), (count + 1, False, 0.0)]


def test_where_holes_go():
    """The trail names branch and way."""
    (_, _, _, trail), _ = along([NOTHING], [step(450.0)])
    assert trail == (3, 300.0, (3, 100.0, None, None), None)


def test_thin_metal():
    """Where no hole may be, a need that comes too late ends it."""
    assert bare(along([(1, True, 30.0, None)], [step(30.0, room=False)])) == [(1, True, 0.0)]
    assert along([(1, True, 30.0, None)], [step(31.0, room=False)]) == []


def test_nothing_wanted():
    """Where nothing is wanted ways only grow."""
    idle = step(500.0, room=False, radius=inf)
    assert bare(along([(1, False, 30.0, None)], [idle])) == [(1, False, 530.0)]
    assert along([NOTHING], [idle]) == [NOTHING]


def test_a_hole_that_stays():
    """It meets every need and costs nothing."""
    stays = step(0.0, room=False, radius=inf)
    assert bare(along([(1, True, 0.0, None), (2, False, 3.0, None)], [stays])) == [(1, False, 0.0)]


def test_growing_radius():
    """Where the radius grows as fast as the way, a hole serves on and on."""
    grows = step(80.0, room=False, radius=50.0, growth=1.0)
    assert bare(along([(1, False, 50.0, None)], [grows])) == [(1, False, 130.0)]
    shrinks = step(80.0, room=False, radius=130.0, growth=-1.0)
    assert bare(along([(1, False, 50.0, None)], [shrinks])) == [(1, True, 50.0)]
    assert grows.backwards() == Step(3, 80.0, -1, 80.0, False, 130.0, -1.0)
