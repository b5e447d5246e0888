"""The figures of the result, each of which leads to its place."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.documents import caution
from holeplacer.gui.stages.loading_rows import changed
from holeplacer.gui.stages.strength import StrengthStage
from holeplacer.gui.strength_words import not_known, worst_known
from holeplacer.units import LengthUnit, format_length


@pytest.fixture
def stage(qtbot, windy):
    made = StrengthStage(windy)
    qtbot.addWidget(made)
    made.resize(340, 1200)
    with qtbot.waitExposed(made):
        made.show()
    made._refresh()
    return made


def line(stage, name):
    return stage.result._rows[name]


def test_figures_are_those_of_the_evaluation(stage, strength):
    """With unit and case; the limit beside the deflection."""
    most = strength.effects.wind[0]
    row, button = line(stage, "Largest deflection")
    assert button.text() == format_length(most.max_deflection_mm, LengthUnit.MM)
    assert "span/60" in row.note.text()
    row, button = line(stage, "Worst utilisation")
    worst = worst_known(strength).utilisation
    assert worst.check in row.note.text()
    assert worst.source in row.note.text()
    assert line(stage, "Largest pull")[1].text().endswith(" N")


@pytest.mark.parametrize(
    "name", ["Largest deflection", "Worst stress", "Worst utilisation", "Largest pull"]
)
def test_a_click_jumps_to_the_place(stage, windy, qtbot, name):
    """And selects the hole it is about."""
    places = []
    windy.place_shown.connect(lambda x, y: places.append((x, y)))
    button = line(stage, name)[1]
    stage.ensureWidgetVisible(button)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert places == [button.place]
    assert windy.selected_holes == ({button.hole} if button.hole else set())


def test_what_can_not_be_judged_is_named(stage, strength):
    """An anchor without its maker's value passes nothing."""
    assert not_known(strength)
    for check in not_known(strength):
        assert check in stage.result._missing_words.text()


def test_the_caution_stands_below(stage):
    """Beside every result, and only there."""
    assert stage.result._caution.text() == caution.SHORT
    assert not stage.result._caution.isHidden()
    stage.session.push(changed(stage.session.committed, "method", "none"), "Calm")
    stage._refresh()
    assert stage.result._caution.isHidden()
    assert line(stage, "Worst stress")[1].isHidden()


def test_a_missing_figure_is_asked_for(stage):
    """In the finding's own words, instead of figures."""
    stage.session.push(changed(stage.session.committed, "method", "asce7-16"), "Standard")
    stage._refresh()
    assert "basic wind speed" in stage.result._why.text()
    assert line(stage, "Largest deflection")[1].isHidden()


def test_what_fails_is_marked(stage):
    """By a cross as well as by its figure."""
    plan = changed(stage.session.committed, "pressure_out_pa", 90_000.0)
    stage.session.push(plan, "Gale")
    stage._refresh()
    assert line(stage, "Worst utilisation")[1].text().startswith("✕ ")


def test_inches_throughout(stage):
    """Figures, limits and stresses follow the unit chosen."""
    stage.session.set_unit(LengthUnit.INCH)
    stage._refresh()
    assert line(stage, "Largest deflection")[1].text().endswith(" in")
    assert line(stage, "Worst stress")[1].text().endswith(" ksi")
    assert "psf" in stage.result._at.text()
