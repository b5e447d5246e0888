"""The primary act, its result and what one more hole would buy."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from holeplacer.errors import Cancelled, InputError
from holeplacer.gui import proposer
from holeplacer.placement import propose
from holeplacer.plan import edit


@pytest.fixture
def group(opened, qtbot):
    opened.rail.setCurrentRow(3)
    made = opened.hole_stage.proposal
    made.refresh()
    return made


def press(qtbot, group):
    qtbot.mouseClick(group.button, Qt.MouseButton.LeftButton)


def test_result_is_said_in_words(group, opened, qtbot):
    """Count, proof, longest span and its limit; what can't be held is said too."""
    press(qtbot, group)
    qtbot.waitUntil(lambda: "proven fewest" in group._result.text(), timeout=30_000)
    count = len(opened.session.plan.holes)
    assert group._result.text().startswith(f"✓ {count} holes: proven fewest. Longest span ")
    assert "(at most 300 mm)" in group._result.text()
    assert group._result.text().endswith("An estimate for planning, not an approval.")
    assert "can't be reached by any hole" in group._left_open.text()


def test_a_hole_moved_by_hand_is_no_proof(group, opened, qtbot):
    """After a move the result does not claim to be proven; undo brings it back."""
    press(qtbot, group)
    qtbot.waitUntil(lambda: "proven" in group._result.text(), timeout=30_000)
    hole = opened.session.plan.holes[0]
    moved = edit.with_hole_moved(opened.session.committed, hole.number, hole.x_mm + 2, hole.y_mm)
    opened.session.push(moved, "Move hole")
    qtbot.waitUntil(lambda: "by hand" in group._result.text())
    opened.session.undo_stack.undo()
    qtbot.waitUntil(lambda: "proven" in group._result.text())


def test_a_given_count(group, opened, qtbot):
    """Entering a count chooses it; the best places for it are proposed."""
    group._count.setValue(6)
    assert group._given.isChecked()
    press(qtbot, group)
    qtbot.waitUntil(lambda: len(opened.session.plan.holes) == 6, timeout=30_000)
    assert group._count.suffix() == " holes"


def test_the_button_stops_while_it_works(group, opened, qtbot, monkeypatch):
    """The same button stops; progress is shown meanwhile."""

    def endless(*_args, progress, cancelled, **_more):
        progress(0.25, "covering")
        while not cancelled():
            pass
        raise Cancelled("stopped")

    monkeypatch.setattr(propose, "propose", endless)
    press(qtbot, group)
    qtbot.waitUntil(lambda: group._bar.value() == 250)
    assert group.button.text() == "Stop"
    press(qtbot, group)
    qtbot.waitUntil(lambda: group.button.text() == "Propose holes")
    assert not group._bar.isVisible()


def test_what_cannot_be_proposed_is_told_in_place(group, qtbot, monkeypatch):
    """The sentence stands below the button."""

    def fail(*_args, **_more):
        raise InputError("1 new hole is too few")

    monkeypatch.setattr(propose, "propose", fail)
    press(qtbot, group)
    qtbot.waitUntil(lambda: "too few" in group._failure.text(), timeout=30_000)


def test_too_few_for_the_limits_is_said(group, opened, qtbot):
    """Fewer holes than the spacing needs: what they could keep is said, nothing is proven."""
    plan = opened.session.committed
    limits = replace(plan.limits, spacing_mm=200.0, overhang_mm=100.0)
    opened.session.push(edit.with_limits(plan, limits), "Set limits")
    group._count.setValue(2)
    press(qtbot, group)
    qtbot.waitUntil(lambda: "too few for the limits" in group._result.text(), timeout=30_000)
    assert "proven" not in group._result.text()


def test_one_way_or_the_other(group, qtbot):
    """Fewest and a given count exclude each other."""
    group._count.setValue(7)
    assert not group._fewest.isChecked()
    group._fewest.setChecked(True)
    assert not group._given.isChecked()


def test_curve_is_shown_and_chosen_from(group, opened, qtbot, monkeypatch):
    """The chart appears on request; choosing a count proposes it."""
    monkeypatch.setattr(proposer, "_MORE", 2)
    press(qtbot, group)
    qtbot.waitUntil(lambda: "proven" in group._result.text(), timeout=30_000)
    qtbot.mouseClick(group._weigh, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not group._chart.isHidden(), timeout=60_000)
    group._chart.chosen.emit(5)
    qtbot.waitUntil(lambda: len(opened.session.plan.holes) == 5, timeout=30_000)


def test_where_no_hole_fits_the_widths_are_said(group, opened, qtbot):
    """With a hole wider than any stroke nothing is called proven; rail and list say so too."""
    plan = opened.session.committed
    wide = replace(plan, holes=(), standoff=replace(plan.standoff, stud_mm=30.0, hole_mm=32.0))
    opened.session.push(wide, "Take huge hardware")
    press(qtbot, group)
    qtbot.waitUntil(lambda: "No hole fits" in group._result.text(), timeout=30_000)
    assert "the widest stroke is 40 mm wide, a hole needs 90 mm" in group._result.text()
    state = opened.hole_stage.state()
    assert (state.figure, state.open_count > 0) == ("no hole fits", True)
    model = opened.findings.view.model()
    figures = [model.index(row, 2).data() for row in range(model.rowCount())]
    assert "no hole" in figures
    assert not any("inf" in figure for figure in figures)
