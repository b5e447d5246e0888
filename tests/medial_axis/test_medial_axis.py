"""The axis of whole outlines, against its definition and against an exact engine."""

import numpy as np
import pytest
import shapely
from exact_axis import branches_and_blobs, exact_axis, furthest
from hypothesis import Phase, given, settings
from shapes import BAR, CROSS, RING, SCRIPT, lettering, outline, stroke

from holeplacer.medial_axis import medial_axis as subject
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline

CLEARANCE_MM = 0.006
AGREEMENT_MM = 0.02
WITHOUT_SHRINKING = (Phase.explicit, Phase.reuse, Phase.generate)
"""A union of strokes gets no plainer by being shrunk, only slower to find."""
TELLING = 4.0
"""Chord residual, in disc radii, from which on a point lies in a stroke and not in a corner."""


def assert_graph_is_that_of_the_metal(axis, sign):
    """One connected part per piece, one loop per counter."""
    pieces = len(sign.pieces)
    parent = list(range(len(axis.node_xy)))

    def root(node):
        while parent[node] != node:
            node = parent[node]
        return node

    for branch in axis.branches:
        parent[root(branch.start)] = root(branch.end)
        assert axis.node_piece[branch.start] == axis.node_piece[branch.end] == branch.piece
    roots = {root(node) for node in range(len(axis.node_xy))}
    assert sorted(axis.node_piece[list(roots)]) == list(range(pieces))
    loops = [
        sum(branch.piece == piece for branch in axis.branches)
        - int(np.count_nonzero(axis.node_piece == piece))
        + 1
        for piece in range(pieces)
    ]
    assert loops == [piece.counters for piece in sign.pieces]


def assert_discs_are_maximal(axis, sign):
    """Every point's disc lies in the metal and touches the contour in two places apart."""
    for branch in axis.branches:
        assert branch.clearance == pytest.approx(sign.edge_distance(branch.xy), abs=1e-9)
        assert sign.piece_at(branch.xy).tolist() == [branch.piece] * len(branch.xy)
        away = np.linalg.norm(branch.contacts - branch.xy[:, None], axis=2)
        both = np.column_stack((branch.clearance, branch.clearance))
        assert away[1:-1] == pytest.approx(both[1:-1], abs=CLEARANCE_MM)
        assert away[[0, -1]] == pytest.approx(both[[0, -1]], rel=0.05, abs=CLEARANCE_MM)
        contour = shapely.distance(sign.boundary, shapely.points(branch.contacts))
        assert contour.max() <= CLEARANCE_MM
        chord = branch.contacts[:, 0] - branch.contacts[:, 1]
        assert (np.hypot(*chord[1:-1].T) > 0).all()
        middle = 0.5 * (branch.xy[1:] + branch.xy[:-1])
        linear = 0.5 * (branch.clearance[1:] + branch.clearance[:-1])
        assert linear == pytest.approx(sign.edge_distance(middle), abs=0.03)


def assert_ways_and_nodes_agree(axis):
    """Branches run from node to node, `s` is their length, tips hang on ends."""
    for branch in axis.branches:
        assert branch.xy[[0, -1]] == pytest.approx(axis.node_xy[[branch.start, branch.end]])
        step = np.hypot(*np.diff(branch.xy, axis=0).T)
        assert branch.s == pytest.approx(np.append(0, np.cumsum(step)), abs=1e-6)
    assert sorted(tip.node for tip in axis.tips) == np.flatnonzero(axis.degree == 1).tolist()
    for tip in axis.tips:
        away = np.array(tip.xy) - axis.node_xy[tip.node]
        assert np.hypot(*away) == pytest.approx(tip.reach_mm)
        assert tip.reach_mm >= axis.node_clearance[tip.node] - CLEARANCE_MM


@given(lettering())
@settings(max_examples=30, deadline=None, phases=WITHOUT_SHRINKING)
def test_axis_meets_its_definition(sign):
    """On any union of strokes the axis has the metal's shape, and all its discs are maximal."""
    axis = medial_axis(sign)
    assert_graph_is_that_of_the_metal(axis, sign)
    assert_discs_are_maximal(axis, sign)
    assert_ways_and_nodes_agree(axis)


@given(lettering())
@settings(max_examples=8, deadline=None, phases=WITHOUT_SHRINKING)
def test_axis_agrees_with_the_exact_diagram(sign):
    """Every far-reaching edge of the exact Voronoi diagram is a branch, every branch an edge."""
    assert_agreement(medial_axis(sign), exact_axis(sign))


def test_crossing_strokes_agree_with_the_exact_diagram():
    """Curved strokes that cross and enclose counters lie on the exact diagram."""
    exact = exact_axis(outline(SCRIPT), chord=0.05)
    assert np.count_nonzero(exact.residual > TELLING * exact.radius) > 1000
    assert_agreement(medial_axis(outline(SCRIPT)), exact)


LOOKED_INTO = {
    "a tiny side beside an inner corner": (
        [
            stroke([(191, 5), (-99, 131), (83, -150), (-67, 140), (-130, -60)], 11),
            stroke([(-31, -65), (-186, -28), (-112, 38), (68, 191)], 3),
            stroke([(-5, -9), (7, -13), (-16, 17), (17, 3), (7, 11)], 5),
        ],
        90.0,
    ),
    "a stroke's side, then its cap": (
        [
            stroke([(-189, -93), (185, 195), (80, -112)], 14),
            stroke([(-121, -169), (-121, 90)], 4),
            stroke([(-35, -129), (93, 109), (28, -154)], 7),
        ],
        29.335504835288905,
    ),
    "two corners near each other by the contour": (
        [
            stroke([(-78, 94), (-94, -114), (-126, -150), (-129, 102), (63, -50)], 5),
            stroke([(-174, 105), (103, 145), (130, 108)], 9, 2),
            stroke([(9, 12), (-19, 3), (4, 2)], 9),
        ],
        21.765253710409983,
    ),
    "a flattened cap with five sides equally far": (
        [
            stroke([(-15, -12), (9, -15)], 14, 2),
            stroke([(156, -180), (38, 152), (-197, -191), (105, -102), (-13, 24)], 11, 4),
        ],
        48.626531839563164,
    ),
    "an end in the middle of a cap": (
        [
            stroke([(4, 165), (79, 142), (181, -177), (-125, 37)], 13, 2),
            stroke([(-4, -12), (-5, 16), (1, 17), (6, 14)], 11, 4),
        ],
        90.0,
    ),
}
"""Strokes that meet where the axis of two sides is cut off by a third, or ends."""


@pytest.mark.parametrize("name", LOOKED_INTO)
def test_axis_turns_where_a_third_side_looks_in(name):
    """Where a disc passes from one stretch of contour to another, the axis keeps its corner."""
    strokes, angle = LOOKED_INTO[name]
    sign = outline(shapely.affinity.rotate(shapely.union_all(strokes), angle, origin=(0, 0)))
    axis = medial_axis(sign)
    assert_graph_is_that_of_the_metal(axis, sign)
    assert_discs_are_maximal(axis, sign)
    assert_agreement(axis, exact_axis(sign))


def assert_agreement(axis, exact):
    """Places agree within the tolerance of flattening, in both directions."""
    telling = exact.residual > TELLING * exact.radius
    assert furthest(exact.xy[telling], branches_and_blobs(axis)) < AGREEMENT_MM
    for branch in axis.branches:
        assert furthest(branch.xy, exact.edges) < AGREEMENT_MM


@pytest.mark.parametrize("tolerance", [0.5, 0.1, 0.02, 0.005])
def test_tips_do_not_depend_on_the_flattening(tolerance):
    """However finely arcs are flattened, the same strokes end in the same places."""
    quad_segs = int(np.ceil(np.pi / 4 / np.arccos(1 - tolerance / 12)))
    parts = [
        stroke([(0, 0), (200, 0)], 12, quad_segs),
        stroke([(100, 0), (100, 150)], 9, quad_segs),
        shapely.Point(30, 60).buffer(11, quad_segs),
    ]
    axis = medial_axis(outline(*parts))
    tips = sorted(tip.xy for tip in axis.tips)
    assert np.array(tips) == pytest.approx(np.array([(-12, 0), (100, 159), (212, 0)]), abs=0.6)
    assert np.count_nonzero(axis.degree == 0) == 1
    assert axis.junctions == 1


@pytest.mark.parametrize("angle", [0.0, 1e-3, 17.0, 45.0, 90.0])
@pytest.mark.parametrize("offset", [(0.0, 0.0), (1e6, -1e6)])
def test_place_and_direction_do_not_matter(angle, offset):
    """The axis of a turned and shifted outline is the axis, turned and shifted."""
    for shape in (BAR, CROSS, RING):
        moved = shapely.affinity.translate(shapely.affinity.rotate(shape, angle), *offset)
        axis, still = medial_axis(outline(moved)), medial_axis(outline(shape))
        assert axis.length_mm == pytest.approx(still.length_mm, abs=0.02)
        assert sorted(axis.degree) == sorted(still.degree)
        assert np.sort(axis.node_clearance) == pytest.approx(
            np.sort(still.node_clearance), abs=0.01
        )
        assert len(axis.tips) == len(still.tips)


@pytest.mark.parametrize("size", [1e-3, 1.0, 30.0])
def test_size_does_not_matter(size):
    """Signs of a millimetre and of thirty metres have the axis of one of a metre."""
    still = medial_axis(outline(SCRIPT))
    axis = medial_axis(outline(shapely.affinity.scale(SCRIPT, size, size, origin=(0, 0))))
    assert sorted(axis.degree) == sorted(still.degree)
    assert axis.length_mm == pytest.approx(size * still.length_mm, rel=0.02)


def test_dense_outlines_are_measured_against_what_was_drawn():
    """Thinning dense vertices leaves every clearance the distance to the drawn outline."""
    sign = outline(stroke([(0, 0), (100, 30), (200, 0)], 10, 4000))
    assert sign.vertex_count > 15_000
    axis = medial_axis(sign)
    assert_discs_are_maximal(axis, sign)
    assert len(axis.tips) == 2


HOSTILE = {
    "comb": [
        shapely.box(0, 0, 500, 20),
        *(shapely.box(10 * i, 0, 10 * i + 5, 100) for i in range(50)),
    ],
    "needle": [shapely.Polygon([(0, 0), (190, 0.001), (0, 0.002)])],
    "slot": [shapely.box(0, 0, 200, 50).difference(shapely.box(20, 25, 180, 25.000001))],
    "neck": [
        stroke([(0, 0), (100, 0)], 10),
        shapely.box(100, -0.00001, 200, 0.00001),
        shapely.box(200, -20, 260, 20),
    ],
    "letters apart by 0.8": [shapely.box(40.8 * i, 0, 40.8 * i + 40, 200) for i in range(5)],
    "repeated points": [
        shapely.Polygon([(0, 0), (0, 0), (50, 0), (100, 0), (100, 30), (100, 30), (0, 30)])
    ],
    "tiny counter": [shapely.box(0, 0, 1000, 60).difference(shapely.box(500, 30, 500.01, 30.01))],
    "tiny counter near the edge": [
        shapely.box(0, 0, 1000, 60).difference(shapely.box(500, 0.02, 500.01, 0.03))
    ],
    "lattice": [
        *(shapely.box(20 * i, 0, 20 * i + 4, 104) for i in range(6)),
        *(shapely.box(0, 20 * i, 104, 20 * i + 4) for i in range(6)),
    ],
    "perforated plate": [
        shapely.box(0, 0, 300, 300).difference(
            shapely.MultiPoint(
                [(15 + 30 * i, 15 + 30 * j) for i in range(10) for j in range(10)]
            ).buffer(9, 8)
        )
    ],
    "staircase": [shapely.box(5 * i, 0, 5 * i + 5.0, 5 * i + 5) for i in range(30)],
    "star": [
        shapely.Polygon(
            [
                (r * np.cos(a), r * np.sin(a))
                for a, r in zip(np.linspace(0, 2 * np.pi, 41)[:-1], [100, 20] * 20, strict=True)
            ]
        )
    ],
    "hairline ring": [
        shapely.box(0, 0, 100, 100).difference(shapely.box(0.001, 0.001, 99.999, 99.999))
    ],
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_shapes(name):
    """Combs, needles, slots, lattices and specks have the axis the definition asks for."""
    sign = outline(*HOSTILE[name])
    axis = medial_axis(sign)
    assert_graph_is_that_of_the_metal(axis, sign)
    assert_discs_are_maximal(axis, sign)
    assert_ways_and_nodes_agree(axis)


def test_noise_makes_no_strokes():
    """A ragged edge grows no branches: a noisy bar has the two ends of a bar."""
    noise = np.random.default_rng(7).normal(0, 0.1, (2, 1000))
    x = np.arange(1000.0)
    rim = np.r_[np.c_[x, noise[0]], np.c_[x[::-1], 40 + noise[1]]]
    sign = Outline.from_geometry(shapely.Polygon(rim).buffer(0))
    axis = medial_axis(sign)
    assert len(axis.branches) == 1
    assert len(axis.tips) == 2
    assert axis.length_mm == pytest.approx(960, abs=25)


def test_dots_are_blobs():
    """Squares, discs and hexagons are lone nodes; what is longer than wide is a stroke."""
    for dot in (shapely.box(0, 0, 40, 40), shapely.Point(3, 4).buffer(20, 64)):
        axis = medial_axis(outline(dot))
        assert axis.branches == ()
        assert axis.tips == ()
        assert axis.node_clearance == pytest.approx([20], abs=0.01)
    assert len(medial_axis(outline(shapely.box(0, 0, 60, 40))).branches) == 1


def test_touching_pieces_have_an_axis_each():
    """Where two pieces touch in a point, no metal joins there."""
    sign = Outline.from_geometry(
        shapely.MultiPolygon([shapely.box(0, 0, 90, 30), shapely.box(90, 30, 120, 120)])
    )
    axis = medial_axis(sign)
    assert [branch.piece for branch in axis.branches] == [0, 1]
    assert axis.length_mm == pytest.approx(120, abs=0.01)
    assert_discs_are_maximal(axis, sign)


def test_counter_that_touches_the_outer_contour():
    """The axis runs around such a counter, but not through the point where it touches."""
    hole = [(0, 50), (50, 70), (50, 30)]
    sign = Outline.from_geometry(shapely.Polygon([(0, 0), (100, 0), (100, 100), (0, 100)], [hole]))
    axis = medial_axis(sign)
    assert len(axis.branches) == 1
    assert axis.branches[0].start != axis.branches[0].end
    assert_discs_are_maximal(axis, sign)


def test_no_metal_no_axis():
    """An empty outline has an empty axis."""
    axis = medial_axis(Outline(()))
    assert axis.branches == axis.tips == ()
    assert axis.node_xy.shape == (0, 2)
    assert axis.length_mm == 0


def test_inconsistent_graphs_are_refused(monkeypatch):
    """When no try gives a graph of the metal's shape, one clear sentence says so."""
    monkeypatch.setattr(subject, "_consistent", lambda axis, boundary: False)
    with pytest.raises(subject.HoleplacerError, match="contours that touch"):
        medial_axis(outline(BAR))


def test_a_graph_with_a_branch_too_few_is_not_consistent():
    """The check sees a missing branch and a missing node."""
    sign = outline(RING)
    axis = medial_axis(sign)
    boundary = subject.boundary_of(sign.region, np.arange(1))
    assert subject._consistent(axis, boundary)
    broken = subject.Axis((), axis.node_xy, axis.node_clearance, axis.node_piece, ())
    assert not subject._consistent(broken, boundary)


def test_arrays_are_read_only():
    """Nothing in the axis can be written."""
    axis = medial_axis(outline(CROSS))
    arrays = [axis.node_xy, axis.node_clearance, axis.node_piece]
    for branch in axis.branches:
        arrays += [branch.xy, branch.clearance, branch.s, branch.contacts]
    assert not any(array.flags.writeable for array in arrays)
