"""Compares the grillage with a plate model of the same lettering, holes and pressure.

    .venv/bin/python scripts/compare_with_plate.py ARTWORK...

For each artwork: holes as proposed with the default limits, 1.519 mm steel, 1 kPa off the wall,
standoffs that leave the slope free. The plate is made of Morley triangles (scikit-fem), each hole a
corner held in its deflection, on two meshes of which the finer has half the size; what is compared
is extrapolated from both (their energies err with the square of the size), and their difference
tells how far the mesh has converged. Pieces that two holes leave free to turn are left out.
"""

import sys
from dataclasses import dataclass
from pathlib import Path
from time import perf_counter

import numpy as np
import pythoncdt
import shapely
from numpy.typing import NDArray
from scipy.sparse.linalg import splu
from scipy.spatial import cKDTree
from shapely.geometry import Polygon
from skfem import Basis, BilinearForm, ElementTriMorley, LinearForm, MeshTri
from skfem.helpers import dd, ddot, eye, trace

from holeplacer.artwork import read, source
from holeplacer.artwork.options import ReadOptions
from holeplacer.medial_axis import medial_axis, ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose
from holeplacer.plan.plan import Plan
from holeplacer.structure import grillage, response
from holeplacer.structure.response import Case

Floats = NDArray[np.float64]

THICKNESS_MM, ELASTIC_MPA, POISSON, PRESSURE_MPA = 1.519, 203_000.0, 0.3, 1e-3
SHEAR_MPA = ELASTIC_MPA / (2.0 * (1.0 + POISSON))
ACROSS = 4.0
"""Triangles across a stroke in the coarser mesh."""
GRADED = 16.0
"""Smallest triangles, as a share of the largest."""


@dataclass(frozen=True, eq=False)
class Plate:
    """What the plate model says of one piece under unit pressure.

    Attributes:
        deflection: Greatest deflection, mm.
        at: Where.
        reactions: (k,) N.
        stress: Greatest von Mises stress at the axis, away from the holes, MPa.
        stress_at: Where.
        freedoms: Size of the system.
        seconds: Assembly and solution.
    """

    deflection: float
    at: Floats
    reactions: Floats
    stress: float
    stress_at: Floats
    freedoms: int
    seconds: float


def mesh(polygon: Polygon, axis: Axis, holes: Floats, across: float) -> MeshTri:
    """Triangles of a piece, small where its strokes are thin; every hole is a corner."""
    net = ways.network(axis)
    radius = np.concatenate([net.clearance, axis.node_clearance])
    nearest = cKDTree(np.concatenate([net.xy, axis.node_xy]))
    largest = 2.0 * float(np.quantile(radius, 0.95)) / across

    def size(xy: Floats) -> Floats:
        wide = 2.0 * radius[nearest.query(xy)[1]]
        return np.clip(wide / across, 1.0001 * largest / GRADED, largest)

    rings = [_resampled(shapely.get_coordinates(r), size)
             for r in (polygon.exterior, *polygon.interiors)]  # fmt: skip
    rings = [ring if len(ring) > 3 else shapely.get_coordinates(was)[:-1] for ring, was in
             zip(rings, (polygon.exterior, *polygon.interiors), strict=True)]  # fmt: skip
    coarse = Polygon(rings[0], rings[1:])
    inner = [holes] if len(holes) else []
    edge = cKDTree(np.concatenate(rings))
    step = largest
    shapely.prepare(coarse)
    while step >= largest / GRADED:
        fit = np.clip(2 * radius / across, largest / GRADED, largest)
        here = (fit >= 0.6 * step) & ((fit < 2.5 * step) | (step == largest))
        grid = _grid(nearest.data[here], radius[here], step)
        wanted = size(grid)
        grid = grid[(wanted >= step) & ((wanted < 2 * step) | (step == largest))]
        grid = grid[shapely.contains_xy(coarse, grid[:, 0], grid[:, 1])]
        grid = grid[edge.query(grid)[0] > 0.6 * step] if len(grid) else grid
        if len(holes) and len(grid):
            grid = grid[cKDTree(holes).query(grid)[0] > 0.5 * step]
        inner.append(grid)
        step /= 2
    return _triangulated(rings, np.concatenate(inner))


def _resampled(ring: Floats, size: object) -> Floats:
    step = np.hypot(*np.diff(ring, axis=0).T)
    way = np.concatenate([[0.0], np.cumsum(step)])
    fine = np.linspace(0.0, way[-1], max(64, int(way[-1])) + 1)
    xy = np.column_stack([np.interp(fine, way, c) for c in ring.T])
    total = np.concatenate([[0.0], np.cumsum(np.diff(fine) / size(xy)[1:])])
    count = max(8, int(np.ceil(total[-1])))
    at = np.interp(np.linspace(0, total[-1], count, endpoint=False), total, fine)
    turn = np.abs(np.angle(np.exp(1j * np.diff(np.unwrap(np.arctan2(*np.diff(ring, axis=0).T))))))
    corners = way[1:-1][turn > 0.5]
    near = np.abs(at[:, None] - corners[None]).min(axis=1, initial=np.inf) if len(corners) else None
    if near is not None:
        local = size(np.column_stack([np.interp(at, way, c) for c in ring.T]))
        at = np.sort(np.concatenate([at[near > 0.5 * local], corners]))
    at = at[np.diff(at, append=at[0] + way[-1]) > 1e-3 * way[-1] / len(at)]
    return np.column_stack([np.interp(at, way, c) for c in ring.T])


def _grid(xy: Floats, radius: Floats, step: float) -> Floats:
    """Points of a grid of equilateral triangles within discs."""
    down, along = step * np.sqrt(0.75), step
    cells: list[Floats] = [np.empty((0, 2))]
    for reach in np.unique(np.ceil(radius / down)):
        ring = np.arange(-reach, reach + 1)
        offsets = np.stack(np.meshgrid(ring, ring), axis=-1).reshape(-1, 2)
        some = xy[np.ceil(radius / down) == reach]
        centre = np.unique(np.column_stack([np.rint(some[:, 0] / along),
                                            np.rint(some[:, 1] / down)]), axis=0)  # fmt: skip
        cells.append(np.unique((centre[:, None] + offsets).reshape(-1, 2), axis=0))
    at = np.unique(np.concatenate(cells), axis=0)
    return np.column_stack([(at[:, 0] + 0.5 * (at[:, 1] % 2)) * along, at[:, 1] * down])


def _triangulated(rings: list[Floats], inner: Floats) -> MeshTri:
    cdt = pythoncdt.Triangulation(
        pythoncdt.VertexInsertionOrder.AUTO, pythoncdt.IntersectingConstraintEdges.TRY_RESOLVE, 1e-9
    )
    first, edges = 0, []
    for ring in rings:
        index = first + np.arange(len(ring))
        edges.append(np.column_stack([index, np.roll(index, -1)]))
        first += len(ring)
    cdt.insert_vertices(np.ascontiguousarray(np.concatenate([*rings, inner])))
    cdt.insert_edges(np.concatenate(edges).astype(np.uint32))
    cdt.erase_outer_triangles_and_holes()
    at = cdt.vertices_array()
    return MeshTri(
        np.ascontiguousarray(np.stack([at["x"], at["y"]])),
        np.ascontiguousarray(cdt.triangles_array()["vertices"].astype(np.int64).T),
    )


def solved(triangles: MeshTri, holes: Floats, axis: Axis) -> Plate:
    """Unit pressure on a plate held in its deflection at some corners."""
    begun = perf_counter()
    rigidity = ELASTIC_MPA * THICKNESS_MM**3 / (12.0 * (1.0 - POISSON**2))

    def moments(curvature: object) -> object:
        return rigidity * ((1.0 - POISSON) * curvature + POISSON * eye(trace(curvature), 2))

    @BilinearForm
    def bending(u, v, _):  # type: ignore[no-untyped-def]
        return ddot(moments(dd(u)), dd(v))

    @LinearForm
    def pressure(v, _):  # type: ignore[no-untyped-def]
        return 1.0 * v

    basis = Basis(triangles, ElementTriMorley(), intorder=2)
    stiff, load = bending.assemble(basis).tocsc(), pressure.assemble(basis)
    corner = cKDTree(triangles.p.T).query(holes)[1]
    fixed = basis.nodal_dofs[0][corner]
    free = np.setdiff1d(np.arange(basis.N), fixed)
    moved = np.zeros(basis.N)
    factor = splu(
        stiff[free][:, free],
        permc_spec="MMD_AT_PLUS_A",
        options={"SymmetricMode": True},
        diag_pivot_thresh=0.0,
    )
    moved[free] = factor.solve(load[free])
    reactions = load[fixed] - stiff[fixed] @ moved
    top = basis.nodal_dofs[0]
    peak = int(np.abs(moved[top]).argmax())
    curved = moments(np.asarray(basis.interpolate(moved).hess))[:, :, :, 0]
    face = 6.0 / THICKNESS_MM**2
    middle = triangles.p[:, triangles.t].mean(axis=1).T
    sx, sy, sxy = _averaged(
        triangles, middle, axis, face * np.stack([curved[0, 0], curved[1, 1], curved[0, 1]])
    )
    mises = np.sqrt(sx**2 - sx * sy + sy**2 + 3 * sxy**2)
    far = ~_about_holes(middle, holes, axis)
    worst = int(np.where(far, mises, 0.0).argmax())
    return Plate(
        float(abs(moved[top][peak])), triangles.p[:, peak], reactions, float(mises[worst]),
        middle[worst], len(free), perf_counter() - begun,
    )  # fmt: skip


def _averaged(triangles: MeshTri, middle: Floats, axis: Axis, values: Floats) -> Floats:
    """Means over discs of half the stroke's clearance: at a notch a plate's moment has no limit."""
    a, b, c = (triangles.p[:, corner].T for corner in triangles.t)
    one, two = b - a, c - a
    area = np.abs(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])
    radius = 0.5 * ways.clearances(axis, ways.feet(axis, middle).points)
    near = cKDTree(middle).query_ball_point(middle, radius)
    sizes = np.array([len(some) for some in near])
    columns = np.concatenate([np.asarray(some, np.intp) for some in near])
    first = np.cumsum(sizes) - sizes
    weight = np.add.reduceat(area[columns], first)
    return np.add.reduceat((area * values)[:, columns], first, axis=1) / weight


def _about_holes(xy: Floats, holes: Floats, axis: Axis) -> NDArray[np.bool_]:
    """Places so near a point support that the plate's moment there grows without limit."""
    feet = ways.feet(axis, holes)
    radius = ways.clearances(axis, feet.points)
    far, which = cKDTree(holes).query(xy)
    return far < 0.5 * radius[which]


@dataclass(frozen=True)
class Comparison:
    """Figures of one lettering."""

    name: str
    axis_m: float
    holes: int
    grillage_mm: float
    plate_mm: float
    converged: float
    reaction: float
    stress: float
    plate_stress: float
    same_stroke: bool
    build_s: float
    plate_s: float
    freedoms: int


def compare(name: str, outline: Outline, axis: Axis, holes: Floats, across: float) -> Comparison:
    """Grillage beside plate."""
    begun = perf_counter()
    built = grillage.grillage(outline, axis, thickness_mm=THICKNESS_MM, elastic_mpa=ELASTIC_MPA,
                              shear_mpa=SHEAR_MPA)  # fmt: skip
    ours = response.respond(built, holes, [Case("pressure out", PRESSURE_MPA)], clamped=False)[0]
    build_s = perf_counter() - begun
    piece_of = outline.piece_at(holes)
    loose = {m.piece for m in ours.mechanisms if m.certain}
    reactions = np.zeros(len(holes))
    best: Plate | None = None
    deflection = converged = seconds = 0.0
    size = 0
    for index, piece in enumerate(outline.pieces):
        own = np.flatnonzero(piece_of == index)
        if index in loose or not len(own):
            continue
        two = [solved(mesh(piece.polygon, axis, holes[own], a), holes[own], axis)
               for a in (across, 2 * across)]  # fmt: skip
        seconds, size = seconds + two[1].seconds, size + two[1].freedoms
        reactions[own] = two[1].reactions + (two[1].reactions - two[0].reactions) / 3
        limit = two[1].deflection + (two[1].deflection - two[0].deflection) / 3
        if limit > deflection:
            deflection, converged = limit, two[1].deflection / limit - 1
        if best is None or two[1].stress > best.stress:
            best = two[1]
    reactions *= PRESSURE_MPA
    if best is None:
        raise SystemExit(f"{name}: no piece has three holes, so all could turn")
    apart = np.abs(np.array(ours.reactions_n) - reactions).max() / np.abs(reactions).max()
    same = _same_stroke(axis, np.array([best.stress_at]), ours)
    return Comparison(
        name, axis.length_mm / 1000, len(holes), ours.max_deflection_mm,
        PRESSURE_MPA * deflection, converged, float(apart), ours.max_stress_mpa,
        PRESSURE_MPA * best.stress, same, build_s, seconds, size,
    )  # fmt: skip


def _same_stroke(axis: Axis, at: Floats, ours: response.Response) -> bool:
    """Whether the plate's worst place lies on the branch with our worst stress, or next to it."""
    branch = int(ways.feet(axis, at).points.branch[0])
    near = np.hypot(*(at[0] - np.array(ours.stress_at_mm)))
    here = ours.stress_branch
    width = 2 * float(axis.branches[here].clearance.max()) if here >= 0 else 0.0
    return branch == here or bool(near < width)


def main(files: list[str]) -> int:
    """Print one line for each artwork."""
    across = ACROSS
    print(
        f"{'lettering':<44} axis m holes | deflection mm: ours  plate  ratio (mesh) | reactions | "
        "stress MPa: ours plate stroke | s: ours plate freedoms"
    )
    for file in files:
        artwork = source.load_file(Path(file))
        outline = read.read_artwork(artwork, ReadOptions()).outline
        axis = medial_axis.medial_axis(outline)
        holes = propose.propose(Plan(artwork), outline, axis).holes
        xy = np.array([(hole.x_mm, hole.y_mm) for hole in holes])
        c = compare(Path(file).stem, outline, axis, xy, across)
        print(f"{c.name:<44} {c.axis_m:6.2f} {c.holes:5} | {c.grillage_mm:18.3f} {c.plate_mm:6.3f} "
              f"{c.grillage_mm / c.plate_mm:6.3f} ({c.converged:+.1%}) | {c.reaction:9.1%} | "
              f"{c.stress:16.1f} {c.plate_stress:5.1f} {'same' if c.same_stroke else 'OTHER':>6} | "
              f"{c.build_s:7.2f} {c.plate_s:5.2f} {c.freedoms:8}", flush=True)  # fmt: skip
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
