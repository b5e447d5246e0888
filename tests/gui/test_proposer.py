"""Holes are proposed by a worker, taken as one step, and can be stopped."""

from dataclasses import replace

import pytest

from holeplacer.errors import Cancelled, InputError
from holeplacer.gui import proposer as proposers
from holeplacer.placement import propose
from holeplacer.plan import edit


@pytest.fixture
def proposer(opened):
    return opened.proposer


@pytest.fixture
def session(opened):
    return opened.session


def finished(proposer):
    return lambda: not proposer.working


def test_fewest_holes_are_one_step(proposer, session, qtbot):
    """The bar gets its holes, proven fewest; undo takes all of them away."""
    proposer.propose()
    assert proposer.working
    qtbot.waitUntil(finished(proposer), timeout=30_000)
    assert len(session.plan.holes) == session.proposal.count > 1
    assert session.undo_stack.undoText() == "Propose holes"
    session.undo_stack.undo()
    assert session.plan.holes == ()


def test_a_given_count(proposer, session, qtbot):
    """As many holes as are at hand are placed."""
    proposer.propose(5)
    qtbot.waitUntil(finished(proposer), timeout=30_000)
    assert len(session.plan.holes) == 5


def test_fixed_holes_stay(proposer, session, qtbot):
    """A fixed hole keeps place and number."""
    left, bottom, _right, top = session.layout.outline.pieces[0].bounds_mm
    plan = edit.with_hole_added(session.committed, left + 71, (bottom + top) / 2, fixed=True)
    session.push(plan, "Add hole 1")
    proposer.propose()
    qtbot.waitUntil(finished(proposer), timeout=30_000)
    assert plan.holes[0] in session.plan.holes


def test_it_can_be_stopped(proposer, session, qtbot, monkeypatch):
    """Stopping leaves the plan as it was and says so."""

    def endless(*_args, cancelled, **_more):
        while not cancelled():
            pass
        raise Cancelled("stopped")

    monkeypatch.setattr(propose, "propose", endless)
    before = session.plan
    proposer.propose()
    with qtbot.waitSignal(session.notice) as told:
        proposer.stop()
    assert "Stopped" in told.args[0]
    qtbot.waitUntil(finished(proposer))
    assert session.plan is before
    assert proposer.failure is None


def test_a_failure_is_kept_to_be_told(proposer, session, qtbot, monkeypatch):
    """What can't be proposed is told in place."""

    def fail(*_args, **_more):
        raise InputError("five fixed holes are more than the four wanted")

    monkeypatch.setattr(propose, "propose", fail)
    proposer.propose(4)
    qtbot.waitUntil(finished(proposer))
    assert "four wanted" in str(proposer.failure)


def test_a_plan_that_changed_meanwhile_is_not_overwritten(proposer, session, qtbot):
    """What was proposed for another plan is not taken."""
    proposer.propose()
    session.push(edit.with_hole_added(session.committed, 300, 100), "Add hole 1")
    with qtbot.waitSignal(session.notice, timeout=30_000) as told:
        pass
    assert "changed" in told.args[0]
    assert len(session.plan.holes) == 1


def test_the_curve_goes_down(proposer, session, qtbot, monkeypatch):
    """One more hole never makes the largest span longer; another spacing wants another curve."""
    monkeypatch.setattr(proposers, "_MORE", 3)
    proposer.propose()
    qtbot.waitUntil(finished(proposer), timeout=30_000)
    proposer.draw_curve()
    qtbot.waitUntil(lambda: proposer.curve is not None, timeout=30_000)
    spans = [point.largest_span_mm for point in proposer.curve]
    assert len(spans) > 2
    assert spans == sorted(spans, reverse=True)
    limits = replace(session.committed.limits, spacing_mm=200.0)
    session.push(edit.with_limits(session.committed, limits), "Set spacing")
    assert proposer.curve is None


def test_deflections_by_count_go_with_the_wind(opened, qtbot):
    """Each count's own proposal; another wind forgets them."""
    plan = opened.session.committed
    for x in (60.0, 300.0, 540.0):
        plan = edit.with_hole_added(plan, x, 100.0)
    loading = replace(plan.loading, method="entered", pressure_out_pa=1000.0)
    opened.session.push(edit.with_loading(plan, loading), "Blow")
    proposer = opened.proposer
    proposer.weigh_deflection()
    qtbot.waitUntil(lambda: bool(proposer.deflections), timeout=60_000)
    given = [one.max_deflection_mm for one in proposer.deflections]
    assert given[-1] < given[0]
    less = replace(loading, pressure_out_pa=500.0)
    opened.session.push(edit.with_loading(opened.session.committed, less), "Less")
    assert proposer.deflections == ()
