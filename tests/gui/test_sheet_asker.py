"""The sheet is asked off the window's thread; its answer belongs to one plan."""

import pytest

from holeplacer.gui.stages.loading_rows import changed


@pytest.fixture
def asker(blown, qtbot):
    (made,) = [stage.limits.asker for stage in blown.stages if stage.NAME == "Strength"]
    made.ask()
    qtbot.waitUntil(lambda: made.found is not None, timeout=60_000)
    return made


def test_an_answer_is_that_of_its_plan(asker, blown):
    """Another wind makes it stale; undo brings it back."""
    blown.session.push(changed(blown.session.committed, "pressure_out_pa", 500.0), "Calmer")
    assert asker.stale
    assert asker.found is None
    blown.session.undo_stack.undo()
    assert not asker.stale
    assert asker.found is not None


def test_taking_is_one_step(asker, blown):
    """Spacing, overhang and holes come together; undo gives back what was."""
    before, found = blown.session.committed, asker.found
    assert found.spacing.enough
    asker.take_spacing()
    assert blown.session.committed.limits.spacing_mm == found.spacing.spacing_mm
    assert blown.session.committed.holes == found.spacing.holes
    blown.session.undo_stack.undo()
    assert blown.session.committed == before
    assert found.gauge.enough
    asker.take_gauge()
    assert blown.session.committed.sheet.gauge == found.gauge.gauge.number
    assert blown.session.committed.holes == before.holes
