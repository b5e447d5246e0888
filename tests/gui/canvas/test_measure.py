"""Measure tool."""

import pytest
from PySide6.QtCore import QPoint, QRectF
from PySide6.QtGui import QFont
from shapely import LineString, box

from holeplacer.gui.canvas.drag import Pointer
from holeplacer.gui.canvas.measure import Measure, MeasureItem
from holeplacer.gui.canvas.snapping import Snap, SnapKind
from holeplacer.gui.theme import LIGHT
from holeplacer.units import LengthUnit


def at(x, y, **held):
    return Pointer((x, y), QPoint(round(x), round(y)), **held)


@pytest.fixture
def item(qapp):
    made = MeasureItem(LIGHT, QFont())
    made.set_scale(1.0)
    return made


def measured(item, start, end):
    """Drive one gesture without snapping."""
    gesture = Measure(
        start,
        lambda place: Snap(place, SnapKind.FREE),
        lambda one, two: item.show_between(one, two, LengthUnit.MM),
    )
    gesture.move(end)
    return gesture


def test_it_shows_distance_and_both_parts(item):
    """3-4-5 in hundreds."""
    measured(item, at(10, 20), at(310, 420))
    assert item.distance_mm == 500.0
    assert [(line.what, line.figure) for line in item.label.lines] == [
        ("distance", "500 mm"), ("across", "300 mm"), ("up", "400 mm"),
    ]  # fmt: skip
    assert item.boundingRect().contains(QRectF(10, 20, 300, 400))


@pytest.mark.parametrize(("end", "distance"), [((300, 40), 290.0), ((30, 420), 400.0)])
def test_with_shift_it_stays_level_or_upright(item, end, distance):
    """Whichever way it goes further."""
    measured(item, at(10, 20), at(*end, straight=True))
    assert item.distance_mm == distance


@pytest.mark.parametrize("end", [(300, 20), (10, 400), (200, 300), (-200, 300), (300, -250)])
def test_the_plate_stands_beside_the_line(item, end):
    """Whichever way it runs, plate and line do not meet."""
    measured(item, at(10, 20), at(*end))
    corner, size = item.label.offset_px, item.label.size_px
    plate = box(corner.x(), corner.y(), corner.x() + size.width(), corner.y() + size.height())
    way = ((end[0] - 10) / 2, -(end[1] - 20) / 2)
    assert not plate.intersects(LineString([(-way[0], -way[1]), way]))


def test_it_tells_what_it_runs_between(item):
    """Both ends snapped: the kinds are named."""
    ends = Snap((0.0, 0.0), SnapKind.HOLE), Snap((5.0, 0.0), SnapKind.EDGE)
    item.show_between(*ends, LengthUnit.MM)
    assert item.label.lines[-1].what == "hole to cut edge"


def test_letting_go_keeps_it_and_cancelling_takes_it_away(item):
    """The figure stays to be read until the next one."""
    gesture = measured(item, at(10, 20), at(310, 420))
    gesture.commit(at(310, 420))
    assert item.distance_mm == 500.0
    gesture.cancel()
    assert item.distance_mm is None
    assert not item.label.isVisible()


def test_a_click_measures_nothing(item):
    """No line of no length is left behind."""
    measured(item, at(10, 20), at(10, 20)).commit(at(10, 20))
    assert item.distance_mm is None
