"""Strength after one hole moves, beside a fresh plate and a fresh frame of the same sign.

The first peer is a Morley plate (scikit-fem) on our own triangles, assembled and solved anew, as a
general finite-element program would for each new place of a hole. The second is a plain grillage
of the same stations, assembled and solved anew: a general frame program's part.
"""

import statistics
from collections.abc import Callable
from dataclasses import replace
from time import process_time
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_array, csc_array
from scipy.sparse.linalg import spsolve
from scipy.spatial import cKDTree
from skfem import Basis, BilinearForm, ElementTriMorley, LinearForm, MeshTri
from skfem.helpers import dd, ddot, eye, trace

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.artwork.read import read_artwork
from holeplacer.evaluation import evaluate
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement.propose import propose
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.resources import resource_path
from holeplacer.structure import beam, frame, grillage, handling, response
from holeplacer.structure.bearing_studs import Stud
from holeplacer.structure.grillage import Grillage
from holeplacer.structure.plate_mesh import plate_mesh
from holeplacer.structure.response import Case
from holeplacer.structure.stations import stations

AXES_M = (7.0, 30.0)
SPACING_MM = 230.0
"""Gives 27 holes on 7 m of axis."""
MOVES = 15
DRAG = 5
"""Moves of one hole before another is taken."""
SHEET = {"thickness_mm": 1.519, "elastic_mpa": 203e3, "shear_mpa": 203e3 / 2.6}
RIGIDITY = 203e3 * 1.519**3 / 12 / 0.91
CASES = (Case("pressure out", 1e-3), Case("pressure in", -1e-3))

Result = TypeVar("Result")
Row = tuple[str, float, str, float, float]
Floats = NDArray[np.float64]


def rows() -> list[Row]:
    """What, our CPU seconds, peer, the peer's, ours by the peer's."""
    return [row for metres in AXES_M for row in _size(metres)]


def _size(metres: float) -> list[Row]:
    plan, outline, axis = _sign(metres)
    holes = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    what = f"{axis.length_mm / 1000:.0f} m of axis, {len(holes)} holes"
    build, sign = _timed(lambda: grillage.grillage.__wrapped__(outline, axis, **SHEET))
    first, _ = _timed(lambda: response.respond(sign, holes, CASES, clamped=False))
    plate, plate_name = _plate(outline, axis, holes)
    plain, plain_name = _frame(outline, axis, holes)
    free, clamped = (_moved(sign, holes, clamped=c) for c in (False, True))
    hands, _ = _timed(lambda: handling.carried.__wrapped__(sign))
    hung, hung_peer = _hung(outline, axis, holes)
    whole = _evaluated(plan, outline, axis)
    return [
        (f"{what}: build and factor", build, plate_name, plate, build / plate),
        (f"{what}: first answer", first, plate_name, plate, first / plate),
        (f"{what}: one hole moved", free, plate_name, plate, free / plate),
        (f"{what}: one hole moved", free, plain_name, plain, free / plain),
        (f"{what}: one hole moved, clamped", clamped, plate_name, plate, clamped / plate),
        (f"{what}: hung, one hole moved", hung, "the same with the frame built", hung_peer,
         hung / hung_peer),
        (f"{what}: all rules, cases and limit states, one hole moved", whole, plate_name, plate,
         whole / plate),
        (f"{what}: all pairs of hands", hands, plate_name, plate, hands / plate),
    ]  # fmt: skip


def _sign(metres: float) -> tuple[Plan, Outline, Axis]:
    """The demo sign at such a size that its axis has a length, with holes proposed, in 1 kPa."""
    path = next(resource_path("demo").glob("*.svg"))
    file = ArtworkFile(path.name, path.read_bytes())
    width = 1000.0
    for _ in range(2):
        options = ReadOptions(width_mm=width)
        outline = read_artwork(file, options).outline
        axis = medial_axis(outline)
        width *= metres * 1000.0 / axis.length_mm
    plan = Plan(file, options)
    limits = replace(plan.limits, spacing_mm=SPACING_MM, overhang_mm=SPACING_MM / 2)
    holes = propose(replace(plan, limits=limits), outline, axis).holes
    windy = replace(plan, limits=limits, loading=Loading("entered", pressure_out_pa=1000.0))
    return edit.with_holes(windy, holes), outline, axis


def _evaluated(plan: Plan, outline: Outline, axis: Axis) -> float:
    """What the window does of the core in each frame of a drag: median, as `_moved`."""
    rng = np.random.default_rng(7)
    evaluate.evaluate(plan, outline, axis)
    seconds = []
    for move in range(MOVES):
        hole = plan.holes[move // DRAG % len(plan.holes)]
        x, y = rng.normal((hole.x_mm, hole.y_mm), 1.0)
        moved = edit.with_hole_moved(plan, hole.number, float(x), float(y))
        seconds.append(_timed(lambda moved=moved: evaluate.evaluate(moved, outline, axis))[0])
    return statistics.median(seconds)


def _moved(sign: Grillage, holes: Floats, *, clamped: bool) -> float:
    """Median over several holes, each moved to a place never asked for."""
    rng = np.random.default_rng(7)
    response.respond(sign, holes, CASES, clamped=clamped)
    seconds = []
    for move in range(MOVES):
        moved = holes.copy()
        moved[move // DRAG % len(holes)] += rng.normal(0.0, 1.0, 2)
        seconds.append(
            _timed(lambda xy=moved: response.respond(sign, xy, CASES, clamped=clamped))[0]
        )
    return statistics.median(seconds)


def _hung(outline: Outline, axis: Axis, holes: Floats) -> tuple[float, float]:
    stud = Stud(6.35, 25.4, 200e3, 0.4)
    build, sign = _timed(lambda: frame.frame.__wrapped__(outline, axis, **SHEET))

    def hang(xy: Floats) -> object:
        return frame.hang(sign, xy, stud, weight_mpa=1.2e-4, strain=4.7e-4)

    hang(holes)
    rng = np.random.default_rng(7)
    seconds = []
    for move in range(MOVES):
        moved = holes.copy()
        moved[move // DRAG % len(holes)] += rng.normal(0.0, 1.0, 2)
        seconds.append(_timed(lambda xy=moved: hang(xy))[0])
    return statistics.median(seconds), build + statistics.median(seconds)


def _plate(outline: Outline, axis: Axis, holes: Floats) -> tuple[float, str]:
    """A plate of every piece, assembled and solved anew."""
    seconds, freedoms = 0.0, 0
    piece = outline.piece_at(holes)
    for index, metal in enumerate(outline.pieces):
        xy, corners = plate_mesh(metal.polygon, stations(axis, index))
        mesh = MeshTri(np.ascontiguousarray(xy.T), np.ascontiguousarray(corners.T))
        own = cKDTree(xy).query(holes[piece == index])[1]
        taken, size = _timed(lambda mesh=mesh, own=own: _morley(mesh, own))
        seconds, freedoms = seconds + taken, freedoms + size
    return seconds, f"fresh Morley plate, {freedoms} freedoms"


def _morley(mesh: MeshTri, corners: NDArray[np.intp]) -> int:
    @BilinearForm
    def bending(u, v, _):  # type: ignore[no-untyped-def]
        bent = dd(u)
        return ddot(RIGIDITY * (0.7 * bent + 0.3 * eye(trace(bent), 2)), dd(v))

    @LinearForm
    def pressure(v, _):  # type: ignore[no-untyped-def]
        return 1.0 * v

    basis = Basis(mesh, ElementTriMorley(), intorder=2)
    stiff, load = csc_array(bending.assemble(basis)), pressure.assemble(basis)
    free = np.setdiff1d(np.arange(basis.N), basis.nodal_dofs[0][corners])
    if len(corners) > 2:
        spsolve(csc_array(stiff[free, :][:, free]), load[free])
    return int(basis.N)


def _frame(outline: Outline, axis: Axis, holes: Floats) -> tuple[float, str]:
    """A grillage of every piece, assembled and solved anew; holes at the nearest station."""
    piece = outline.piece_at(holes)
    seconds, freedoms = 0.0, 0
    for index in range(len(outline.pieces)):
        strip = stations(axis, index)
        own = np.unique(cKDTree(strip.xy).query(holes[piece == index])[1])
        seconds += _timed(lambda strip=strip, own=own: _solve_frame(strip, own))[0]
        freedoms += 3 * len(strip.xy)
    return seconds, f"fresh frame, {freedoms} freedoms"


def _solve_frame(strip: object, own: NDArray[np.intp]) -> None:
    step = strip.xy[strip.last] - strip.xy[strip.first]
    if not len(step) or len(own) < 3:
        return
    bending = 203e3 * beam.bending_mm4(strip.width, 1.519)
    twisting = 78e3 * beam.torsion_mm4(strip.width, 1.519)
    local = beam.stiffness(step, bending, twisting)
    ends = np.stack([strip.first, strip.last], axis=1)
    freedom = (3 * ends[:, :, None] + np.arange(3)).reshape(-1, 6)
    at = np.repeat(freedom, 6, axis=1).ravel(), np.tile(freedom, (1, 6)).ravel()
    size = 3 * len(strip.xy)
    stiff = csc_array(coo_array((local.ravel(), at), shape=(size, size)))
    load = np.zeros(size)
    np.add.at(load, 3 * ends.ravel(), np.repeat(0.5 * strip.width * np.hypot(*step.T), 2))
    free = np.setdiff1d(np.arange(size), 3 * own)
    spsolve(csc_array(stiff[free, :][:, free]), load[free])


def _timed(work: Callable[[], Result]) -> tuple[float, Result]:
    begun = process_time()
    result = work()
    return process_time() - begun, result


if __name__ == "__main__":
    for row in rows():
        print(row)
