"""Supports: standoffs as restraints of a body that has been factored once without them.

The body is held at a few of its own freedoms, spread over it, and factored. The true answer is
the one in which these holders carry nothing and the standoffs don't move: a small dense system in
the holders' movements and the standoffs' reactions. So a moved standoff costs one sparse solve for
its own unit force, and nothing is ever taken off that was large, which would lose digits.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_array, csr_array, vstack
from scipy.sparse.linalg import SuperLU, splu

from holeplacer.geometry.curve import Points
from holeplacer.structure.body import Body

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

MOST_REMEMBERED = 8_000_000
"""Figures kept of unit forces: 64 MB."""
AT_ONCE = 64
"""Holders whose movement is solved together, to bound memory."""


@dataclass(frozen=True, eq=False)
class Restraint:
    """One place's rows of movement, each with what a unit force on it does to the held body.

    Attributes:
        rows: (r, n) sparse: deflection, or deflection and both slopes where clamped.
        bent: (r, n_free) movement of the held body under a unit force on each row.
        passed: (r, n_held) force that arrives at the holders' movements.
    """

    rows: csr_array
    bent: Floats
    passed: Floats


@dataclass(frozen=True, eq=False)
class Held:
    """A body factored on its holders.

    Attributes:
        body: The body.
        free: Freedoms that are not held.
        factor: Of the free freedoms' stiffness.
        coupling: (n_free, n_held) stiffness between both.
        condensed: (n_held, n_held) stiffness the holders feel.
        load_bent: (n_free,) movement of the held body under unit pressure.
        load_passed: (n_held,) force that arrives at the holders.
    """

    body: Body
    free: Indices
    factor: SuperLU
    coupling: csc_array
    condensed: Floats
    load_bent: Floats
    load_passed: Floats
    _known: dict[tuple[float, float, bool], Restraint] = field(default_factory=dict)

    def restraints(self, xy: Points, *, clamped: bool) -> list[Restraint]:
        """Rows of each place; places asked for again are remembered."""
        keys = [(float(x), float(y), clamped) for x, y in xy]
        missing = [key for key in dict.fromkeys(keys) if key not in self._known]
        if len(self._known) * len(self.free) > MOST_REMEMBERED:
            self._known.clear()
            missing = list(dict.fromkeys(keys))
        if missing:
            kinds = self.body.attach(np.array([key[:2] for key in missing]))
            kinds = kinds if clamped else kinds[:1]
            rows = csr_array(vstack([csr_array(kind) for kind in kinds]))
            order = np.arange(rows.shape[0]).reshape(len(kinds), -1).T.ravel()
            rows = csr_array(rows[order])
            bent = self.factor.solve(rows[:, self.free].toarray().T).T
            passed = rows[:, self.body.held].toarray() - bent @ self.coupling
            for index, key in enumerate(missing):
                part = slice(index * len(kinds), (index + 1) * len(kinds))
                self._known[key] = Restraint(csr_array(rows[part]), bent[part], passed[part])
        return [self._known[key] for key in keys]


def held(body: Body) -> Held:
    """Factor a body on its holders."""
    every = np.arange(body.stiffness.shape[0])
    free = np.setdiff1d(every, body.held)
    stiff = csc_array(body.stiffness)
    inner = csc_array(stiff[:, free][free, :])
    factor = splu(inner, permc_spec="MMD_AT_PLUS_A", options={"SymmetricMode": True},
                  diag_pivot_thresh=0.0) if len(free) else None  # fmt: skip
    coupling = csc_array(stiff[:, body.held][free, :])
    condensed = stiff[:, body.held][body.held, :].toarray()
    for start in range(0, len(body.held) if len(free) else 0, AT_ONCE):
        some = coupling[:, start : start + AT_ONCE].toarray()
        condensed[:, start : start + AT_ONCE] -= coupling.T @ factor.solve(some)
    bent = factor.solve(body.load[free]) if factor is not None else np.empty(0)
    passed = body.load[body.held] - coupling.T @ bent
    condensed = 0.5 * (condensed + condensed.T)
    return Held(body, free, factor, coupling, condensed, bent, passed)


@dataclass(frozen=True, eq=False)
class Answer:
    """What a body does under unit pressure.

    Attributes:
        freedoms: (n,) movements, mm and slopes for 1 MPa.
        forces: (k, 1 or 3) what each standoff pulls back with: force, and moments as work on the
            two slopes where clamped, N and N mm for 1 MPa.
    """

    freedoms: Floats
    forces: Floats


def answer(body: Held, xy: Points, *, clamped: bool) -> Answer:
    """Unit pressure on a body on standoffs that keep it from moving rigidly.

    Args:
        body: The factored body.
        xy: (k, 2) places of the standoffs, in its metal.
        clamped: Whether they hold the slopes too.
    """
    restraints = body.restraints(xy, clamped=clamped)
    rows = csr_array(vstack([r.rows for r in restraints]))
    bent = np.concatenate([r.bent for r in restraints])
    passed = np.concatenate([r.passed for r in restraints])
    free_rows = rows[:, body.free]
    yielding = free_rows @ bent.T
    load_moved = free_rows @ body.load_bent
    count = len(body.condensed)
    matrix = np.block([[body.condensed, passed.T], [passed, -0.5 * (yielding + yielding.T)]])
    right = np.concatenate([body.load_passed, -load_moved])
    solved = _solved(matrix, right)
    held, force = solved[:count], solved[count:]
    force = _balanced(body.body, rows, force)
    load = body.body.load - rows.T @ force
    freedoms = np.empty(len(body.body.load))
    freedoms[body.body.held] = held
    if len(body.free):
        freedoms[body.free] = body.factor.solve(load[body.free] - body.coupling @ held)
    return Answer(freedoms, force.reshape(len(xy), -1))


def _solved(matrix: Floats, right: Floats) -> Floats:
    """Solve a symmetric system whose rows have different units; refined once.

    A body that is rigid shares its load among more than three standoffs by least squares.
    """
    scale = 1.0 / np.sqrt(np.maximum(np.abs(matrix).max(axis=1), 1e-300))
    scaled = scale[:, None] * matrix * scale
    try:
        found = np.linalg.solve(scaled, scale * right)
        found += np.linalg.solve(scaled, scale * right - scaled @ found)
    except np.linalg.LinAlgError:
        found = np.linalg.lstsq(scaled, scale * right, rcond=1e-12)[0]
    return scale * found


def _balanced(body: Body, rows: csr_array, force: Floats) -> Floats:
    """Forces with the last digits put right, so that they balance the load and its moments."""
    lever = rows @ body.rigid
    wanted = body.rigid.T @ body.load
    for _ in range(2):
        force = force + np.linalg.lstsq(lever.T, wanted - lever.T @ force, rcond=None)[0]
    return force
