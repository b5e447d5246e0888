"""From figures to marks."""

import math

import pytest

from holeplacer.evaluation.evaluate import evaluate
from holeplacer.gui.canvas.hole_symbol import Trouble
from holeplacer.gui.canvas.marks import hole_marks, of_limit
from holeplacer.plan import edit
from holeplacer.units import LengthUnit


def marks(strokes, plan, selected=frozenset(), unit=LengthUnit.MM):
    evaluation = evaluate(plan, strokes.outline, strokes.axis)
    return {mark.number: mark for mark in hole_marks(plan, evaluation, selected, unit)}


def test_a_hole_within_the_rules_is_plain(strokes):
    """Place, true sizes and number come from the plan."""
    mark = marks(strokes, strokes.plan)[1]
    standoff = strokes.plan.standoff
    assert (mark.x_mm, mark.y_mm) == (100.0, 100.0)
    assert (mark.hole_mm, mark.cap_mm) == (standoff.hole_mm, standoff.cap_mm)
    assert (mark.trouble, mark.figure, mark.fixed, mark.selected) == (
        Trouble.NONE,
        "",
        False,
        False,
    )


def test_too_near_an_edge_it_is_short_on_that_side(strokes):
    """13 mm up from the axis of a 40 mm stroke: 7 mm of 9.5 to the upper edge, straight up."""
    mark = marks(strokes, edit.with_hole_moved(strokes.plan, 1, 200.0, 113.0))[1]
    assert mark.trouble is Trouble.SHORT
    assert mark.short_rad == pytest.approx(math.pi / 2)
    assert mark.figure == "7 of 9.5 mm"


@pytest.mark.parametrize("y", [118.0, 160.0])
def test_cutting_the_edge_or_off_the_metal_it_is_blocked(strokes, y):
    """Ligament gone, or no metal at all."""
    mark = marks(strokes, edit.with_hole_moved(strokes.plan, 1, 200.0, y))[1]
    assert mark.trouble is Trouble.BLOCKED


def test_near_neighbours_are_both_short_towards_each_other(strokes):
    """10 mm apart: each has its wedge towards the other; overlapping, both are blocked."""
    near = marks(strokes, edit.with_hole_moved(strokes.plan, 1, 370.0, 100.0))
    assert near[1].trouble is near[2].trouble is Trouble.SHORT
    assert near[1].short_rad == pytest.approx(0.0)
    assert near[2].short_rad == pytest.approx(math.pi)
    assert near[1].figure.startswith("10 of ")
    over = marks(strokes, edit.with_hole_moved(strokes.plan, 1, 375.0, 100.0))
    assert over[1].trouble is over[2].trouble is Trouble.BLOCKED


def test_selection_and_fixing_are_told(strokes):
    """Both states come through."""
    told = marks(strokes, edit.with_hole_fixed(strokes.plan, 2), frozenset({3}))
    assert told[2].fixed
    assert told[3].selected


def test_without_an_evaluation_holes_are_still_seen(strokes):
    """While a worker makes the outline, holes stay on the screen."""
    found = hole_marks(strokes.plan, None, frozenset(), LengthUnit.MM)
    assert [mark.number for mark in found] == [1, 2, 3, 4, 5]


def test_a_figure_stands_beside_its_limit_with_one_unit():
    """Millimetres or inches."""
    assert of_limit(9.84, 12.7, LengthUnit.MM) == "9.84 of 12.7 mm"
    assert of_limit(12.7, 25.4, LengthUnit.INCH) == "1/2 of 1 in"


def test_a_hole_that_is_as_before_keeps_its_very_mark(strokes):
    """So that views need not look at it again."""
    before = marks(strokes, strokes.plan)
    after = marks(strokes, edit.with_hole_moved(strokes.plan, 2, 210.0, 100.0))
    assert after[1] is before[1]
    assert after[2] is not before[2]
