"""Strokes cut into stretches of one class."""

import numpy as np
import pytest
import shapely

from holeplacer.gui.canvas.stroke_bands import StrokeBands, changed_branches


@pytest.fixture
def bands(strokes, strength):
    return StrokeBands(strokes.axis, strength.effects.grillage.ways)


def test_stretches_lie_in_the_metal_and_cover_most_of_it(strokes, bands):
    """Between the points where the inscribed discs touch, a rim left free."""
    classes = np.zeros(len(bands.xy), np.int8)
    runs = [run for branch in range(bands.branches) for run in bands.runs(branch, classes)]
    shapes = [shapely.make_valid(shapely.Polygon(run.corners)) for run in runs]
    covered = shapely.union_all(shapes)
    assert covered.difference(strokes.outline.region.buffer(0.5)).area < 1.0
    slender = sum(
        2 * branch.clearance.mean() * branch.length_mm for branch in strokes.axis.branches
    )
    assert 0.7 * slender < covered.area < slender


def test_figures_are_those_of_the_stations(strokes, bands, strength):
    """Interpolated between them, branch by branch."""
    ways = strength.effects.grillage.ways
    values = tuple(way + 100.0 * number for number, way in enumerate(ways))
    figures = bands.figures(values)
    for number, branch in enumerate(strokes.axis.branches):
        part = figures[bands.first[number] : bands.first[number + 1]]
        assert part[0] == pytest.approx(100.0 * number)
        assert part[-1] == pytest.approx(100.0 * number + branch.length_mm)
        assert np.all(np.diff(part) > 0)


def test_classes_share_the_scale_evenly(bands):
    """The top's own class is the highest one, and nothing is beyond it."""
    figures = np.linspace(0.0, 2.0, len(bands.xy))
    classes = bands.classes(figures, 1.0, 10)
    assert classes.min() == 0
    assert classes.max() == 9
    middle = (figures[:-1] + figures[1:]) / 2
    assert np.all(classes[:-1][middle < 0.1] == 0)


def test_neighbours_of_one_class_are_one_run(bands):
    """A new one begins where the class changes."""
    classes = np.zeros(len(bands.xy), np.int8)
    joints = len(bands.runs(0, classes)) - 1
    low, high = bands.first[0], bands.first[1]
    classes[(low + high) // 2 : high] = 3
    runs = bands.runs(0, classes)
    assert len(runs) == 2 + joints
    assert [run.colour for run in runs[:2]] == [0, 3]


def test_only_branches_that_differ_are_named(bands):
    """Each once."""
    differs = np.zeros(len(bands.xy), bool)
    assert changed_branches(bands, differs) == []
    differs[[bands.first[1], bands.first[1] + 1, bands.first[2] - 1]] = True
    assert changed_branches(bands, differs) == [1]


def test_bounds_hold_every_corner(bands):
    """So that what is repainted is no more than a branch."""
    classes = np.zeros(len(bands.xy), np.int8)
    for branch in range(bands.branches):
        left, bottom, right, top = bands.bounds(branch)
        corners = bands.runs(branch, classes)[0].corners
        assert np.all(corners >= (left - 1e-9, bottom - 1e-9))
        assert np.all(corners <= (right + 1e-9, top + 1e-9))
