"""The cheapest cuts of one piece."""

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.seams import candidates, cells, parting, stock_fit


def graph_of(here, every):
    cuts = candidates.candidates(here.plan, here.outline, here.axis)
    sizes = stock_fit.usable_sizes(here.plan.sections)
    rows = np.arange(0, len(cuts), every)
    return cells.cells_of(here.outline.pieces[0].polygon, cuts, rows, (), sizes)


def fits(graph, cut):
    part = graph.parts(cut)
    return all(graph.fits(np.flatnonzero(part == number)) for number in range(part.max() + 1))


def least_by_trying(graph, cost, most):
    best = np.inf
    for count in range(most + 1):
        for chosen in itertools.combinations(range(len(cost)), count):
            cut = np.isin(np.arange(len(cost)), chosen)
            if cost[cut].sum() < best and fits(graph, cut):
                best = cost[cut].sum()
    return best


@settings(max_examples=10, deadline=None)
@given(st.sampled_from(["bar", "fork", "ring", "handle"]), st.integers(0, 10**6))
def test_as_cheap_as_trying_all_sets_of_cuts(sign, shapes, name, seed):
    """Whatever the costs, no set of up to three cuts is cheaper."""
    here = sign(shapes[name], 130)
    count = len(candidates.candidates(here.plan, here.outline, here.axis))
    graph = graph_of(here, -(-count // 13))
    cost = np.random.default_rng(seed).uniform(5, 50, len(graph.joins))
    found = parting.parting(graph, cost, parting.Trees(), lambda: False)
    assert found is not None
    assert found.optimal
    assert fits(graph, found.cut)
    assert found.cost == pytest.approx(cost[found.cut].sum())
    least = least_by_trying(graph, cost, 3)
    assert found.cost <= least * (1 + 2e-4)
    if found.cut.sum() <= 3:
        assert found.cost == pytest.approx(least, rel=2e-4)


def test_what_fits_is_not_cut(sign, shapes):
    """No trees, no cuts."""
    graph = graph_of(sign(shapes["bar"], 900), 5)
    found = parting.parting(graph, np.ones(len(graph.joins)), parting.Trees(), lambda: False)
    assert found is not None
    assert not found.cut.any()


def test_when_time_is_up_nothing_is_claimed(sign, shapes):
    """What was begun is brought to an end so that it fits, but is not called the least."""
    graph = graph_of(sign(shapes["handle"], 100), 2)
    found = parting.parting(graph, np.ones(len(graph.joins)), parting.Trees(), lambda: True)
    assert found is not None
    assert fits(graph, found.cut)
    assert not found.optimal


def test_merging_gives_parts_that_fit(sign, shapes):
    """Quick and not the least, but every part fits and none can be joined to its neighbour."""
    graph = graph_of(sign(shapes["handle"], 100), 2)
    cost = np.linspace(5, 9, len(graph.joins))
    found = parting.by_merging(graph, cost)
    assert not found.optimal
    assert fits(graph, found.cut)
    part = graph.parts(found.cut)
    for a, b in graph.joins[found.cut]:
        assert not graph.fits(np.flatnonzero((part == part[a]) | (part == part[b])))
