"""Figures of the hole in hand."""

import pytest

from holeplacer.evaluation import layout
from holeplacer.evaluation.evaluate import evaluate
from holeplacer.gui.canvas.figures import live_figures
from holeplacer.plan import edit
from holeplacer.units import LengthUnit


def figures(strokes, number, place=None, unit=LengthUnit.MM):
    plan = strokes.plan
    if place is not None:
        plan = edit.with_hole_moved(plan, number, *place)
    made = layout.lay_out(plan, strokes)
    evaluation = evaluate(plan, made.outline, made.axis)
    return live_figures(made, evaluation, number, unit)


def test_edge_spans_and_overhang_stand_beside_their_limits(strokes):
    """Hole 1: edge 20 of 9.5 mm, span 280 to hole 2, 100 mm to its tip."""
    lines = {line.what: line for line in figures(strokes, 1).lines}
    assert (lines["edge distance"].figure, lines["edge distance"].limit) == ("20 mm", "≥ 9.5 mm")
    assert (lines["span to 2"].figure, lines["span to 2"].limit) == ("280 mm", "≤ 300 mm")
    assert lines["overhang to tip"].limit == "≤ 100 mm"
    assert not any(line.broken for line in lines.values())


def test_the_leader_goes_to_the_nearest_edge(strokes):
    """12 mm up from the axis: 8 mm to the edge above, short of 9.5."""
    found = figures(strokes, 1, (200.0, 112.0))
    assert found.edge_point == pytest.approx((200.0, 120.0))
    assert found.edge_figure == "8 mm"
    assert found.short
    assert found.need_mm == pytest.approx(9.5)


@pytest.mark.parametrize(
    ("y", "why"), [(118.0, "cuts through the edge"), (150.0, "outside the metal")]
)
def test_over_forbidden_metal_it_says_why(strokes, y, why):
    """First line, marked as broken."""
    line = figures(strokes, 1, (200.0, y)).lines[0]
    assert (line.what, line.broken) == (why, True)


def test_what_breaks_a_limit_is_marked(strokes):
    """A span beyond the spacing and an overhang beyond its limit."""
    lines = {line.what: line for line in figures(strokes, 3).lines}
    assert lines["overhang to tip"].broken
    assert not lines["span to 2"].broken


def test_a_neighbour_too_near_is_told(strokes):
    """Distance and limit, on both holes."""
    lines = {line.what: line for line in figures(strokes, 1, (368.0, 100.0)).lines}
    assert lines["to its neighbour"].figure == "12 mm"
    assert lines["to its neighbour"].broken


def test_figures_are_in_the_unit_shown(strokes):
    """Inches on request."""
    found = figures(strokes, 1, unit=LengthUnit.INCH)
    assert all(line.figure.endswith(" in") for line in found.lines if line.figure)


def test_a_hole_not_evaluated_has_no_figures(strokes):
    """Such as one added a moment ago."""
    evaluation = evaluate(strokes.plan, strokes.outline, strokes.axis)
    assert live_figures(strokes, evaluation, 99, LengthUnit.MM) is None
