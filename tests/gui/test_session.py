"""One plan, its steps, its selection; previews leave no step."""

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.gui.session import Session
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.units import LengthUnit
from tests.gui.conftest import SIGN


@pytest.fixture
def session(qtbot):
    """The small sign, laid out."""
    made = Session()
    made.start(Plan(ArtworkFile("sign.svg", SIGN.encode())))
    qtbot.waitUntil(lambda: made.evaluation is not None, timeout=20_000)
    yield made
    made.evaluator.wait(20_000)


@pytest.fixture
def place(session):
    """A place on the bar that takes holes, and one further along it."""
    left, _, right, _ = session.layout.outline.pieces[0].bounds_mm
    _, bottom, _, top = session.layout.outline.pieces[0].bounds_mm
    return (left + right) / 2, (bottom + top) / 2


def test_push_is_a_step_and_is_evaluated_at_once(session, place):
    """A hole added is in the plan and has figures before the next event."""
    session.push(edit.with_hole_added(session.committed, *place), "Add hole 1")
    assert session.undo_stack.undoText() == "Add hole 1"
    assert [hole.number for hole in session.evaluation.holes] == [1]
    session.undo_stack.undo()
    assert session.plan.holes == ()
    assert session.evaluation.holes == ()


def test_preview_leaves_no_step(session, place):
    """While a gesture lasts the figures follow; giving it up shows the committed plan."""
    before = session.committed
    session.preview(edit.with_hole_added(before, *place))
    assert session.plan is not before
    assert session.committed is before
    assert len(session.evaluation.holes) == 1
    session.preview(None)
    assert session.plan is before
    assert session.undo_stack.count() == 0


def test_pushing_the_same_plan_is_no_step(session):
    """An act that changes nothing leaves nothing to undo."""
    session.push(session.committed, "Nothing")
    assert session.undo_stack.count() == 0


def test_a_gesture_is_one_step(session, place):
    """Pushes with one number merge."""
    session.push(edit.with_hole_added(session.committed, *place), "Add hole 1")
    gesture = session.new_gesture()
    for step in range(5):
        moved = edit.with_hole_moved(session.committed, 1, place[0] + step, place[1])
        session.push(moved, "Move hole 1", gesture)
    assert session.undo_stack.count() == 2
    assert session.new_gesture() != gesture


def test_selection_drops_what_is_gone(session, place, qtbot):
    """Deleting a selected hole deselects it."""
    session.push(edit.with_hole_added(session.committed, *place), "Add hole 1")
    with qtbot.waitSignal(session.selection_changed):
        session.select_holes({1})
    session.push(edit.without_hole(session.committed, 1), "Delete hole 1")
    assert session.selected_holes == frozenset()


def test_a_finding_selects_its_hole_and_jumps(session, place, qtbot):
    """Choosing a finding goes to its place; when it is cured it is deselected."""
    edge = edit.with_hole_added(session.committed, place[0], place[1] + 17)
    session.push(edge, "Add hole 1")
    (finding,) = [f for f in session.evaluation.findings if f.rule == "edge_distance"]
    with qtbot.waitSignal(session.place_shown) as told:
        session.select_finding(finding)
    assert told.args == list(finding.place.xy_mm)
    assert session.selected_holes == {1}
    session.push(edit.with_hole_moved(session.committed, 1, *place), "Move hole 1")
    assert session.selected_finding is None


def test_unit_is_shown_not_kept_in_the_plan(session, qtbot):
    """Inches change what is shown, nothing in the plan."""
    plan = session.plan
    with qtbot.waitSignal(session.unit_changed):
        session.set_unit(LengthUnit.INCH)
    with qtbot.assertNotEmitted(session.unit_changed):
        session.set_unit(LengthUnit.INCH)
    assert session.plan is plan


def test_points_are_collected_and_handed_over(session):
    """As many points as were asked for arrive together."""
    got = []
    session.ask_points("Click two points", 2, got.append)
    session.give_point(1.0, 2.0)
    assert session.pick.points == ((1.0, 2.0),)
    session.give_point(3.0, 4.0)
    assert got == [((1.0, 2.0), (3.0, 4.0))]
    assert session.pick is None
    session.give_point(5.0, 6.0)
    assert len(got) == 1


def test_another_document_begins_afresh(session, place, qtbot):
    """No steps, no selection, no figures of the last one remain."""
    session.push(edit.with_hole_added(session.committed, *place), "Add hole 1")
    session.select_holes({1})
    with qtbot.waitSignal(session.opened):
        session.start(Plan(ArtworkFile("other.svg", SIGN.encode())))
    assert session.undo_stack.count() == 0
    assert session.selected_holes == frozenset()
    assert session.evaluation is None


def test_a_proposal_counts_while_its_holes_stay(session, place):
    """Fixing or numbering keeps it, moving a hole does not; undo brings it back."""
    plan = edit.with_hole_added(session.committed, *place)
    proposal = object()
    session.keep_proposal(plan, proposal)
    session.push(plan, "Propose holes")
    assert session.proposal is proposal
    session.push(edit.with_hole_fixed(session.committed, 1), "Fix hole 1")
    assert session.proposal is proposal
    session.push(edit.with_hole_moved(session.committed, 1, place[0] + 5, place[1]), "Move hole 1")
    assert session.proposal is None
    session.undo_stack.undo()
    assert session.proposal is proposal


def test_seams_are_selected_instead_of_holes(session, strokes):
    """One or the other; those that are gone are no longer selected."""
    seams = (Seam(240.0, 80.0, 240.0, 120.0), Seam(500.0, 80.0, 500.0, 120.0))
    session.push(edit.with_seams(session.committed, seams), "Divide")
    session.select_holes({1})
    session.select_seams({0, 1})
    assert (session.selected_holes, session.selected_seams) == (frozenset(), {0, 1})
    session.push(edit.without_seam(session.committed, 1), "Delete seam 2")
    assert session.selected_seams == {0}
    session.select_holes({2})
    assert session.selected_seams == frozenset()


def test_a_finding_selects_the_seam_it_is_about(session):
    """And jumps to it."""
    near = Seam(1195.0, 93.0, 1195.0, 107.0)
    session.push(edit.with_seams(session.committed, (near,)), "Too near a tip")
    (finding,) = [item for item in session.evaluation.findings if item.rule == "seams"]
    places = []
    session.place_shown.connect(lambda x, y: places.append((x, y)))
    session.select_finding(finding)
    assert session.selected_seams == {0}
    assert places == [(1195.0, 100.0)]
