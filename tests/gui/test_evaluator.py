"""Outline and findings keep in step with the plan; only the newest plan counts."""

import threading
from dataclasses import replace

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import Cancelled, HoleplacerError, UnitsMissing
from holeplacer.evaluation import layout as layouts
from holeplacer.gui import evaluator
from holeplacer.gui.evaluator import Evaluator
from holeplacer.plan import edit
from holeplacer.plan.hole import Boss
from holeplacer.plan.plan import Plan
from tests.gui.conftest import SIGN, UNITLESS


@pytest.fixture
def plan():
    return Plan(ArtworkFile("sign.svg", SIGN.encode()))


@pytest.fixture
def made(qtbot, plan):
    """An evaluator that has laid the small sign out."""
    one = Evaluator()
    with qtbot.waitSignal(one.evaluation_changed, timeout=20_000):
        one.evaluate(plan)
    yield one
    assert one.wait(20_000)


def test_holes_are_checked_in_the_same_frame(made, plan, qtbot):
    """A hole or a limit makes no worker run; the outline stays the very same."""
    outline = made.layout.outline
    with qtbot.assertNotEmitted(made.busy_changed):
        made.evaluate(edit.with_hole_added(plan, 300, 100))
    assert len(made.evaluation.holes) == 1
    assert made.layout.outline is outline


def test_another_outline_is_made_by_a_worker(made, plan, qtbot):
    """An offset lays out anew; until then the last outline stays."""
    outline = made.layout.outline
    with qtbot.waitSignal(made.layout_changed, timeout=20_000):
        made.evaluate(edit.with_offset(plan, 2.0))
        assert made.layout.outline is outline
        assert made.busy
    assert made.layout.outline.area_mm2 > outline.area_mm2
    assert made.busy == ""


def test_only_the_newest_plan_is_laid_out(made, plan, qtbot, monkeypatch):
    """Of many changes in a row the ones in between are passed over."""
    offsets, real = [], layouts.lay_out

    def counted(plan, previous=None, step=None):
        offsets.append(plan.offset_mm)
        return real(plan, previous, step)

    monkeypatch.setattr(layouts, "lay_out", counted)
    for tenths in range(1, 11):
        made.evaluate(edit.with_offset(plan, tenths / 10))
    qtbot.waitUntil(lambda: made.layout.plan.offset_mm == 1.0, timeout=20_000)
    assert set(offsets) == {0.1, 1.0}


def test_units_that_are_missing_are_a_problem(qtbot):
    """A drawing without units is no fault: it asks; an answer cures it."""
    one = Evaluator()
    plan = Plan(ArtworkFile("sign.svg", UNITLESS.encode()))
    with qtbot.waitSignal(one.problem_changed, timeout=20_000):
        one.evaluate(plan)
    assert isinstance(one.problem, UnitsMissing)
    assert one.layout is None
    with qtbot.waitSignal(one.layout_changed, timeout=20_000):
        one.evaluate(replace(plan, reading=replace(plan.reading, units="mm")))
    assert one.problem is None
    assert one.wait(20_000)


def test_a_problem_keeps_the_last_outline(made, plan, qtbot):
    """An offset that leaves no metal is told; the outline on the screen stays."""
    outline = made.layout.outline
    with qtbot.waitSignal(made.problem_changed, timeout=20_000):
        made.evaluate(edit.with_offset(plan, -30.0))
    assert isinstance(made.problem, HoleplacerError)
    assert made.layout.outline is outline
    made.evaluate(plan)
    assert made.problem is None


def test_what_is_forgotten_does_not_come_back(made, plan, qtbot):
    """A layout still under way for the last document is not shown in the next."""
    made.evaluate(edit.with_offset(plan, 1.0))
    made.forget()
    other = Plan(ArtworkFile("other.svg", SIGN.encode()))
    with qtbot.waitSignal(made.evaluation_changed, timeout=20_000):
        made.evaluate(other)
    assert made.layout.plan is other


def test_a_task_can_be_stopped(made, qtbot):
    """Stopping ends a task with `Cancelled` and leaves nothing busy."""
    begun, failed = threading.Event(), []

    def work(task):
        begun.set()
        while not task.is_cancelled():
            begun.wait(0.001)

    task = made.run("Waiting", work, pytest.fail, failed.append)
    assert begun.wait(10)
    assert made.can_stop
    assert made.running(task)
    made.cancel()
    qtbot.waitUntil(lambda: not made.busy)
    assert isinstance(failed[0], Cancelled)
    assert not made.running(task)


def test_a_new_task_takes_the_place_of_the_old(made, qtbot):
    """The result of a task that was replaced is not taken."""
    got = []
    made.run("First", lambda task: task.is_cancelled(), got.append, lambda _error: None)
    made.run("Second", lambda _task: 2, got.append, pytest.fail)
    qtbot.waitUntil(lambda: not made.busy)
    made.wait()
    qtbot.wait(20)
    assert got == [2]


@pytest.mark.parametrize(
    ("change", "same"),
    [
        (lambda plan: edit.with_hole_added(plan, 1, 2), True),
        (lambda plan: replace(plan, limits=replace(plan.limits, spacing_mm=200)), True),
        (lambda plan: edit.with_offset(plan, 1), False),
        (lambda plan: edit.with_boss(plan, Boss(1, 2, 3, 4)), False),
        (lambda plan: replace(plan, reading=replace(plan.reading, mirror=True)), False),
        (lambda plan: replace(plan, artwork=ArtworkFile("sign.svg", b"other")), False),
    ],
)
def test_what_makes_another_outline(plan, change, same):
    """Artwork, reading, offset and bosses do; holes and limits don't."""
    assert evaluator.same_outline(plan, change(plan)) is same
