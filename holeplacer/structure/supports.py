"""Supports: standoffs as restraints of a body that has been factored once without them.

The body is held at a few of its own freedoms, spread over it, and factored. The true answer is
the one in which these holders carry nothing and the standoffs don't move: a small dense system in
the holders' movements and the standoffs' reactions. So a moved standoff costs one sparse solve for
its own unit force, and nothing is ever taken off that was large, which would lose digits.
"""

from collections import OrderedDict
from dataclasses import dataclass, field
from typing import Generic, TypeVar

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_array
from scipy.sparse.linalg import SuperLU, splu

from holeplacer.geometry.curve import Points
from holeplacer.structure.body import Elastic
from holeplacer.structure.rows import Rows

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]
Thing = TypeVar("Thing", bound=Elastic)

MOST_REMEMBERED = 12_000_000
"""Figures kept of unit forces in each piece: 96 MB."""
FEW = 2_000_000
"""Products in a sum that costs no more than one sparse solution."""
AT_ONCE = 64
"""Holders whose movement is solved together, to bound memory."""


@dataclass(frozen=True, eq=False)
class Restraint:
    """One place's rows of movement, each with what a unit force on it does to the held body.

    Attributes:
        rows: Deflection, or deflection and both slopes where clamped.
        bent: (r, n) movement of the held body under a unit force on each.
        passed: (r, h) force that arrives at the holders.
    """

    rows: Rows
    bent: Floats
    passed: Floats


@dataclass(frozen=True, eq=False)
class Held(Generic[Thing]):
    """A body factored on its holders.

    Attributes:
        body: The body.
        free: Freedoms that are not held.
        factor: Of the free freedoms' stiffness; None where there are none.
        coupling: (f, h) stiffness between both.
        condensed: (h, h) stiffness the holders feel.
        led: (h, n) movement of the whole body when each holder moves by 1.
        load_bent: (n,) movement of the held body under unit pressure.
        load_passed: (h,) force that arrives at the holders.
    """

    body: Thing
    free: Indices
    factor: SuperLU | None
    coupling: csc_array
    condensed: Floats
    led: Floats
    load_bent: Floats
    load_passed: Floats
    _known: OrderedDict[tuple[float, float, int], Restraint] = field(default_factory=OrderedDict)

    def restraints(self, xy: Points, kinds: int) -> list[Restraint]:
        """The first so many rows of each place; places asked for again are remembered."""
        keys = [(x, y, kinds) for x, y in np.asarray(xy, float).tolist()]
        known = self._known
        missing = [key for key in dict.fromkeys(keys) if key not in known]
        for key in keys:
            if key in known:
                known.move_to_end(key)
        if missing:
            rows = self.body.attach(np.array([key[:2] for key in missing]))[:kinds]
            for index, key in enumerate(missing):
                known[key] = self.restraint([row.taken(np.array([index])) for row in rows])
        most = max(len(keys), MOST_REMEMBERED // (kinds * len(self.body.load)))
        found = [known[key] for key in keys]
        while len(known) > most:
            known.popitem(last=False)
        return found

    def restraint(self, kinds: list[Rows]) -> Restraint:
        """Rows of restraint, with what unit forces on them do to the held body."""
        rows = Rows(
            np.concatenate([kind.columns for kind in kinds]),
            np.concatenate([kind.values for kind in kinds]),
            len(self.body.load),
        )
        forces = np.zeros((len(rows), rows.size))
        np.add.at(forces, (np.arange(len(rows))[:, None], rows.columns), rows.values)
        bent = self.solved(forces)
        passed = forces[:, self.body.held] - bent[:, self.free] @ self.coupling
        return Restraint(rows, bent, passed)

    def solved(self, forces: Floats) -> Floats:
        """(k, n) movement of the held body under (k, n) forces."""
        bent = np.zeros(forces.shape)
        if self.factor is not None:
            bent[..., self.free] = self.factor.solve(forces[..., self.free].T).T
        return bent


def held(body: Thing) -> Held[Thing]:
    """Factor a body on its holders."""
    free = np.setdiff1d(np.arange(len(body.load)), body.held)
    columns = csc_array(body.stiffness[:, body.held])
    coupling = csc_array(columns[free, :])
    condensed = columns[body.held, :].toarray()
    led = np.zeros((len(body.held), len(body.load)))
    led[np.arange(len(body.held)), body.held] = 1.0
    factor = None
    if len(free):
        inner = csc_array(csc_array(body.stiffness[:, free])[free, :])
        factor = splu(
            inner,
            permc_spec="MMD_AT_PLUS_A",
            diag_pivot_thresh=0.0,
            options={"SymmetricMode": True},
        )
        for start in range(0, len(body.held), AT_ONCE):
            some = slice(start, start + AT_ONCE)
            led[some, free] = -factor.solve(coupling[:, some].toarray()).T
        condensed += coupling.T @ led[:, free].T
    condensed = 0.5 * (condensed + condensed.T)
    bare = Held(body, free, factor, coupling, condensed, led, np.empty(0), np.empty(0))
    bent = bare.solved(body.load)
    passed = body.load[body.held] - coupling.T @ bent[free]
    return Held(body, free, factor, coupling, condensed, led, bent, passed)


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


def answer(body: Held[Thing], xy: Points, *, clamped: bool) -> Answer:
    """Unit pressure on a body on standoffs that keep it from moving rigidly.

    Args:
        body: The factored body.
        xy: (k, 2) places of the standoffs, in its metal.
        clamped: Whether they hold the slopes too.
    """
    return answer_to(body, body.restraints(xy, 3 if clamped else 1))


def answer_to(body: Held[Thing], restraints: list[Restraint]) -> Answer:
    """Unit pressure on a body whose rows of restraint keep it from moving rigidly.

    Args:
        body: The factored body.
        restraints: Of all places, as many rows at each.
    """
    rows, matrix = joined(body, restraints)
    count = len(body.condensed)
    solved = solve_symmetric(matrix, np.concatenate([body.load_passed, -rows.of(body.load_bent)]))
    force = _balanced(body.body, rows, solved[count:])
    freedoms = _moved(body, restraints, rows, solved[:count], force)
    return Answer(freedoms, force.reshape(len(restraints), -1))


def joined(body: Held[Thing], restraints: list[Restraint]) -> tuple[Rows, Floats]:
    """All rows of restraint, and the system in the holders' movements and the rows' forces.

    Its first equations say that the holders carry nothing, the others what movement the rows see.
    """
    rows = Rows(
        np.concatenate([r.rows.columns for r in restraints]),
        np.concatenate([r.rows.values for r in restraints]),
        len(body.body.load),
    )
    passed = np.concatenate([r.passed for r in restraints])
    yielding = np.concatenate(
        [(r.bent[:, rows.columns] * rows.values).sum(axis=-1) for r in restraints]
    )
    return rows, np.block([[body.condensed, passed.T], [passed, -0.5 * (yielding + yielding.T)]])


def _moved(
    body: Held[Thing], restraints: list[Restraint], rows: Rows, holders: Floats, force: Floats
) -> Floats:
    """All freedoms, from the holders' movements and the standoffs' forces.

    Summed up from what is known of each, or solved for, whichever is less work.
    """
    if (len(holders) + len(force)) * rows.size <= FEW:
        freedoms = body.load_bent + holders @ body.led
        for restraint, pull in zip(restraints, force.reshape(len(restraints), -1), strict=True):
            freedoms -= pull @ restraint.bent
        return freedoms
    load = body.body.load - rows.transposed(force)
    load[body.free] -= body.coupling @ holders
    freedoms = body.solved(load)
    freedoms[body.body.held] = holders
    return freedoms


def solve_symmetric(matrix: Floats, right: Floats) -> Floats:
    """Solve a symmetric system whose rows have different units; refined once.

    Where two standoffs are in one place they share what it carries, by least squares.
    """
    scale = 1.0 / np.sqrt(np.maximum(np.abs(matrix).max(axis=1), 1e-300))
    scaled = scale[:, None] * matrix * scale
    wanted = (right.T * scale).T
    try:
        found = np.linalg.solve(scaled, wanted)
        lacking = wanted - scaled @ found
        found += np.linalg.solve(scaled, lacking)
        certain = bool(np.abs(lacking).max() <= 1e-6 * np.abs(wanted).max())
    except np.linalg.LinAlgError:
        certain = False
    if not certain:
        found = np.linalg.lstsq(scaled, wanted, rcond=1e-12)[0]
    return np.asarray((found.T * scale).T, float)


def _balanced(body: Elastic, rows: Rows, force: Floats) -> Floats:
    """Forces with the last digits put right, so that they balance the load and its moments."""
    lever = np.column_stack([rows.of(movement) for movement in body.rigid.T])
    wanted = body.rigid.T @ body.load
    for _ in range(2):
        force = force + np.linalg.lstsq(lever.T, wanted - lever.T @ force, rcond=None)[0]
    return force
