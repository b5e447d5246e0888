"""The coupon, and the hole that fitted."""

from dataclasses import replace

import pytest

from holeplacer.plan import edit
from holeplacer.plan.sections import CouponChoice


@pytest.fixture
def group(sections_stage):
    return sections_stage.coupon


def labels(group):
    return [group.fitted.itemText(row) for row in range(group.fitted.count())]


def test_steps_and_size_are_the_plans(group, session, sections_stage, type_in, refresh):
    """Each one step; the holes to choose from follow."""
    assert len(labels(group)) == 5
    group.steps.setValue(3)
    refresh(sections_stage)
    assert session.committed.sections.coupon.steps == 3
    assert len(labels(group)) == 7
    type_in(group.step.entry, "0.3 mm")
    refresh(sections_stage)
    assert session.committed.sections.coupon.step_mm == pytest.approx(0.3)
    assert labels(group)[4] == "marked 7.44"


def test_the_hole_that_fitted_goes_into_the_plan_by_one_act(group, session):
    """Chosen by its mark; undone at once."""
    group.fitted.chosen.emit("7.54")
    group.take.click()
    assert session.committed.standoff.hole_mm == pytest.approx(7.544)
    assert session.undo_stack.undoText().startswith("Plan with the hole that fitted, 7.54 mm")
    session.undo_stack.undo()
    assert session.committed.standoff.hole_mm == pytest.approx(7.144)


def test_a_plate_too_small_is_told(group, session, sections_stage, refresh):
    """In place, with what it needs; no hole can be chosen then."""
    plan = session.committed
    small = replace(plan.sections, coupon=CouponChoice(width_mm=10.0, height_mm=10.0))
    session.push(edit.with_sections(plan, small), "Small plate")
    refresh(sections_stage)
    assert "too small" in group._error.text()
    assert labels(group) == []
    assert not group.take.isEnabled()
