"""Traces over the unrolled axis."""

import numpy as np
import pytest

from holeplacer.gui.ribbon.trace import Trace, alike, clear_width
from holeplacer.units import LengthUnit


def test_clear_width_is_twice_the_clearance(strokes, ribbon):
    """At every axis point of every run; rising places."""
    trace = clear_width(strokes.axis, 19.0)
    for run in ribbon.runs:
        places, values = trace.profile(strokes.axis, run)
        assert np.all(np.diff(places) >= 0)
        assert places[0] == pytest.approx(run.start_mm)
        assert places[-1] == pytest.approx(run.start_mm + run.length_mm)
        if run.branch >= 0:
            s = strokes.axis.branches[run.branch].s
            at = np.array([run.x_of(way) for way in s.tolist()])
            true = 2 * strokes.axis.branches[run.branch].clearance
            assert np.allclose(np.interp(at, places, values), true)


def test_caps_and_blobs_are_round(strokes, ribbon, run_at):
    """A tip ends in nothing; the dot is as wide in the middle as it is long."""
    trace = clear_width(strokes.axis, None)
    first = run_at(200.0, 100.0)
    assert trace.value(strokes.axis, first, first.start_mm) == pytest.approx(0.0)
    blob = next(run for run in ribbon.runs if run.branch < 0)
    middle = blob.start_mm + blob.length_mm / 2
    assert trace.value(strokes.axis, blob, middle) == pytest.approx(60.0, abs=0.1)
    assert trace.value(strokes.axis, blob, blob.start_mm) == pytest.approx(0.0)


def test_the_thin_part_breaks_the_limit(strokes, run_at, foot):
    """14 mm of 19 in words, marked; the 40 mm stroke keeps it."""
    trace = clear_width(strokes.axis, 19.05)
    run, thin = run_at(1050.0, 100.0), run_at(1050.0, 100.0).x_of(foot(1050.0, 100.0).s_mm)
    line = trace.line(strokes.axis, run, thin, LengthUnit.MM)
    assert (line.what, line.figure, line.limit, line.broken) == (
        "clear width",
        "14 mm",
        "≥ 19.1 mm",
        True,
    )
    wide = trace.line(strokes.axis, run_at(120.0, 100.0), run_at(120.0, 100.0).start_mm + 120.0,
                      LengthUnit.MM)  # fmt: skip
    assert not wide.broken


def test_a_trace_may_have_an_upper_limit(strokes):
    """Such as a deflection: what is above it breaks it."""
    trace = Trace("deflection", (np.array([1.0, 3.0]),), {}, limit=2.0, at_least=False)
    assert trace.breaks(np.array([1.0, 2.0, 2.5])).tolist() == [False, False, True]
    assert trace.limit_words(LengthUnit.MM) == "≤ 2 mm"


def test_without_a_limit_nothing_breaks(strokes):
    """No words, no shading."""
    trace = clear_width(strokes.axis, None)
    assert not trace.breaks(np.array([0.0])).any()
    assert trace.limit_words(LengthUnit.MM) == ""


def test_one_tower_does_not_flatten_all_others():
    """The lane's height follows the usual figures, and always holds the limit."""
    usual = Trace("width", (np.full(100, 20.0), np.full(2, 900.0)), {}, limit=19.0)
    assert 20.0 < usual.height() < 100.0
    low = Trace("width", (np.full(100, 5.0),), {}, limit=40.0)
    assert low.height() >= 50.0


class Moving(Trace):
    """One that follows a drag."""

    @property
    def live(self):
        return True


def test_traces_are_alike_where_only_figures_differ():
    """The same lanes that live; another limit, or a still one, is another."""
    made = [
        kind("width", (np.array(values),), {}, limit, at_least=True)
        for kind, values, limit in (
            (Moving, [1.0, 4.0], 2.0),
            (Moving, [3.0, 4.0], 2.0),
            (Moving, [1.0, 4.0], 3.0),
            (Trace, [1.0, 4.0], 2.0),
        )
    ]
    one, other_figures, other_limit, still = made
    assert alike((one,), (other_figures,))
    assert not alike((one,), (other_limit,))
    assert not alike((one,), (still,))
    assert not alike((still,), (still,))
    assert not alike((one,), ())
