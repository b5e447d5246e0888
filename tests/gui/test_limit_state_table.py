"""Every limit state with all it came from."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.gui.limit_state_table import COLUMNS, OF, SHARE, LimitStateTable, reckoning
from holeplacer.gui.strength_words import share_words, status_words
from holeplacer.units import LengthUnit


@pytest.fixture
def table(qtbot, windy):
    made = LimitStateTable(windy)
    qtbot.addWidget(made)
    made.resize(1000, 300)
    with qtbot.waitExposed(made):
        made.show()
    return made


def column(table, which):
    model = table.view.model()
    return [model.index(row, which).data() for row in range(model.rowCount())]


def test_the_whole_sign_worst_first(table, strength):
    """All limit states, sorted by utilisation until another column is asked for."""
    assert table.view.model().rowCount() == len(strength.every)
    worst = max(state.utilisation.utilisation or 0.0 for state in strength.every)
    assert share_words(worst) in column(table, SHARE)[0]
    table.view.sortByColumn(OF, Qt.SortOrder.AscendingOrder)
    assert column(table, OF)[0] == "sheet"


def test_a_selected_hole_shows_its_own(table, windy, strength, qtbot):
    """Select nothing for all of them again."""
    windy.select_holes({2})
    qtbot.waitUntil(lambda: set(column(table, OF)) == {"hole 2"})
    assert len(column(table, OF)) == len(strength.of_hole(2))
    windy.select_holes(())
    qtbot.waitUntil(lambda: len(column(table, OF)) == len(strength.every))


def test_the_chosen_one_is_told_in_full(table, windy, qtbot):
    """A click shows formula, inputs, source and status, and jumps to the place."""
    places = []
    windy.place_shown.connect(lambda x, y: places.append((x, y)))
    at = table.view.visualRect(table.view.model().index(1, 1)).center()
    qtbot.mouseClick(table.view.viewport(), Qt.MouseButton.LeftButton, pos=at)
    state = table._current()
    assert places == [state.at_mm]
    assert table._told.text() == reckoning(state, LengthUnit.MM)


def test_a_reckoning_leaves_nothing_out(strength):
    """Formula, every symbol, both figures, source, status."""
    for state in strength.every:
        said, item = reckoning(state, LengthUnit.MM), state.utilisation
        for part in (item.formula, item.source, status_words(item.status), item.note):
            assert part in said
        for given in item.inputs:
            assert given.symbol in said


def test_without_wind_it_says_so(qtbot, session):
    """Where to begin."""
    made = LimitStateTable(session)
    qtbot.addWidget(made)
    made.refresh()
    assert made.view.model().rowCount() == 0
    assert "Strength stage" in made._about.text()
    assert len(COLUMNS) == made.view.model().columnCount()
