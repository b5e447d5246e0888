"""A section carried and turned by hand."""

import math

import pytest
from PySide6.QtCore import QPoint

from holeplacer.gui.canvas.drag import Pointer
from holeplacer.gui.sheets.section_drag import SectionMove, SectionTurn


def at(x, y, **keys):
    return Pointer((x, y), QPoint(round(x), round(y)), **keys)


class Seen:
    def __init__(self):
        self.shown, self.kept = [], []

    def show(self, *way):
        self.shown.append(way)

    def keep(self, *way):
        self.kept.append(way)


@pytest.fixture
def seen():
    return Seen()


def turn(seen, **more):
    settings = {"centre": (0.0, 0.0), "angle_rad": 0.0, "step_rad": math.pi / 12, "free": True}
    return SectionTurn(at(100, 0), seen.show, seen.keep, **(settings | more))


def test_a_section_is_carried_along(seen):
    """Shown under way, kept at the end."""
    drag = SectionMove(at(10, 10), seen.show, seen.keep)
    drag.move(at(30, 15))
    drag.commit(at(40, 5))
    assert seen.shown == [(20, 5, 0.0)]
    assert seen.kept == [(30, -5, 0.0)]


def test_a_press_alone_keeps_nothing(seen):
    """Neither carried nor turned."""
    SectionMove(at(10, 10), seen.show, seen.keep).commit(at(11, 10))
    turn(seen).commit(at(100, 1))
    assert (seen.shown, seen.kept) == ([], [])


def test_cancelled_it_is_shown_where_it_was(seen):
    """And nothing is kept."""
    for drag in (SectionMove(at(100, 0), seen.show, seen.keep), turn(seen)):
        drag.move(at(60, 60))
        drag.cancel()
        assert seen.shown[-1] == (0.0, 0.0, 0.0)
    assert seen.kept == []


def test_it_turns_in_steps_unless_freed(seen):
    """To whole steps of its own angle; Alt frees it, where any angle is allowed."""
    forty = math.radians(40)
    place = (100 * math.cos(forty), 100 * math.sin(forty))
    turn(seen, angle_rad=math.radians(2)).commit(at(*place))
    assert seen.kept == []
    drag = turn(seen, angle_rad=math.radians(2))
    drag.move(at(*place))
    drag.commit(at(*place))
    assert seen.kept[-1][2] == pytest.approx(math.radians(43))
    drag = turn(seen)
    drag.move(at(*place, free=True))
    drag.commit(at(*place, free=True))
    assert seen.kept[-1][2] == pytest.approx(forty)


def test_a_grained_face_keeps_quarter_turns(seen):
    """Even where the pointer would free it."""
    drag = turn(seen, step_rad=math.pi / 2, free=False)
    drag.move(at(10, 90, free=True))
    drag.commit(at(10, 90, free=True))
    assert seen.kept[-1][2] == pytest.approx(math.pi / 2)
