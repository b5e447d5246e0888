"""The form as a whole: its figure on the rail, and that it follows the plan."""

from dataclasses import replace


def test_the_rail_says_the_hole(standoffs_stage, session):
    """The main figure is the hole's diameter, in the unit chosen."""
    assert standoffs_stage.state().figure == "hole 7.14 mm"


def test_all_groups_follow_the_plan(standoffs_stage, session, refresh):
    """Hardware, fit and movement are filled from the same plan."""
    standoff = replace(session.committed.standoff, hole_mm=9.0, fit="loose")
    session.push(replace(session.committed, standoff=standoff), "Change")
    refresh(standoffs_stage)
    assert standoffs_stage.fit.hole.entry.text() == "9 mm"
    assert standoffs_stage.fit.fit.currentText() == "loose"
    assert standoffs_stage.movement.table.item(0, 3).text() == "9.00"


def test_unseen_it_waits(standoffs_stage, session, refresh, qtbot):
    """A form that is not shown is not filled at every move of the mouse; shown again it is."""
    standoffs_stage.hide()
    session.push(replace(session.committed, holes=session.committed.holes[:2]), "Delete")
    refresh(standoffs_stage)
    assert standoffs_stage.movement.table.rowCount() == 5
    standoffs_stage.show()
    qtbot.waitUntil(lambda: standoffs_stage.movement.table.rowCount() == 2)
