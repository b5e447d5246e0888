"""From places on the ribbon to pixels and back."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.gui.ribbon.scale import GAP_PX, LEAST_PX_PER_MM, SIDE_PX, Scale
from holeplacer.gui.ribbon.unrolled import Unrolled


@settings(max_examples=60, deadline=None)
@given(st.floats(0.1, 10.0), st.floats(0.0, 3000.0), st.integers(0, 4), st.floats(0.0, 1.0))
def test_pixels_go_there_and_back(ribbon, px_per_mm, scroll, index, share):
    """Any zoom, any scroll, any run."""
    scale = Scale(px_per_mm, scroll, 800, 100)
    run = ribbon.runs[index]
    x_mm = run.start_mm + share * run.length_mm
    assert scale.x_mm(run, scale.x_px(run, x_mm)) == pytest.approx(x_mm, abs=1e-6)


def test_strokes_are_a_fixed_gap_apart(ribbon):
    """Whatever the zoom."""
    for px_per_mm in (0.2, 5.0):
        left, right = Scale(px_per_mm).spans_px(ribbon)
        for i in range(1, len(ribbon.runs)):
            same = ribbon.runs[i].stroke == ribbon.runs[i - 1].stroke
            assert left[i] - right[i - 1] == pytest.approx(0.0 if same else GAP_PX, abs=1e-6)


def test_the_whole_ribbon_fits(ribbon):
    """Its end is a margin from the view's."""
    fitted = Scale(width_px=900).fitted(ribbon)
    assert fitted.total_px(ribbon) == pytest.approx(900.0)
    assert fitted.spans_px(ribbon)[1].max() == pytest.approx(900.0 - SIDE_PX)


def test_what_would_be_illegible_is_scrolled_to(ribbon):
    """In a narrow view the scale stops at its least."""
    fitted = Scale(width_px=120).fitted(ribbon)
    assert fitted.px_per_mm == LEAST_PX_PER_MM
    assert fitted.total_px(ribbon) > 120


def test_the_run_at_a_pixel_is_the_nearest(ribbon):
    """Inside its own pixels the run itself, in a gap the nearer one."""
    scale = Scale(0.4, 0.0, 900, 100)
    left, right = scale.spans_px(ribbon)
    for run, low, high in zip(ribbon.runs, left, right, strict=True):
        assert scale.run_at(ribbon, (low + high) / 2) is run
    assert scale.run_at(ribbon, -50.0) is ribbon.runs[0]
    assert scale.run_at(Unrolled(ribbon.axis, (), ()), 5.0) is None


def test_only_runs_in_sight_are_painted(ribbon):
    """Scrolled to the end, the first run is out of sight."""
    scale = Scale(5.0, 6000.0, 500, 100)
    assert ribbon.runs[0] not in scale.visible(ribbon)
    assert scale.visible(ribbon)
