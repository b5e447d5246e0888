"""Pull, push, shear and the check that governs, standoff by standoff."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.documents import caution
from holeplacer.gui.reaction_table import (
    GOVERNING,
    SORT,
    ReactionModel,
    ReactionTable,
    force_columns,
)
from holeplacer.units import LengthUnit


@pytest.fixture
def model(windy, strength):
    made = ReactionModel()
    made.show_strength(windy.plan.holes, strength, LengthUnit.MM)
    return made


@pytest.fixture
def table(qtbot, windy):
    made = ReactionTable(windy)
    qtbot.addWidget(made)
    made.resize(900, 200)
    with qtbot.waitExposed(made):
        made.show()
    return made


def cell(model, row, title, role=Qt.ItemDataRole.DisplayRole):
    return model.index(row, model.columns.index(title)).data(role)


def test_every_case_has_its_column(model, strength):
    """Pulls and pushes of the wind, shears in the plane, then what governs."""
    cases = [response.name for response in strength.effects.wind]
    shears = [f"shear, {case.name}" for case in strength.effects.in_plane]
    assert model.columns == ("Hole", *GOVERNING, *cases, *shears)
    assert model.rowCount() == 5


def test_pull_and_push_differ_by_sign_shown_as_arrow(model, strength):
    """What pulls out pushes in when the wind turns."""
    out, into = cell(model, 0, "pressure out"), cell(model, 0, "pressure in")
    assert {out[0], into[0]} == {"↑", "↓"}
    assert out[1:] == into[1:]
    assert cell(model, 0, "pressure out", SORT) == strength.effects.wind[0].reactions_n[0]


def test_the_governing_check_says_where_it_comes_from(model, strength):
    """Utilisation beside it; source and status on hover and for screen readers."""
    states = [state for state in strength.of_hole(1) if state.utilisation.utilisation is not None]
    worst = max(states, key=lambda state: state.utilisation.utilisation).utilisation
    told = cell(model, 0, "Utilisation", Qt.ItemDataRole.AccessibleTextRole)
    assert cell(model, 0, "Governing check") == worst.check
    assert cell(model, 0, "Utilisation", SORT) == worst.utilisation
    assert worst.check in told
    assert worst.source in told


def test_what_can_not_be_judged_is_marked_and_named(model, strength):
    """An anchor without its maker's value is no pass."""
    missing = {one.utilisation.check for one in strength.of_hole(1)
               if one.utilisation.utilisation is None}  # fmt: skip
    assert missing
    assert cell(model, 0, "Utilisation").endswith("+?")
    told = cell(model, 0, "Utilisation", Qt.ItemDataRole.ToolTipRole)
    assert all(check in told for check in missing)


def test_figures_that_change_keep_their_rows(model, windy, strength):
    """No reset while a hole is dragged."""
    resets = []
    model.modelReset.connect(lambda: resets.append(1))
    model.show_strength(windy.plan.holes, strength, LengthUnit.INCH)
    assert resets == []
    assert " lb" in cell(model, 0, "pressure out")
    model.show_strength(windy.plan.holes, None, LengthUnit.INCH)
    assert resets == [1]
    assert model.rowCount() == 0


def test_a_click_selects_the_hole_and_shows_it(table, windy, qtbot):
    """As everywhere: selected on one is selected on all."""
    places = []
    windy.place_shown.connect(lambda x, y: places.append((x, y)))
    view = table.view
    at = view.visualRect(view.model().index(2, 0)).center()
    qtbot.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert windy.selected_holes == {3}
    assert places == [(640.0, 100.0)]


def test_a_selection_elsewhere_is_marked_here(table, windy):
    """The row of the hole is selected."""
    windy.select_holes({4})
    rows = [index.row() for index in table.view.selectionModel().selectedRows()]
    assert [table._model.hole_at(table._proxy.mapToSource(
        table._proxy.index(row, 0)).row()).number for row in rows] == [4]  # fmt: skip


def test_the_caution_stands_below(table):
    """Beside every strength result."""
    assert table._note.text() == caution.SHORT


def test_without_wind_it_says_so(qtbot, session):
    """No rows, and where to begin."""
    made = ReactionTable(session)
    qtbot.addWidget(made)
    made.refresh()
    assert made._model.rowCount() == 0
    assert "Strength stage" in made._note.text()
    assert force_columns(None) == ()
