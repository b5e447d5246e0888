"""Samples: dense enough for the stroke, on the contour, in its order."""

import numpy as np
import pytest
import shapely
from shapes import SCRIPT, stroke

from holeplacer.medial_axis.boundary import boundary_of
from holeplacer.medial_axis.samples import STEP, sampled, sampled_finer


def boundary(polygon):
    return boundary_of(shapely.MultiPolygon([polygon]), np.arange(1))


def assert_in_order(outline, samples):
    """Samples lie where their segment and way say, and follow each other round each ring."""
    at = outline.start[samples.segment]
    along = samples.way - outline.way[samples.segment]
    unit = outline.step[samples.segment] / outline.length[samples.segment][:, None]
    assert samples.xy == pytest.approx(at + along[:, None] * unit, abs=1e-9)
    ring = outline.ring[samples.segment]
    gaps = samples.way[samples.following] - samples.way
    assert np.count_nonzero(gaps <= 0) == len(outline.ring_first)
    assert (ring[samples.following] == ring).all()


def test_steps_suit_the_width():
    """Long segments are divided, so that no step is longer than the stroke's width asks."""
    bar = boundary(shapely.box(0, 0, 400, 40))
    samples = sampled(bar)
    assert_in_order(bar, samples)
    step = np.hypot(*(samples.xy[samples.following] - samples.xy).T)
    assert step.max() <= STEP * bar.part_width[0] + 1e-9


def test_straight_runs_of_many_vertices_are_summed_up():
    """Vertices between which the contour hardly turns are left out, unless all are asked for."""
    x = np.linspace(0, 400, 2001)
    many = shapely.Polygon([*np.c_[x, 0 * x], *np.c_[x[::-1], 0 * x + 40]])
    outline = boundary(many)
    assert len(sampled(outline).xy) < 400
    assert len(sampled(outline, every_vertex=True).xy) >= len(outline.start)


def test_thin_strokes_get_more_samples():
    """Where the width seen is small against the step, samples are put in; else nothing is done."""
    outline = boundary(shapely.union(stroke([(0, 0), (300, 0)], 1), shapely.Point(0, 0).buffer(60)))
    samples = sampled(outline)
    finer = sampled_finer(outline, samples, np.where(samples.xy[:, 0] > 0, 2.0, 1e9))
    assert finer is not None
    assert len(finer.xy) > len(samples.xy)
    assert_in_order(outline, finer)
    assert sampled_finer(outline, samples, np.full(len(samples.xy), np.inf)) is None


def test_needles_do_not_ask_for_endless_samples():
    """However thin a piece, the number of samples stays bounded."""
    needle = boundary(shapely.Polygon([(0, 0), (190, 0.0001), (0, 0.0002)]))
    samples = sampled(needle)
    finer = sampled_finer(needle, samples, np.full(len(samples.xy), 1e-4))
    assert len(finer.xy) < 60_000


def test_samples_of_many_rings():
    """Counters have samples of their own."""
    outline = boundary(SCRIPT)
    samples = sampled(outline)
    assert_in_order(outline, samples)
    assert set(outline.ring[samples.segment]) == set(range(1 + len(SCRIPT.interiors)))
