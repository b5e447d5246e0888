"""Cells between candidate cuts."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.plan.seam import Seam
from holeplacer.seams import candidates, cells, stock_fit


def graph_of(here, fixed=()):
    cuts = candidates.candidates(here.plan, here.outline, here.axis)
    rows = np.arange(0, len(cuts), 3)
    sizes = stock_fit.usable_sizes(here.plan.sections)
    return cells.cells_of(here.outline.pieces[0].polygon, cuts, rows, fixed, sizes)


def test_cells_of_a_tree_and_of_a_loop(sign, shapes):
    """Without a counter one cell more than cuts, with one as many."""
    for name, more in (("fork", 1), ("ring", 0), ("handle", 0)):
        graph = graph_of(sign(shapes[name], 100))
        assert len(graph) == len(graph.joins) + more
        whole = shapely.union_all(graph.polygons)
        assert whole.area == pytest.approx(shapes[name].area)
        assert graph.parts(np.zeros(len(graph.joins), bool)).max() == 0
        assert len(np.unique(graph.parts(np.ones(len(graph.joins), bool)))) == len(graph)


def test_cells_on_both_sides_of_a_cut_touch_along_it(sign, shapes):
    """What a cut joins are the two cells that share its line."""
    here = sign(shapes["handle"], 100)
    graph = graph_of(here)
    cuts = candidates.candidates(here.plan, here.outline, here.axis)
    for row, (a, b) in zip(graph.row, graph.joins, strict=True):
        shared = graph.polygons[a].intersection(graph.polygons[b])
        assert shared.length >= cuts.weld_mm[row] - 1e-6


def test_a_fixed_seam_joins_nothing(sign, shapes):
    """Cells on its two sides can't be one section through it."""
    graph = graph_of(sign(shapes["bar"], 100), (Seam(151.3, -6, 151.3, 6),))
    assert graph.parts(np.zeros(len(graph.joins), bool)).max() == 1


@settings(max_examples=25, deadline=None)
@given(st.floats(40, 200), st.floats(40, 200), st.integers(0, 9999))
def test_comparing_steps_never_contradicts_the_exact_test(width, height, seed):
    """What fits at a step fits, what may not fit does not, and `fits` is the exact answer."""
    sizes = (stock_fit.Usable(width, height, "any"),)
    random = np.random.default_rng(seed)
    hulls = [random.uniform(0, 150, (5, 2)) for _ in range(3)]
    polygons = [shapely.convex_hull(shapely.multipoints(hull)) for hull in hulls]
    hulls = tuple(stock_fit.hull_of(item) for item in polygons)
    graph = cells.Cells(
        np.array(polygons, object),
        hulls,
        cells._reach(hulls),
        np.empty(0, np.intp),
        np.empty((0, 2), np.intp),
        sizes,
    )
    members = np.arange(3)
    exact = stock_fit.fits(stock_fit.corners(np.concatenate(hulls)), sizes)
    reach = graph.reach.max(axis=0)[None]
    assert graph.fits(members) == exact
    assert exact or not graph.fits_stepwise(reach)[0]
    assert graph.may_fit(reach)[0] or not exact
