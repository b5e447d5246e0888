"""Steps on seams without a held pointer."""

import pytest

from holeplacer.gui.canvas.seam_commands import SeamCommands
from holeplacer.plan.seam import Seam
from holeplacer.units import MM_PER_INCH, LengthUnit


@pytest.fixture
def commands(session):
    return SeamCommands(session)


@pytest.fixture
def seam(commands):
    """One seam across the stroke at x 240, selected."""
    assert commands.add((240.0, 112.0)) == 0


def test_a_seam_goes_straight_across_the_stroke(commands, session, seam):
    """Pointed at beside the axis, it runs from edge to edge through the axis, and is selected."""
    (made,) = session.committed.seams
    assert made.middle_mm == pytest.approx((240.0, 100.0), abs=0.1)
    assert made.length_mm == pytest.approx(40.0, abs=0.1)
    assert session.selected_seams == {0}
    assert session.undo_stack.undoText() == "Add seam 1"


def test_no_stroke_no_seam(commands, session):
    """Beside the metal nothing is put, and it is said."""
    said = []
    session.notice.connect(said.append)
    assert commands.add((240.0, 300.0)) is None
    assert session.committed.seams == ()
    assert "no stroke here" in said[0]


def test_delete_fix_and_undo(commands, session, seam):
    """Each is one step with a name."""
    commands.toggle_fixed()
    assert session.committed.seams[0].fixed
    assert commands.all_fixed
    commands.delete()
    assert session.committed.seams == ()
    assert session.selected_seams == frozenset()
    session.undo_stack.undo()
    session.undo_stack.undo()
    assert not session.committed.seams[0].fixed


def test_several_are_deleted_at_once(commands, session):
    """The rest keep their places, whatever the order."""
    for x in (200.0, 300.0, 500.0):
        commands.add((x, 100.0))
    session.select_seams({0, 2})
    commands.delete()
    (left,) = session.committed.seams
    assert left.middle_mm[0] == pytest.approx(300.0, abs=0.1)
    assert session.undo_stack.undoText() == "Delete 2 seams"


def test_nudging_slides_along_the_stroke_in_one_step(commands, session, seam):
    """To the right along the bar; a run is one step; across the stroke nothing happens."""
    for _ in range(5):
        commands.nudge(1, 0, fine=False)
    assert session.committed.seams[0].middle_mm[0] == pytest.approx(245.0, abs=0.05)
    commands.nudge(-1, 0, fine=True)
    assert session.committed.seams[0].middle_mm[0] == pytest.approx(244.9, abs=0.05)
    before = session.committed
    commands.nudge(0, 1, fine=False)
    assert session.committed is before
    session.undo_stack.undo()
    assert session.committed.seams[0].middle_mm[0] == pytest.approx(240.0, abs=0.1)


def test_inches_nudge_by_sixteenths(commands, session, seam):
    """One step of the unit that is shown."""
    session.set_unit(LengthUnit.INCH)
    commands.nudge(1, 0, fine=False)
    moved = session.committed.seams[0].middle_mm[0] - 240.0
    assert moved == pytest.approx(MM_PER_INCH / 16, abs=0.05)


def test_a_fixed_seam_stays_fixed_when_nudged(commands, session, seam):
    """Moving it by hand does not free it."""
    commands.toggle_fixed()
    commands.nudge(1, 0, fine=False)
    assert session.committed.seams[0].fixed


def test_stepping_goes_through_the_seams_and_ends(commands, session):
    """Next, previous, and out past the last."""
    for x in (200.0, 300.0):
        commands.add((x, 100.0))
    session.select_seams(())
    assert commands.step(1)
    assert session.selected_seams == {0}
    assert commands.step(1)
    assert not commands.step(1)
    assert commands.step(-1)
    assert session.selected_seams == {0}


def test_a_dot_has_no_seam(commands, session):
    """A lone blob is no stroke; the nearest stroke is not taken instead."""
    before = session.committed
    commands.add((630.0, 380.0))
    assert session.committed is before or all(
        isinstance(seam, Seam) for seam in session.committed.seams
    )
    assert len(session.committed.seams) == 0
