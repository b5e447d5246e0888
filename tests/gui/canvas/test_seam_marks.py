"""What is seen of seams follows from plan and findings."""

import pytest

from holeplacer.evaluation import evaluate
from holeplacer.gui.canvas.seam_marks import seam_marks
from holeplacer.plan import edit
from holeplacer.plan.seam import Seam
from holeplacer.units import LengthUnit

GOOD = Seam(240.0, 80.0, 240.0, 120.0)
AT_HOLE = Seam(110.0, 80.0, 110.0, 120.0, fixed=True)
NEAR_TIP = Seam(1195.0, 93.0, 1195.0, 107.0)
NOT_THROUGH = Seam(700.0, 80.0, 700.0, 100.0)


@pytest.fixture
def marks(strokes):
    plan = edit.with_seams(strokes.plan, (GOOD, AT_HOLE, NEAR_TIP, NOT_THROUGH))
    found = evaluate.evaluate(plan, strokes.outline, strokes.axis)
    return seam_marks(plan, found, frozenset({0}), LengthUnit.MM)


def test_a_seam_within_the_rules_is_plain(marks):
    """Place, way across, selection; no trouble."""
    assert (marks[0].x_mm, marks[0].y_mm) == (240.0, 100.0)
    assert marks[0].across_mm == (0.0, 20.0)
    assert (marks[0].selected, marks[0].fixed, marks[0].trouble) == (True, False, "")


def test_too_near_a_hole_names_it_with_the_figure(marks):
    """Distance and limit, with the unit."""
    assert marks[1].fixed
    assert marks[1].trouble.startswith("hole 1: 10 of 18.")
    assert marks[1].trouble.endswith(" mm")


def test_too_near_a_tip_says_the_figure(marks):
    """Distance and what it must be."""
    assert marks[2].trouble == "5 of 15 mm"


def test_a_seam_that_parts_nothing_says_so(marks):
    """No figure would tell it."""
    assert marks[3].trouble == "parts nothing"


def test_without_an_evaluation_all_are_plain(strokes):
    """Nothing is claimed before it is known."""
    plan = edit.with_seams(strokes.plan, (AT_HOLE,))
    (mark,) = seam_marks(plan, None, frozenset(), LengthUnit.INCH)
    assert mark.trouble == ""
