"""Sections kept on their sheets."""

import math
from dataclasses import replace

import numpy as np
import pytest

from holeplacer.errors import InputError
from holeplacer.plan import edit, plan_file, validity
from holeplacer.plan.laid import LaidSection
from holeplacer.sheet.stock import Stock

LAID = LaidSection(100.0, 50.0, 9000.0, Stock(1200.0, 1000.0, True), 0, 300.0, 200.0, 0.5, True)


def test_places_are_kept_in_the_plan_file(plan):
    """What was laid by hand is read back as it was."""
    kept = edit.with_laid(plan, [LAID, replace(LAID, sheet=1, by_hand=False)])
    assert plan_file.plan_from_bytes(plan_file.plan_bytes(kept), "a").laid == kept.laid


def test_a_turned_sign_leaves_sections_on_their_sheets(plan):
    """The sign turned by a quarter: the section lies where it did, turned back by as much."""
    turn = np.array([[0.0, -1.0, 7.0], [1.0, 0.0, 0.0]])
    (item,) = edit.carried(edit.with_laid(plan, [LAID]), turn).laid
    assert (item.x_mm, item.y_mm) == pytest.approx((-50.0 + 7.0, 100.0))
    assert item.angle_rad == pytest.approx(0.5 - math.pi / 2)
    assert (item.at_x_mm, item.at_y_mm, item.by_hand) == (300.0, 200.0, True)


def test_a_sign_of_another_size_is_laid_anew(plan):
    """Scaled or mirrored, sections are others: no place is kept."""
    kept = edit.with_laid(plan, [LAID])
    assert edit.carried(kept, np.array([[1.1, 0, 0], [0, 1.1, 0]])).laid == ()
    assert edit.carried(kept, np.array([[-1.0, 0, 0], [0, 1.0, 0]])).laid == ()


@pytest.mark.parametrize(
    "change", [{"x_mm": math.nan}, {"sheet": -1}, {"angle_rad": 1e9}, {"area_mm2": -1.0}]
)
def test_places_that_cannot_be_meant_are_refused(plan, change):
    """Every figure has bounds."""
    with pytest.raises(InputError, match="section"):
        validity.checked(edit.with_laid(plan, [replace(LAID, **change)]))
