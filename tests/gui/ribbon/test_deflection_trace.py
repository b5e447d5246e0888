"""Deflection along the ribbon, beside what is allowed."""

import numpy as np
import pytest

from holeplacer.gui.ribbon.deflection_trace import FAR_MM, DeflectionTrace
from holeplacer.units import LengthUnit


@pytest.fixture
def trace(strokes):
    ways = tuple(np.linspace(0.0, branch.length_mm, 9) for branch in strokes.axis.branches)
    return DeflectionTrace(
        name="deflection",
        values=tuple(way / 100.0 for way in ways),
        at_blob={},
        at_least=False,
        ways=ways,
        allowed=tuple(np.where(way > 50.0, 1.0, FAR_MM) for way in ways),
        said="≤ span/60",
        top=4.0,
    )


def test_places_rise_and_reach_the_tips(trace, ribbon, strokes):
    """Level beyond the axis ends; forwards and backwards alike."""
    for run in ribbon.runs:
        places, values = trace.profile(strokes.axis, run)
        assert len(places) == len(values)
        assert np.all(np.diff(places) >= 0)
        assert places[0] == pytest.approx(run.start_mm)
        assert places[-1] == pytest.approx(run.start_mm + run.length_mm)
        if run.branch >= 0:
            way = strokes.axis.branches[run.branch].length_mm / 2
            at = trace.value(strokes.axis, run, run.x_of(way))
            assert at == pytest.approx(way / 100.0)


def test_figure_and_limit_of_one_place(trace, run_at, foot, strokes):
    """The limit is that of the place; more is marked."""
    point = foot(200.0, 100.0)
    run = run_at(200.0, 100.0)
    line = trace.line(strokes.axis, run, run.x_of(point.s_mm), LengthUnit.MM)
    assert line.limit == "≤ 1 mm"
    assert line.broken == (point.s_mm / 100.0 > 1.0)
    near = trace.line(strokes.axis, run, run.x_of(10.0), LengthUnit.MM)
    assert (near.limit, near.broken) == ("", False)
    assert trace.limit_words(LengthUnit.MM) == "≤ span/60"


def test_one_limit_everywhere(strokes, run_at):
    """Entered in millimetres, it is told so."""
    ways = tuple(np.array([0.0, branch.length_mm]) for branch in strokes.axis.branches)
    values = tuple(np.full(2, 3.0) for _way in ways)
    trace = DeflectionTrace("deflection", values, {}, 2.0, False, ways=ways, top=4.0)
    run = run_at(200.0, 100.0)
    line = trace.line(strokes.axis, run, run.x_of(10.0), LengthUnit.MM)
    assert (line.figure, line.limit, line.broken) == ("3 mm", "≤ 2 mm", True)
    assert trace.limit_words(LengthUnit.MM) == "≤ 2 mm"
    assert trace.live
    assert trace.height() == 4.0
