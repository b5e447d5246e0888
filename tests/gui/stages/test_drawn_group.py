"""What of strength is drawn is chosen in the form."""

import pytest

from holeplacer.gui.stages.loading_rows import changed
from holeplacer.gui.stages.strength import StrengthStage
from holeplacer.gui.strength_shown import Colouring, StrengthShown


@pytest.fixture
def stage(qtbot, windy):
    made = StrengthStage(windy)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    made._refresh()
    return made


def test_every_case_can_be_chosen(stage, strength):
    """And the worst of them."""
    box = stage.drawn._case
    names = [response.name for response in strength.effects.wind]
    names += [case.name for case in strength.effects.in_plane]
    assert [box.itemText(row) for row in range(box.count())] == ["the worst", *names]
    box.chosen.emit(names[1])
    assert StrengthShown.of(stage.session).case == names[1]


def test_in_the_plane_neither_strokes_nor_shape_are_chosen(stage, strength):
    """Weight and temperature push studs; what bends is the wind's."""
    StrengthShown.of(stage.session).set_case(strength.effects.in_plane[0].name)
    stage._refresh()
    assert not stage.drawn._colouring.isEnabled()
    StrengthShown.of(stage.session).set_case("")
    stage._refresh()
    assert stage.drawn._colouring.isEnabled()


def test_choices_change_the_view_not_the_plan(stage):
    """No step to undo."""
    shown, plan = StrengthShown.of(stage.session), stage.session.plan
    stage.drawn._colouring.chosen.emit(Colouring.STRESS)
    stage.drawn._deflected.click()
    stage.drawn._reactions.click()
    assert (shown.colouring, shown.deflected, shown.reactions) == (Colouring.STRESS, True, False)
    assert stage.session.plan is plan
    assert stage.session.undo_stack.count() == 0


def test_without_a_result_there_is_nothing_to_choose(stage):
    """The group goes with the wind."""
    stage.session.push(changed(stage.session.committed, "method", "none"), "Calm")
    stage._refresh()
    assert stage.drawn._case.isHidden()
    assert stage.drawn._heading.isHidden()
