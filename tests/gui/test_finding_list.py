"""Findings are listed by rule, told in full, jumped to and walked by key."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester

from holeplacer.gui import finding_list
from holeplacer.gui.finding_list import FindingModel
from holeplacer.rules.finding import Finding, Place, PlaceKind
from holeplacer.units import LengthUnit

EDGE = Finding(
    rule="edge_distance",
    place=Place(PlaceKind.HOLE, 3, (120.0, 40.0)),
    value=6.2,
    limit=9.525,
    message="Hole 3 is too near",
    way_out="move it",
)
NOTE = replace(EDGE, rule="process", place=Place(PlaceKind.PLAN, 0, (1.0, 2.0)), broken=False)
SHARE = replace(EDGE, rule="turning", place=Place(PlaceKind.PIECE, 2, (5.0, 5.0)), value=0.2,
                limit=1 / 3, unit="")  # fmt: skip


@pytest.fixture
def model(qapp):
    made = FindingModel()
    QAbstractItemModelTester(made, QAbstractItemModelTester.FailureReportingMode.Fatal)
    made.show_findings((EDGE, NOTE, SHARE), LengthUnit.MM)
    return made


def row_text(model, row):
    return [model.index(row, column).data() for column in range(model.columnCount())]


def test_rows_in_words_with_units(model):
    """State by sign and word, place in words, value beside its limit with unit."""
    assert row_text(model, 0) == ["▲ edge distance", "hole 3", "6.2 of 9.53 mm"]
    assert row_text(model, 1)[:2] == ["● process", "whole sign"]
    assert row_text(model, 2) == ["▲ turning", "piece 2", "0.2 of 0.333"]


def test_inches(model):
    """The unit shown is followed."""
    model.show_findings((EDGE,), LengthUnit.INCH)
    assert row_text(model, 0)[2] == "0.244 of 3/8 in"


def test_same_count_changes_in_place(model, qtbot):
    """While a hole is dragged rows are changed, not rebuilt."""
    with qtbot.waitSignal(model.dataChanged), qtbot.assertNotEmitted(model.modelReset):
        model.show_findings((replace(EDGE, value=7.0), NOTE, SHARE), LengthUnit.MM)
    with qtbot.assertNotEmitted(model.dataChanged):
        model.show_findings((replace(EDGE, value=7.0), NOTE, SHARE), LengthUnit.MM)


def test_where_in_words():
    """A stretch is told by its piece."""
    stretch = replace(EDGE, place=Place(PlaceKind.STRETCH, 2, (0.0, 0.0), 55.0))
    assert finding_list.where(stretch) == "piece 2"


@pytest.fixture
def near_edge(opened):
    """The small sign with a hole too near the bar's edge and one with its wall in order."""
    from holeplacer.plan import edit

    left, bottom, right, top = opened.session.layout.outline.pieces[0].bounds_mm
    middle = (bottom + top) / 2
    plan = edit.with_hole_added(opened.session.committed, left + 60, middle)
    plan = edit.with_hole_added(plan, right - 60, middle + 14)
    opened.session.push(plan, "Add holes")
    opened.rail.setCurrentRow(3)
    return opened


def test_choosing_a_row_selects_tells_and_jumps(near_edge, qtbot):
    """The chosen finding's sentence is shown, its hole selected, its place shown."""
    findings, session = near_edge.findings, near_edge.session
    with qtbot.waitSignal(session.place_shown):
        findings.step(1)
    assert session.selected_finding.rule == "edge_distance"
    assert session.selected_holes == {2}
    assert findings._message.text().startswith("Hole 2: edge distance")


def test_keys_walk_round(near_edge, qtbot):
    """Stepping goes through all findings and round again."""
    findings, session = near_edge.findings, near_edge.session
    count = findings.view.model().rowCount()
    seen = []
    for _ in range(count + 1):
        findings.step(1)
        seen.append(session.selected_finding)
    assert len(set(seen[:count])) == count
    assert seen[0] == seen[count]
    qtbot.keyClick(findings.view, Qt.Key.Key_Down)


def test_only_this_stages_findings(near_edge):
    """The Sheet stage does not show edge distances."""
    before = near_edge.findings.view.model().rowCount()
    near_edge.rail.setCurrentRow(1)
    assert near_edge.findings.view.model().rowCount() == 0 < before


def test_selection_made_elsewhere_is_shown(near_edge):
    """A finding chosen on the canvas is the row that is marked."""
    session, view = near_edge.session, near_edge.findings.view
    last = [f for f in session.evaluation.findings if f.rule != "process"][-1]
    session.select_finding(last)
    (row,) = view.selectionModel().selectedRows()
    assert row.data(finding_list.FINDING) == last


def test_rows_come_and_go_at_the_end(model, qtbot):
    """One finding more or less rebuilds nothing either."""
    with qtbot.waitSignal(model.rowsRemoved), qtbot.assertNotEmitted(model.modelReset):
        model.show_findings((NOTE, SHARE), LengthUnit.MM)
    assert [row_text(model, row)[0] for row in range(2)] == ["● process", "▲ turning"]
    with qtbot.waitSignal(model.rowsInserted), qtbot.assertNotEmitted(model.modelReset):
        model.show_findings((EDGE, NOTE, SHARE), LengthUnit.MM)
    assert model.rows == (EDGE, NOTE, SHARE)
    assert row_text(model, 2)[0] == "▲ turning"


def test_the_list_does_not_shrink_while_a_hole_is_dragged(near_edge):
    """It grows at once, and has its rows' height again once the hole is let go."""
    from holeplacer.plan import edit

    findings, session = near_edge.findings, near_edge.session
    findings.show_rules(("edge_distance",))
    one = findings.view.height()
    bad = session.committed.holes[1]
    two = edit.with_hole_added(session.committed, bad.x_mm - 40, bad.y_mm)
    three = edit.with_hole_added(two, bad.x_mm - 80, bad.y_mm)
    session.preview(three)
    high = findings.view.height()
    assert findings.view.model().rowCount() == 3
    assert high > one
    session.preview(two)
    assert findings.view.model().rowCount() == 2
    assert findings.view.height() == high
    session.push(two, "Add hole")
    assert one < findings.view.height() < high


def test_a_column_is_as_wide_as_what_it_says(near_edge):
    """No rule and no figure is cut short."""
    view = near_edge.findings.view
    metrics = view.fontMetrics()
    for column in (0, 2):
        said = [view.model().index(row, column).data() for row in range(view.model().rowCount())]
        widest = max(metrics.horizontalAdvance(text) for text in said)
        assert view.columnWidth(column) >= widest


def test_a_note_that_measures_nothing_shows_no_figure():
    """Nought of one would read like a measurement."""
    note = Finding("strength", Place(PlaceKind.PIECE, 2, (0.0, 0.0)), 0.0, 1.0, "Held by caps", "",
                   unit="", broken=False)  # fmt: skip
    model = FindingModel()
    model.show_findings((note,), LengthUnit.MM)
    assert model.index(0, 2).data() == "to know"
