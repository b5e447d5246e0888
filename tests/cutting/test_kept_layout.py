"""Sections kept where the plan has them."""

import math
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cutting import hand_layout, kept_layout
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams.sections import Section
from holeplacer.sheet.stock import Stock

SHEET = Stock(400.0, 300.0, True)
PLAN = Plan(
    ArtworkFile("a.svg", b""), sections=SectionsChoice((SHEET,), margin_mm=10.0, apart_mm=8.0)
)


def sections(*sizes):
    areas = [box(500 * n, 0, 500 * n + wide, high) for n, (wide, high) in enumerate(sizes)]
    return [Section(n, area, 0, (), (), area.area) for n, area in enumerate(areas, start=1)]


def area(layout, number):
    placed = next(item for item in layout.placed if item.section == number)
    return placed.of(layout.section(number).polygon)


def test_without_kept_places_all_is_laid_out():
    """The plain layout, nothing by hand."""
    made = sections((100, 80), (60, 60))
    layout = kept_layout.laid_out(PLAN, made)
    assert hand_layout.collisions(layout) == ()
    assert kept_layout.by_hand(PLAN, layout) == frozenset()


@settings(max_examples=15, deadline=None)
@given(dx=st.floats(-150, 250), dy=st.floats(-100, 150), turn=st.floats(-3, 3), sheet=st.booleans())
def test_a_hand_placing_comes_back_as_it_was(dx, dy, turn, sheet):
    """Kept in the plan and laid out again, every section lies where it lay, even if it collides."""
    made = sections((250, 200), (200, 200), (60, 60))
    layout = kept_layout.laid_out(PLAN, made)
    to = 0 if sheet and len(layout.sheets) > 1 else None
    moved = hand_layout.moved(layout, 2, dx, dy, turn, sheet=to)
    moved = hand_layout.without_empty_sheets(moved)
    plan = kept_layout.with_layout(PLAN, moved, {2})
    again = kept_layout.laid_out(plan, made)
    assert len(again.sheets) == len(moved.sheets)
    for number in (1, 2, 3):
        apart = shapely.hausdorff_distance(area(moved, number), area(again, number))
        assert apart == pytest.approx(0.0, abs=1e-6)
    assert kept_layout.by_hand(plan, again) == {2}


def test_the_rest_is_laid_out_round_what_was_placed_by_hand():
    """Laid out anew, the one placed by hand stays and the others keep clear of it."""
    made = sections((100, 80), (60, 60), (90, 120), (50, 140))
    layout = kept_layout.laid_out(PLAN, made)
    centre = area(layout, 1).centroid
    moved = hand_layout.moved(layout, 1, 200 - centre.x, 150 - centre.y, math.radians(20))
    plan = kept_layout.anew(kept_layout.with_layout(PLAN, moved, {1}))
    assert len(plan.laid) == 1
    again = kept_layout.laid_out(plan, made)
    assert area(again, 1).equals_exact(area(moved, 1), 1e-6)
    assert hand_layout.collisions(again) == ()
    assert len(again.sheets) == 1


def test_a_section_that_changed_is_laid_out_with_the_rest():
    """Another seam makes another section; its place is not kept, those of the others are."""
    made = sections((100, 80), (60, 60), (90, 120))
    layout = hand_layout.moved(kept_layout.laid_out(PLAN, made), 2, 150.0, 100.0)
    plan = kept_layout.with_layout(PLAN, layout, {2})
    changed = sections((100, 80), (60, 60), (90, 60))
    assert set(kept_layout.matched(plan, changed)) == {1, 2}
    again = kept_layout.laid_out(plan, changed)
    assert area(again, 2).equals_exact(area(layout, 2), 1e-6)
    assert [item for item in hand_layout.collisions(again) if item.section == 3] == []


def test_sheets_no_longer_at_hand_are_not_kept():
    """With other stock everything is laid out on it."""
    made = sections((100, 80), (60, 60))
    plan = kept_layout.with_layout(PLAN, kept_layout.laid_out(PLAN, made), {1, 2})
    other = replace(PLAN.sections, stock=(Stock(350.0, 350.0, True),))
    again = kept_layout.laid_out(edit.with_sections(plan, other), made)
    assert [sheet.stock.width_mm for sheet in again.sheets] == [350.0]


def test_the_count_of_sheets_is_kept():
    """Of two sheets kept only one is at hand: what lay on the second is laid out anew."""
    made = sections((380, 280), (380, 280))
    layout = kept_layout.laid_out(PLAN, made)
    assert len(layout.sheets) == 2
    plan = kept_layout.with_layout(PLAN, layout, {1, 2})
    stock = (replace(SHEET, count=1), replace(SHEET, width_mm=500.0))
    plan = edit.with_sections(plan, replace(PLAN.sections, stock=stock))
    again = kept_layout.laid_out(plan, made)
    assert sorted(sheet.stock.width_mm for sheet in again.sheets) == [400.0, 500.0]
