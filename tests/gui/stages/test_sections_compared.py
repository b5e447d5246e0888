"""The plan's division beside others."""

import pytest

from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.stages.sections_compared import ROWS, YOURS, long_words, minutes_words
from holeplacer.units import LengthUnit


@pytest.fixture
def group(laid):
    return laid.compared


def figure(group, column, name):
    return group.model.index(ROWS.index(name), column).data()


def test_three_ways_stand_side_by_side(group, session, divider):
    """Yours first; the figures are those of the core."""
    assert [way.name for way in group.model.ways] == [YOURS, "straight split", "letters singly"]
    whole = divider.division.whole
    assert figure(group, 0, "Seams") == "1"
    assert figure(group, 0, "Sheets") == str(len(divider.division.layout.sheets))
    assert figure(group, 0, "Scrap") == f"{100 * whole.scrap_share:.0f} %"
    assert figure(group, 0, "Pierces") == str(whole.pierces)
    assert figure(group, 0, "Cutting") == "–"
    way = divider.compared[0]
    assert figure(group, 1, "Seams") == str(len(way.way.seams))


def test_a_column_is_looked_at_and_taken(group, session, divider):
    """Chosen, its seams are drawn; the button makes them the plan's."""
    shown = SectionsShown.of(session)
    group.view.selectColumn(1)
    assert shown.looked_at == "straight split"
    assert not group.take.isHidden()
    assert "straight split" in group.take.text()
    seams = divider.compared[0].way.seams
    group.take.click()
    assert session.committed.seams == seams
    assert shown.looked_at == ""
    assert not group.view.selectionModel().hasSelection()


def test_ones_own_column_ends_looking(group, session):
    """Back to the plan's seams alone."""
    shown = SectionsShown.of(session)
    group.view.selectColumn(2)
    group.view.selectColumn(0)
    assert shown.looked_at == ""
    assert group.take.isHidden()


def test_figures_that_break_a_rule_are_marked(group):
    """By a mark as well as in words for a screen reader."""
    bad = [(way, row) for way in group.model.ways for row in way.bad]
    for way, row in bad:
        index = group.model.index(row, group.model.ways.index(way))
        assert index.data().startswith("▲ ")
    assert all(way.figures[row] != "0" for way, row in bad)


def test_the_model_is_sound(group, qtmodeltester):
    """Qt's own checks."""
    qtmodeltester.check(group.model)


def test_long_lengths_and_times_for_reading():
    """Metres or feet from one on; hours from sixty minutes on."""
    assert long_words(900.0, LengthUnit.MM) == "900 mm"
    assert long_words(25_891.0, LengthUnit.MM) == "25.89 m"
    assert long_words(3048.0, LengthUnit.INCH) == "10.0 ft"
    assert [minutes_words(m) for m in (0.5, 12.4, 80.0)] == ["30 s", "12 min", "1 h 20"]
