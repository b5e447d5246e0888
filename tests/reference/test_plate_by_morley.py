"""Our plate and our strokes beside Morley triangles of an independent finite-element library.

Source: L. S. D. Morley, "The triangular equilibrium element in the solution of plate bending
problems", 1968, as scikit-fem has it (status R: both run here, on meshes of their own fineness).
Whole letterings are compared by `scripts/compare_with_plate.py`; here are shapes small enough for
every run. A nonconforming plate sinks a little too much, ours a little too little.
"""

import numpy as np
import pytest
import shapely
from scipy.sparse.linalg import splu
from scipy.spatial import cKDTree
from shapely.geometry import LineString
from skfem import Basis, BilinearForm, ElementTriMorley, LinearForm, MeshTri
from skfem.helpers import dd, ddot, eye, trace

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.structure import grillage, response, triangles
from holeplacer.structure.plate_mesh import plate_mesh
from holeplacer.structure.response import Case
from holeplacer.structure.stations import stations

METAL = {"thickness_mm": 1.5, "elastic_mpa": 200e3, "shear_mpa": 200e3 / 2.6}
RIGIDITY = 200e3 * 1.5**3 / 12 / 0.91
P = 1e-3
FINE = 9.0
"""Triangles across a stroke in the judge's mesh."""


def knot(t):
    """A curve that crosses itself."""
    return np.column_stack([90 * (t**2 - 2.5), 60 * (t**3 - 2.6 * t)])


def loop():
    """A pen's loop that crosses itself, with an upstroke: thin and wide, one counter."""
    line = LineString(knot(np.linspace(-2.2, 2.2, 90)))
    up = LineString([(-225, 0), (-330, 60), (-420, 200)])
    return shapely.union_all([line.buffer(14, 16), up.buffer(8, 16)])


def frame():
    """A panel with two counters."""
    return shapely.box(0, 0, 400, 260).difference(
        shapely.box(45, 45, 150, 215).union(shapely.box(210, 60, 350, 200))
    )


CASES = {
    "loop": (loop(), [*knot(np.array([-2.1, -1.0, 0.4, 1.9])), (-410, 184)]),
    "frame": (frame(), [(20, 20), (380, 25), (20, 240), (375, 235), (180, 130)]),
    "dot": (shapely.Point(0, 0).buffer(60, 24), [(-35, -20), (35, -20), (0, 40)]),
    "bar": (shapely.box(0, 0, 600, 36), [(20, 8), (20, 28), (300, 18), (580, 18)]),
}


def morley(outline, axis, holes):
    """Greatest deflection and reactions of a plate held in its deflection at corners of a mesh."""
    xy, corners = plate_mesh(outline.pieces[0].polygon, stations(axis, 0), FINE)
    tree = cKDTree(xy)
    at = tree.query(holes)[1]
    xy[at] = holes
    assert (triangles.areas(xy, corners) > 0).all()
    mesh = MeshTri(np.ascontiguousarray(xy.T), np.ascontiguousarray(corners.T))

    @BilinearForm
    def bending(u, v, _):
        return ddot(RIGIDITY * (0.7 * dd(u) + 0.3 * eye(trace(dd(u)), 2)), dd(v))

    @LinearForm
    def pressure(v, _):
        return P * v

    basis = Basis(mesh, ElementTriMorley(), intorder=2)
    stiff, load = bending.assemble(basis).tocsc(), pressure.assemble(basis)
    fixed = basis.nodal_dofs[0][at]
    free = np.setdiff1d(np.arange(basis.N), fixed)
    moved = np.zeros(basis.N)
    moved[free] = splu(stiff[free][:, free]).solve(load[free])
    return np.abs(moved[basis.nodal_dofs[0]]).max(), load[fixed] - stiff[fixed] @ moved


@pytest.mark.parametrize("name", CASES)
def test_deflection_and_reactions_agree(name):
    """Greatest deflection within 4 %, each reaction within 2 % of the largest."""
    region, holes = CASES[name]
    outline = Outline.from_geometry(region)
    axis = medial_axis(outline)
    holes = np.array(holes, float)
    assert (outline.piece_at(holes) == 0).all()
    deflection, reactions = morley(outline, axis, holes)
    sign = grillage.grillage(outline, axis, **METAL)
    assert sign.models == (("strokes",) if name == "bar" else ("plate",))
    ours = response.respond(sign, holes, [Case("pressure out", P)], clamped=False)[0]
    assert ours.max_deflection_mm == pytest.approx(deflection, rel=0.04)
    assert np.abs(np.array(ours.reactions_n) - reactions).max() < 0.02 * np.abs(reactions).max()


def test_beams_would_be_wrong_where_a_plate_is_taken():
    """The panel's strokes as beams are off by twice as much as its plate: the choice is needed."""
    region, holes = CASES["frame"]
    outline = Outline.from_geometry(region)
    axis = medial_axis(outline)
    deflection, _ = morley(outline, axis, np.array(holes, float))
    off = {}
    for model in ("strokes", "plate"):
        sign = grillage.grillage(outline, axis, **METAL, model=model)
        found = response.respond(sign, holes, [Case("pressure out", P)], clamped=False)[0]
        off[model] = abs(found.max_deflection_mm / deflection - 1.0)
    assert off["strokes"] > 2.0 * off["plate"]
