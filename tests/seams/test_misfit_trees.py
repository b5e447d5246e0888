"""Least trees that fit no sheet."""

import numpy as np

from holeplacer.seams import candidates, cells, misfit_trees, stock_fit


def graph_of(here):
    cuts = candidates.candidates(here.plan, here.outline, here.axis)
    sizes = stock_fit.usable_sizes(here.plan.sections)
    rows = np.arange(0, len(cuts), 3)
    return cells.cells_of(here.outline.pieces[0].polygon, cuts, rows, (), sizes)


def test_a_tree_does_not_fit_and_with_an_end_less_it_does(sign, shapes):
    """Along a bar a tree is a stretch just too long."""
    graph = graph_of(sign(shapes["bar"], 110))
    found = misfit_trees.misfit_trees(graph, np.zeros(len(graph.joins)), np.array([0, 5]))
    assert len(found) == 2
    for tree in found:
        members = np.unique(graph.joins[list(tree)])
        assert len(members) == len(tree) + 1
        assert not graph.fits(members)
        order = np.argsort([polygon.bounds[0] for polygon in graph.polygons[members]])
        assert graph.fits(members[order[1:]]) or graph.fits(members[order[:-1]])


def test_what_is_cut_already_is_no_tree(sign, shapes):
    """Cuts made in full leave nothing that does not fit."""
    graph = graph_of(sign(shapes["fork"], 110))
    every = np.arange(len(graph))
    assert misfit_trees.misfit_trees(graph, np.ones(len(graph.joins)), every, exact=True) == []
    assert misfit_trees.misfit_trees(graph, np.zeros(len(graph.joins)), every) != []


def test_half_cuts_leave_trees(sign, shapes):
    """Two halves are one whole; a tree with one half only is told."""
    graph = graph_of(sign(shapes["ring"], 110))
    y = np.zeros(len(graph.joins))
    y[0] = 0.5
    for tree in misfit_trees.misfit_trees(graph, y, np.arange(len(graph))):
        assert y[list(tree)].sum() < 1


def test_what_steps_of_angle_cannot_tell_is_told_exactly(sign, shapes):
    """A bar a hair longer than the sheet's diagonal fits at no angle."""
    graph = graph_of(sign(shapes["bar"], 10 + (300 + 12) / np.sqrt(2) - 0.2))
    y = np.zeros(len(graph.joins))
    assert misfit_trees.misfit_trees(graph, y, np.array([0])) == []
    assert len(misfit_trees.misfit_trees(graph, y, np.array([0]), exact=True)) == 1
