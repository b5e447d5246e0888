"""Holes the process cuts, and those it only marks."""

from dataclasses import replace

import pytest

from holeplacer.plan import edit
from holeplacer.plan.plan import SheetChoice, StandoffChoice
from holeplacer.rules import process
from holeplacer.rules.finding import PlaceKind


def test_limit_is_the_processs(plan):
    """Plasma on 16 gauge: 3/16 in; by hand: none, all are drilled."""
    assert process.limit(plan) == pytest.approx(4.76)
    assert process.limit(replace(plan, sheet=SheetChoice(process="hand"))) is None


def test_the_default_hole_is_cut(plan, bar, axis):
    """9/32 in is no trouble to plasma."""
    assert process.check(edit.with_hole_added(plan, 100, 0), bar, axis) == ()
    assert not process.is_drilled(plan, plan.standoff.hole_mm)


def test_a_small_hole_becomes_a_mark(plan, bar, axis):
    """It is noted, not broken, and says what to do."""
    (note,) = process.check(edit.with_hole_added(plan, 100, 0, diameter_mm=4.0), bar, axis)
    assert not note.broken
    assert (note.place.kind, note.place.index) == (PlaceKind.HOLE, 1)
    assert (note.value, note.limit) == (4.0, pytest.approx(4.76))
    assert "centre mark" in note.message
    assert "drill" in note.way_out
    assert process.is_drilled(plan, 4.0)


def test_holes_of_the_plans_diameter_share_a_note(plan, bar, axis):
    """Forty holes of one size are one line, not forty."""
    small = replace(plan, standoff=StandoffChoice(stud_mm=4.0, hole_mm=4.5))
    for x in (50, 150, 250):
        small = edit.with_hole_added(small, x, 0)
    (note,) = process.check(small, bar, axis)
    assert note.place.kind is PlaceKind.PLAN
    assert note.message.startswith("3 holes")


def test_at_the_least_diameter_it_is_cut(plan):
    """Exactly the least diameter is no mark."""
    assert not process.is_drilled(plan, process.limit(plan))


def test_by_hand_every_hole_is_drilled_without_a_note(plan, bar, axis):
    """Who cuts by hand knows."""
    by_hand = replace(plan, sheet=SheetChoice(process="hand"))
    assert process.check(edit.with_hole_added(by_hand, 100, 0), bar, axis) == ()
    assert process.is_drilled(by_hand, 12.0)
