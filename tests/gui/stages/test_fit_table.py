"""Every hole with its movement and its room."""

from dataclasses import replace

import pytest

from holeplacer.evaluation import hole_fit
from holeplacer.gui.stages.fit_table import FitTable, state_of
from holeplacer.units import LengthUnit


@pytest.fixture
def fits(session):
    return hole_fit.hole_fits(session.plan, session.layout.outline)


@pytest.fixture
def table(qtbot, session, fits):
    made = FitTable(session)
    qtbot.addWidget(made)
    made.show_fits(fits)
    return made


def row(table, index):
    return [table.item(index, column).text() for column in range(table.columnCount())]


def test_rows_say_what_the_fits_say(table, fits):
    """Number, movement or `fixed`, needed and given diameter, and a word."""
    for index, fit in enumerate(fits):
        moves = "fixed" if fit.movement.is_fixed_point else f"{fit.movement.greatest_mm:.2f}"
        assert row(table, index) == [
            str(fit.number), moves, f"{fit.needed.round_mm:.2f}", f"{fit.given_mm:.2f}",
            state_of(fit),
        ]  # fmt: skip
    assert "fixed" in [row(table, index)[1] for index in range(len(fits))]


def test_inches_have_three_decimals(table, session, fits):
    """And the unit is said beside the table."""
    session.set_unit(LengthUnit.INCH)
    table.show_fits(fits)
    assert row(table, 0)[3] == "0.281"
    assert table.unit_words() == "In inches:"


def test_states_in_words(fits):
    """Enough, small, binding, outside."""
    fit = next(fit for fit in fits if fit.movement.greatest_mm > 0.05)
    needed = fit.needed
    assert state_of(replace(fit, given_mm=needed.round_mm)) == "enough"
    assert state_of(replace(fit, given_mm=needed.round_mm - 0.05)) == "small"
    assert state_of(replace(fit, given_mm=needed.stud_mm + 0.01)) == "binds"
    assert state_of(replace(fit, about=None)) == "outside"


def test_selecting_goes_both_ways(table, session, fits):
    """Rows select holes, holes select rows."""
    table.selectRow(2)
    assert session.selected_holes == {3}
    session.select_holes([1, 4])
    table.show_fits(fits)
    rows = {index.row() for index in table.selectionModel().selectedRows()}
    assert rows == {0, 3}


def test_no_holes_no_table(table):
    """It hides."""
    table.show_fits(())
    assert not table.isVisibleTo(table.parentWidget())
