"""Stretches of stroke that break a rule."""

import pytest

from holeplacer.evaluation import layout
from holeplacer.evaluation.evaluate import evaluate
from holeplacer.gui.canvas.stretches import Stretches, StretchKind, spans_of
from holeplacer.plan import edit
from holeplacer.units import LengthUnit


def found(made, finder=None):
    evaluation = evaluate(made.plan, made.outline, made.axis)
    return (finder or Stretches()).broken(made, evaluation, LengthUnit.MM)


def test_the_sign_shows_its_overhanging_tip_long_ring_and_bare_metal(strokes):
    """The thin end hangs over; the ring's one hole is a span of its whole length from itself."""
    shown = found(strokes)
    long = sorted(stretch.figure for stretch in shown if stretch.kind is StretchKind.LONG)
    assert long == ["560 of 100 mm", "653.4 of 300 mm"]
    bare = [stretch for stretch in shown if stretch.kind is StretchKind.UNCOVERED]
    assert sum(part.length_mm for s in bare for part in s.parts) == pytest.approx(756.4, abs=0.1)


def test_a_long_span_runs_from_hole_to_hole(strokes, foot):
    """Without hole 2, hole 1's next is 4 on the branch: 295 mm to the junction and 187 up."""
    fewer = layout.lay_out(edit.without_hole(strokes.plan, 2), strokes)
    (span,) = [s for s in found(fewer) if s.figure.startswith("482")]
    assert span.kind is StretchKind.LONG
    assert sum(part.length_mm for part in span.parts) == pytest.approx(482.5, abs=0.1)
    assert {part.branch for part in span.parts} == {foot(200, 100).branch, foot(395, 250).branch}
    assert span.figure_at == pytest.approx((341.0, 100.0), abs=0.5)


def test_what_is_as_before_stays_the_same_object(strokes):
    """Moving hole 4 on the branch leaves the ring's and the thin end's stretches alone."""
    finder = Stretches()
    before = {stretch.figure: stretch for stretch in found(strokes, finder)}
    moved = edit.with_hole_moved(strokes.plan, 4, 395.0, 280.0)
    after = {s.figure: s for s in found(layout.lay_out(moved, strokes), finder)}
    assert after["653.4 of 300 mm"] is before["653.4 of 300 mm"]
    assert after["560 of 100 mm"] is before["560 of 100 mm"]


def test_without_holes_nothing_is_shown(strokes):
    """All metal is out of reach then; the findings say so, the canvas keeps quiet."""
    assert found(layout.lay_out(edit.with_holes(strokes.plan, ()), strokes)) == ()


def test_figures_are_in_the_unit_shown(strokes):
    """Inches where inches are shown."""
    evaluation = evaluate(strokes.plan, strokes.outline, strokes.axis)
    shown = Stretches().broken(strokes, evaluation, LengthUnit.INCH)
    assert any(stretch.figure.endswith(" in") for stretch in shown)


def test_spans_of_the_hole_in_hand_that_keep_the_spacing(strokes):
    """Hole 2 has neighbours 1 and 4 on its sides; the ring's hole has none that fit."""
    figures = sorted(stretch.figure for stretch in spans_of(strokes, 2, LengthUnit.MM))
    assert "280 of 300 mm" in figures
    assert "202.5 of 300 mm" in figures
    assert spans_of(strokes, 5, LengthUnit.MM) == ()
    assert spans_of(strokes, 99, LengthUnit.MM) == ()
