"""The primary act, and the selected seam."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.errors import Cancelled
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.plan import edit
from holeplacer.seams import choice


@pytest.fixture
def group(sections_stage):
    return sections_stage.seams


def test_the_result_is_said_in_words(group, session, divider, qtbot, refresh):
    """Fewest sections and the weld, proven; by hand it is no proof any more."""
    qtbot.mouseClick(group.button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: divider.choice is not None, timeout=30_000)
    refresh(group._stage)
    assert "section" in group._result.text()
    assert "of weld" in group._result.text()
    session.push(edit.without_seam(session.committed, 0), "Delete seam 1")
    refresh(group._stage)
    assert "of weld" not in group._result.text()


def test_without_a_sheet_there_is_nothing_to_propose(group, session, refresh):
    """The button waits; the form says why."""
    plan = edit.with_seams(session.committed, ())
    session.push(edit.with_sections(plan, type(plan.sections)()), "No sheets")
    refresh(group._stage)
    assert not group.button.isEnabled()
    assert group._result.text().startswith("Enter a sheet at hand first")


def test_the_selected_seam_is_shown_with_its_limits(group, session, refresh):
    """Weld length and distances; several say how many."""
    assert group._hint.text() != ""
    session.select_seams({0})
    refresh(group._stage)
    assert group._title.text() == "Seam 1"
    assert "weld length 40 mm" in group._figures.text()
    assert "(at least 15 mm)" in group._figures.text()


def test_fix_and_delete_act_on_it(group, session, refresh, qtbot):
    """Each is one step."""
    session.select_seams({0})
    refresh(group._stage)
    group._fixed.click()
    assert session.committed.seams[0].fixed
    refresh(group._stage)
    assert group._fixed.isChecked()
    group._delete.click()
    assert session.committed.seams == ()


def test_placing_is_taken_up_and_put_down(group, session):
    """The button says what to do; pressed again it is over."""
    shown = SectionsShown.of(session)
    group.place.click()
    assert shown.placing
    assert group.place.text().startswith("Click a stroke")
    group.place.click()
    assert not shown.placing
    assert not group.place.isChecked()
    group.place.click()
    session.give_point(240.0, 100.0)
    assert len(session.committed.seams) == 2
    assert not group.place.isChecked()


def test_the_button_stops_while_it_works(group, divider, monkeypatch, qtbot, refresh):
    """Its words change and it stops the worker."""

    def slow(*_args, cancelled, **_more):
        while not cancelled():
            pass
        raise Cancelled("stopped")

    monkeypatch.setattr(choice, "choose", slow)
    group.act()
    refresh(group._stage)
    assert group.button.text() == "Stop"
    assert group._bar.isVisible()
    group.act()
    qtbot.waitUntil(lambda: not divider.working, timeout=10_000)
    refresh(group._stage)
    assert group.button.text() == "Propose seams"
