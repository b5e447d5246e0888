"""What a changed plan breaks anew."""

from dataclasses import replace

from holeplacer.evaluation import comparison, evaluate
from holeplacer.plan import edit
from holeplacer.rules.finding import Finding, Place, PlaceKind


def _finding(value, kind=PlaceKind.STRETCH, at=(0.0, 0.0), length=10.0, rule="spacing"):
    return Finding(rule, Place(kind, 1, at, length), value, 150.0, "", "")


def test_the_same_or_better_is_not_worse():
    """What was as bad before is not held against a plan; notes never are."""
    old = _finding(200.0)
    assert comparison.worse([old], [old, _finding(180.0), replace(old, broken=False)]) == ()


def test_more_further_off_or_elsewhere_is_worse():
    """A greater excess, a longer stretch, another place, another rule: each counts."""
    old = _finding(200.0)
    new = (
        _finding(201.0),
        _finding(200.0, length=11.0),
        _finding(200.0, at=(9.0, 0.0)),
        _finding(200.0, rule="turning"),
        _finding(200.0, kind=PlaceKind.HOLE),
    )
    assert comparison.worse([old], new) == new
    assert comparison.worse([replace(old, broken=False)], [old]) == (old,)


def test_figures_are_the_evaluations(plan, outline, axis):
    """Spans, bare strokes and counts come from the evaluation; strength only with a wind."""
    found = evaluate.evaluate(plan, outline, axis)
    told = comparison.figures(edit.with_hole_fastened(plan, 1, False), found)
    assert (told.holes, told.broken) == (5, found.broken)
    assert told.largest_span_mm == max(span.length_mm for span in found.spans)
    assert told.utilisation is None


def test_a_plan_breaks_nothing_beside_itself(plan, outline, axis):
    """A plan is no worse than itself; without a hole it is."""
    known = evaluate.evaluate(plan, outline, axis).findings
    assert comparison.breaks_nothing(known, plan, outline, axis)
    assert not comparison.breaks_nothing(known, edit.without_hole(plan, 2), outline, axis)
