"""Sections moved by hand."""

import math

import pytest
from shapely.geometry import box

from holeplacer.cutting import hand_layout, sheet_layout
from holeplacer.errors import InputError
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams.sections import Section
from holeplacer.sheet.stock import Stock

CHOICE = SectionsChoice(
    stock=(Stock(300.0, 200.0, True),), margin_mm=10.0, apart_mm=8.0, turning="none"
)


def layout_of(*sizes):
    areas = [box(1000, 50, 1000 + wide, 50 + high) for wide, high in sizes]
    made = [Section(n, area, 0, (), (), area.area) for n, area in enumerate(areas, start=1)]
    return sheet_layout.sheet_layout(made, CHOICE)


def area(layout, number):
    placed = next(item for item in layout.placed if item.section == number)
    return placed.of(layout.section(number).polygon)


def test_a_move_shifts_the_section_and_nothing_else():
    """The other section stays, the moved one is shifted by just that."""
    before = layout_of((100, 80), (60, 60))
    after = hand_layout.moved(before, 2, 5.0, -3.0)
    assert area(after, 1).equals(area(before, 1))
    x, y = area(before, 2).centroid.coords[0]
    assert area(after, 2).centroid.coords[0] == pytest.approx((x + 5.0, y - 3.0))


def test_a_turn_is_about_the_sections_own_centre():
    """Turned, its centre stays; a quarter turn swaps width and height."""
    before = layout_of((100, 80))
    after = hand_layout.moved(before, 1, dangle_rad=math.pi / 2)
    assert area(after, 1).centroid.distance(area(before, 1).centroid) < 1e-9
    x0, y0, x1, y1 = area(after, 1).bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((80.0, 100.0))


def test_a_proposed_layout_collides_with_nothing():
    """Before anything is moved there is no collision."""
    assert hand_layout.collisions(layout_of((100, 80), (60, 60), (100, 100))) == ()


def test_two_sections_too_close_are_shown_with_their_gap():
    """The gap left, no shared area, and the place between the two."""
    before = layout_of((100, 150), (60, 60))
    gap = area(before, 2).bounds[0] - area(before, 1).bounds[2]
    (found,) = hand_layout.collisions(hand_layout.moved(before, 2, 3.0 - gap))
    assert (found.section, found.other, found.overlap_mm2) == (1, 2, 0.0)
    assert found.gap_mm == pytest.approx(3.0)
    assert found.x_mm == pytest.approx(area(before, 1).bounds[2] + 1.5)


def test_two_sections_that_overlap_are_shown_with_what_they_share():
    """The shared area is stated, the gap is nothing."""
    before = layout_of((100, 150), (60, 60))
    gap = area(before, 2).bounds[0] - area(before, 1).bounds[2]
    (found,) = hand_layout.collisions(hand_layout.moved(before, 2, -gap - 10.0))
    assert found.gap_mm == 0.0
    assert found.overlap_mm2 == pytest.approx(600.0)


def test_a_section_past_the_margin_is_shown():
    """How far it sticks out, negative, and the area beyond."""
    before = layout_of((100, 80))
    (found,) = hand_layout.collisions(hand_layout.moved(before, 1, -4.0))
    assert (found.section, found.other) == (1, None)
    assert found.gap_mm == pytest.approx(-4.0)
    assert found.overlap_mm2 == pytest.approx(320.0)


def test_a_section_can_go_to_another_sheet_and_leave_its_own_empty():
    """Scrap shares follow; an empty sheet can be dropped."""
    before = layout_of((270, 100), (270, 100), (100, 60))
    assert len(before.sheets) == 2
    alone = next(i for i in range(2) if len(before.on_sheet(i)) == 1)
    (only,) = before.on_sheet(alone)
    after = hand_layout.moved(before, only.section, sheet=1 - alone)
    assert after.sheets[alone].scrap_share == 1.0
    assert len(hand_layout.without_empty_sheets(after).sheets) == 1
    assert hand_layout.collisions(after)


def test_an_unknown_section_or_sheet_is_an_error():
    """Both are named."""
    before = layout_of((100, 80))
    with pytest.raises(InputError, match="no section 9"):
        hand_layout.moved(before, 9)
    with pytest.raises(InputError, match="no sheet 4"):
        hand_layout.moved(before, 1, sheet=3)


def test_collisions_are_said_in_words():
    """Past the edge, on another section, too near to one: each with its figure."""
    before = layout_of((100, 80), (60, 60))
    out = hand_layout.moved(before, 1, -25.0)
    (item,) = hand_layout.collisions(out, 1)
    assert hand_layout.collisions(out, 2) == ()
    assert hand_layout.words(item, 0.0) == (
        "Section 1 on sheet 1 reaches 25.0 mm past the edge of what may be cut"
    )
    one, two = (area(before, number).centroid for number in (1, 2))
    on = hand_layout.moved(before, 2, one.x - two.x, one.y - two.y)
    assert hand_layout.words(hand_layout.collisions(on)[0], 8.0) == (
        "Section 1 on sheet 1 lies on section 2"
    )
    gap = area(before, 1).distance(area(before, 2))
    near = hand_layout.moved(before, 2, *(_towards(before, gap - 3.0)))
    assert "is 3.0 mm from section 2, at least 8.0 mm" in hand_layout.words(
        hand_layout.collisions(near)[0], 8.0
    )


def _towards(layout, by):
    """Way of section 2 towards section 1, level or upright."""
    right, left = area(layout, 1).bounds[2], area(layout, 2).bounds[0]
    return (-by, 0.0) if left >= right else (0.0, -by)
