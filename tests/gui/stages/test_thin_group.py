"""Strokes too thin for a hole."""

from dataclasses import replace

from holeplacer.plan.limits import Limits


def test_the_thin_end_is_listed_and_shown(sheet_stage, session, qtbot):
    """The 14 mm stroke from x 900 on; a click jumps there."""
    group = sheet_stage.thin
    assert "needs 19 mm of clear width" in group.said.text()
    first = group.buttons[0]
    assert first.isVisible()
    assert "14 mm wide on average" in first.text() or "14.1 mm wide" in first.text()
    with qtbot.waitSignal(session.place_shown) as told:
        first.click()
    assert 900 < told.args[0] < 1200


def test_nothing_thin_says_so(sheet_stage, session, refresh):
    """With a small demand every stroke has the width."""
    standoff = replace(session.committed.standoff, stud_mm=2.0, hole_mm=2.4, cap_mm=0.0)
    limits = Limits(edge_distance_mm=3.0, ligament_mm=1.0)
    session.push(replace(session.committed, standoff=standoff, limits=limits), "Small")
    refresh(sheet_stage)
    assert "Every stroke has it" in sheet_stage.thin.said.text()
    assert not any(button.isVisible() for button in sheet_stage.thin.buttons)
