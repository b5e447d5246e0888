"""Heat and cold: what moves, about which hole, and what one hole needs."""

from dataclasses import replace

import pytest

from holeplacer.units import LengthUnit


@pytest.fixture
def group(standoffs_stage):
    return standoffs_stage.movement


def test_each_piece_has_its_fixed_point_named(group):
    """Temperatures, and the hole each piece grows about."""
    said = group.said.text()
    assert "from -20 °C to 60 °C, hung at 20 °C" in said
    assert "Each piece grows about one hole, which stays round: 2, 5." in said
    assert said.endswith("In millimetres:")
    assert group.table.rowCount() == 5


def test_the_selected_hole_in_words(group, session, refresh, standoffs_stage):
    """Both movements, round hole, slot with its direction; its fixed point says it is one."""
    session.select_holes([3])
    refresh(standoffs_stage)
    said = group.of_hole.text()
    assert "Hole 3, 260 mm from hole 2, moves 0.12 mm away from it in heat" in said
    assert "as a slot 7.14 mm × 7.38 mm over all, pointing at hole 2 (0° from" in said
    session.select_holes([2])
    refresh(standoffs_stage)
    assert "Hole 2 stays round" in group.of_hole.text()
    assert not group.about.isEnabled()


def test_another_hole_to_grow_about(group, session, refresh, standoffs_stage):
    """Chosen by the person, and given back to the proposal."""
    session.select_holes([1])
    refresh(standoffs_stage)
    assert group.about.text() == "Let it grow about hole 1"
    group.about.click()
    assert session.plan.holes[0].fixed_point
    assert session.undo_stack.undoText() == "Let the sheet grow about hole 1"
    refresh(standoffs_stage)
    assert "which stays round: 1, 5." in group.said.text()
    group.about.click()
    assert not session.plan.holes[0].fixed_point


def test_nothing_selected_nothing_said(group):
    """Neither words of one hole nor its button."""
    assert not group.of_hole.isVisible()
    assert not group.about.isVisible()


def test_fahrenheit_and_no_holes(group, session, refresh, standoffs_stage):
    """Inches go with Fahrenheit; without holes nothing moves."""
    session.push(replace(session.committed, holes=()), "Delete all")
    session.set_unit(LengthUnit.INCH)
    refresh(standoffs_stage)
    assert "from -4 °F to 140 °F, hung at 68 °F" in group.said.text()
    assert "nothing to move yet" in group.said.text()
