"""Seams proposed and sections laid by a worker."""

from dataclasses import replace

import pytest

from holeplacer.cutting import hand_layout
from holeplacer.errors import Cancelled, InputError
from holeplacer.gui.divider import Divider
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.plan import edit
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import choice
from holeplacer.sheet.stock import Stock

SHEETS = SectionsChoice(stock=(Stock(700.0, 500.0, True),), seam_clear_mm=10.0)


@pytest.fixture
def divider(session):
    made = Divider(session)
    session.push(edit.with_sections(session.committed, SHEETS), "Sheets")
    return made


@pytest.fixture
def opened_stage(divider, session, qtbot):
    SectionsShown.of(session).set_open(True)
    return divider


def proposed(divider, qtbot):
    divider.propose()
    qtbot.waitUntil(lambda: not divider.working and divider.choice is not None, timeout=30_000)


def laid(divider, qtbot):
    qtbot.waitUntil(lambda: divider.division is not None, timeout=30_000)


def test_a_proposal_is_one_step_and_holes_stay(divider, session, qtbot):
    """Seams come, fixed ones stay, undo takes them back."""
    holes = session.committed.holes
    fixed = Seam(240.0, 80.0, 240.0, 120.0, fixed=True)
    session.push(edit.with_seams(session.committed, (fixed,)), "Fix one")
    proposed(divider, qtbot)
    assert fixed in session.committed.seams
    assert len(session.committed.seams) > 1
    assert session.committed.holes == holes
    assert session.undo_stack.undoText() == "Propose seams"
    session.undo_stack.undo()
    assert session.committed.seams == (fixed,)
    assert divider.choice is None


def test_nothing_is_laid_while_the_stage_is_shut(divider, session, qtbot):
    """No worker is troubled for what nobody looks at."""
    proposed(divider, qtbot)
    qtbot.wait(500)
    assert not divider.working
    assert divider.division is None


def test_sections_are_laid_and_other_ways_weighed(opened_stage, session, qtbot):
    """By themselves, once the stage is open; a seam moved makes only the division anew."""
    proposed(opened_stage, qtbot)
    laid(opened_stage, qtbot)
    qtbot.waitUntil(lambda: len(opened_stage.compared) == 2, timeout=30_000)
    assert opened_stage.division.layout is not None
    known, compared = opened_stage.division, opened_stage.compared
    plan = session.committed
    session.push(edit.without_seam(plan, 0), "Delete seam 1")
    assert opened_stage.division is None
    assert opened_stage.last is known
    assert opened_stage.compared == compared
    session.undo_stack.undo()
    assert opened_stage.division is known


def test_another_way_is_taken_as_one_step(opened_stage, session, qtbot):
    """The plan has its seams then."""
    qtbot.waitUntil(lambda: len(opened_stage.compared) == 2, timeout=30_000)
    way = opened_stage.compared[0].way
    opened_stage.take(way.name)
    assert session.committed.seams == way.seams
    assert session.undo_stack.undoText() == f"Take the seams of the {way.name}"


def test_a_hand_placing_is_kept_in_the_plan(opened_stage, session, qtbot):
    """At once, without a worker; the rest stays when it is laid out anew."""
    proposed(opened_stage, qtbot)
    laid(opened_stage, qtbot)
    before = opened_stage.division.layout
    number = before.placed[0].section
    moved = hand_layout.moved(before, number, 5.0, 5.0)
    opened_stage.place_by_hand(moved, number, "Move section", session.new_gesture())
    assert opened_stage.division.layout.placed[0] == moved.placed[0]
    assert [item.by_hand for item in session.committed.laid].count(True) == 1
    opened_stage.lay_anew()
    assert len(session.committed.laid) == 1
    laid(opened_stage, qtbot)
    (placed,) = [p for p in opened_stage.division.layout.placed if p.section == number]
    wanted = next(p for p in moved.placed if p.section == number)
    assert (placed.x_mm, placed.y_mm) == pytest.approx((wanted.x_mm, wanted.y_mm))
    opened_stage.forget_hands()
    assert session.committed.laid == ()


def test_what_cannot_be_divided_is_told_in_one_sentence(divider, session, qtbot):
    """The failure is kept until the next try."""
    small = replace(SHEETS, stock=(Stock(60.0, 60.0, True),))
    session.push(edit.with_sections(session.committed, small), "Small sheets")
    divider.propose()
    qtbot.waitUntil(lambda: divider.failure is not None, timeout=30_000)
    assert isinstance(divider.failure, InputError)
    assert not divider.working


def test_stopped_nothing_is_changed(divider, session, qtbot, monkeypatch):
    """The worker ends at its next look; the person is told."""

    def slow(*_args, cancelled, **_more):
        while not cancelled():
            pass
        raise Cancelled("stopped")

    monkeypatch.setattr(choice, "choose", slow)
    said = []
    session.notice.connect(said.append)
    before = session.committed
    divider.propose()
    assert divider.proposing
    divider.stop()
    qtbot.waitUntil(lambda: not divider.working, timeout=10_000)
    assert session.committed is before
    assert said == ["Stopped; nothing was changed."]


def test_a_plan_that_changed_meanwhile_is_not_overwritten(divider, session, qtbot):
    """The person is asked to propose again."""
    said = []
    session.notice.connect(said.append)
    divider.propose()
    session.push(edit.with_hole_added(session.committed, 500.0, 100.0), "Add hole")
    after = session.committed
    qtbot.waitUntil(lambda: not divider.working, timeout=30_000)
    assert session.committed is after
    assert "propose again" in said[-1]


def test_nothing_is_begun_once_the_window_closes(opened_stage, session, qtbot):
    """A worker begun after the last wait would keep the program from ending."""
    assert session.evaluator.wait(10_000)
    session.push(edit.with_hole_added(session.committed, 500.0, 100.0), "Add hole")
    qtbot.wait(500)
    assert not opened_stage.working
