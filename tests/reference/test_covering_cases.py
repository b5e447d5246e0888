"""Covering with points: counts and radii that are known.

Status: R recomputed by closed form or a small program; P topic on a public page; M from memory.
"""

import math
import sys
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import linprog
from scipy.sparse import csr_array

sys.path.insert(0, str(Path(__file__).parents[1] / "placement"))

import graphs

from holeplacer.placement import covering
from holeplacer.placement.cover_matrix import cover_matrix
from holeplacer.placement.fewest import fewest
from holeplacer.placement.keeping import Owed
from holeplacer.placement.p_center import centred
from holeplacer.placement.watch import Watch

UNIT = 100.0


def count(axis, half, overhang=1e6):
    cover = fewest(graphs.wanted(axis, half, overhang), graphs.NONE, Watch())
    assert cover.proven
    return len(cover.holes)


def radius(axis, number):
    """p-centre radius in units."""
    owed = Owed(axis, graphs.NO_XY, 1.0, (0.0, 0.0), None)
    wanted = graphs.wanted(axis, UNIT)
    found = centred(wanted, graphs.NONE, number, owed, Watch(), tries=40)
    return found.cover.tightness


@pytest.mark.parametrize(("half", "number"), [(1.0, 5), (2.0, 3), (2.5, 2)])
def test_path(half, number):
    """R: a path of 10 needs ceil(L / 2R)."""
    assert count(graphs.path(10 * UNIT), half * UNIT) == number == math.ceil(10 / (2 * half))


def test_path_places():
    """R: the best places are (2i - 1) L / 2n, radius L / 2n."""
    axis = graphs.path(10 * UNIT)
    owed = Owed(axis, graphs.NO_XY, 1.0, (0.0, 0.0), None)
    found = centred(graphs.wanted(axis, UNIT), graphs.NONE, 4, owed, Watch(), tries=40)
    np.testing.assert_allclose(np.sort(found.cover.holes.s), np.array([1, 3, 5, 7]) * 125.0)
    assert found.cover.tightness == pytest.approx(10 / 8)


def test_path_with_overhang():
    """R: 1 + ceil((L - 2c) / s) with end overhang c: L 96, c 6, s 16 gives 7 at 14."""
    axis = graphs.path(96.0)
    cover = fewest(graphs.wanted(axis, 8.0, 6.0), graphs.NONE, Watch())
    assert len(cover.holes) == cover.bound == 7
    even = np.diff(np.sort(centred_places(axis, 7)))
    np.testing.assert_allclose(even, 14.0, atol=1e-6)


def centred_places(axis, number):
    """Both ends held at the overhang, the rest even: limits 6 and 7 are just kept by 7 holes."""
    owed = Owed(axis, graphs.NO_XY, 1.0, (0.0, 0.0), None)
    wanted = graphs.wanted(axis, 7.0, 6.0)
    found = centred(wanted, graphs.NONE, number, owed, Watch(), tries=40)
    assert found.cover.tightness == pytest.approx(1.0)
    return found.cover.holes.s


@pytest.mark.parametrize(("half", "number"), [(1.5, 4), (2.5, 3), (3.0, 2)])
def test_closed_loop(half, number):
    """R: a ring of 12 needs ceil(C / 2R)."""
    assert count(graphs.ring(12 * UNIT), half * UNIT) == number


@pytest.mark.parametrize(("number", "least"), [(1, 1.0), (2, 1.0), (3, 0.5), (4, 1 / 3)])
def test_star_p_centre(number, least):
    """R: three arms of 1."""
    assert radius(graphs.star(UNIT, UNIT, UNIT), number) == pytest.approx(least, rel=2e-3)


@pytest.mark.parametrize(("half", "number"), [(1 / 3, 4), (0.5, 3), (0.75, 3), (1.0, 1)])
def test_star(half, number):
    """R: the same star covered."""
    assert count(graphs.star(UNIT, UNIT, UNIT), half * UNIT + 1e-6) == number


@pytest.mark.parametrize(
    ("half", "number"), [(1, 7), (1.5, 5), (2, 4), (2.5, 3), (3, 3), (3.5, 2), (5, 1)]
)
def test_tree(half, number):
    """R (LP = IP): arms 6, 4 and 3 at one node."""
    assert count(graphs.star(6 * UNIT, 4 * UNIT, 3 * UNIT), half * UNIT) == number


@pytest.mark.parametrize(("half", "number"), [(1, 8), (1.5, 5), (2, 4), (3, 2)])
def test_theta(half, number):
    """R: three edges of 6 between two nodes."""
    assert count(graphs.theta(6 * UNIT), half * UNIT) == number


@pytest.mark.parametrize("half", [1.0, 1.5, 2.0, 3.5])
def test_trees_are_integral(half):
    """P topic, M theorem: on a tree the linear program has the integer program's value."""
    axis = graphs.star(6 * UNIT, 4 * UNIT, 3 * UNIT)
    wanted = graphs.wanted(axis, half * UNIT)
    asked = wanted.sampled(UNIT / 4)
    covers = cover_matrix(axis, wanted.room, asked.points, asked.radius(1.0)).covers
    dense = covers.toarray().astype(float)
    relaxed = linprog(np.ones(dense.shape[1]), A_ub=-dense, b_ub=-np.ones(len(dense)))
    found = covering.fewest(covers, np.empty(0, np.intp), seconds=5.0)
    assert relaxed.fun == pytest.approx(found.bound)


def test_cycles_are_not():
    """R: a 5-cycle where each place covers two: LP 2.5, IP 3."""
    covers = np.array([[(c - r) % 5 < 2 for c in range(5)] for r in range(5)], int)
    relaxed = linprog(np.ones(5), A_ub=-covers.astype(float), b_ub=-np.ones(5))
    assert relaxed.fun == pytest.approx(2.5)
    found = covering.fewest(csr_array(covers), np.empty(0, np.intp), seconds=5.0)
    assert (len(found.columns), found.bound) == (3, 3)


def test_lower_bounds():
    """R: at least the length over what one hole covers; at least any set pairwise over 2R apart."""
    star = graphs.star(UNIT, UNIT, UNIT)
    assert count(star, 0.75 * UNIT) == 3 >= math.ceil(3 / (3 * 0.75))
