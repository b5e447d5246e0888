"""Supports: standoffs as restraints of a body that has been factored once without them.

The body is held at a few of its own freedoms, spread over it, and factored. What the holders feel
is condensed to a small matrix, whose inverse (but for the three rigid movements) frees the body
again. So each force on the free body has a known movement (up to a rigid one), a moved standoff
costs one sparse solution for its own unit force, and the standoffs' forces follow from a dense
system of their own size. The holders are so many that no large movement has to cancel out.
"""

from collections import OrderedDict
from dataclasses import dataclass, field, replace
from threading import RLock
from typing import Generic, TypeVar

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_array
from scipy.sparse.linalg import SuperLU, splu

from holeplacer.errors import HoleplacerError
from holeplacer.geometry.curve import Points
from holeplacer.structure import bordering
from holeplacer.structure.body import Elastic
from holeplacer.structure.bordering import Link, Memory
from holeplacer.structure.rows import Rows

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]
Thing = TypeVar("Thing", bound=Elastic)

MOST_REMEMBERED = 6_000_000
"""Figures kept of unit forces in each piece: 48 MB."""
MANY = 60
"""Rows of restraint from which what was solved last is made use of."""
AT_ONCE = 64
"""Holders whose movement is solved together, to bound memory."""


Restraint = Link
"""One place's rows, deflection or deflection and both slopes, and what forces on them do."""


@dataclass(frozen=True, eq=False)
class Held(Generic[Thing]):
    """A body factored on its holders, and freed of them.

    Attributes:
        body: The body.
        free: Freedoms that are not held.
        factor: Of the free freedoms' stiffness; None where there are none.
        coupling: (f, h) stiffness between both.
        yielding: (h, h) movement of the holders under forces on them, up to a rigid one.
        led: (h, n) movement of the whole body when each holder moves by 1.
        load_moved: (n,) movement of the free body under unit load, up to a rigid one.
        memory: What was solved last, so that little is to do where little has moved.
        lock: Held while either memory is used: a proposal may ask beside a drag.
    """

    body: Thing
    free: Indices
    factor: SuperLU | None
    coupling: csc_array
    yielding: Floats
    led: Floats
    load_moved: Floats
    memory: Memory = field(default_factory=Memory)
    lock: RLock = field(default_factory=RLock)
    _known: OrderedDict[tuple[float, float, int], Restraint] = field(default_factory=OrderedDict)

    def restraints(self, xy: Points, kinds: int) -> list[Restraint]:
        """The first so many rows of each place; places asked for again are remembered."""
        keys = [(x, y, kinds) for x, y in np.asarray(xy, float).tolist()]
        with self.lock:
            return self._remembered(keys, kinds)

    def _remembered(self, keys: list[tuple[float, float, int]], kinds: int) -> list[Restraint]:
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
        """Rows of restraint, with what unit forces on them do to the free body."""
        rows = Rows(
            np.concatenate([kind.columns for kind in kinds]),
            np.concatenate([kind.values for kind in kinds]),
            len(self.body.load),
        )
        forces = np.zeros((len(rows), rows.size))
        np.add.at(forces, (np.arange(len(rows))[:, None], rows.columns), rows.values)
        return Restraint(rows, self.moved(forces))

    def moved(self, forces: Floats) -> Floats:
        """(k, n) movement of the free body under (k, n) forces, up to a rigid one.

        It stands for the answer to any set of forces in balance: what each lacks of balance, the
        holders' inverse takes up, and in a set all that adds up to nothing.
        """
        bent = np.zeros(forces.shape)
        if self.factor is not None:
            bent[:, self.free] = self.factor.solve(forces[:, self.free].T).T
        passed = forces[:, self.body.held] - bent[:, self.free] @ self.coupling
        # without the linear algebra library, whose threads cost more than they gain here
        bent += np.einsum("kh,hn->kn", passed @ self.yielding, self.led)
        return bent


def held(body: Thing) -> Held[Thing]:
    """Factor a body on its holders.

    Raises:
        HoleplacerError: Part of the body has no stiffness.
    """
    free = np.setdiff1d(np.arange(len(body.load)), body.held)
    columns = csc_array(body.stiffness[:, body.held])
    coupling = csc_array(columns[free, :])
    condensed = columns[body.held, :].toarray()
    led = np.zeros((len(body.held), len(body.load)))
    led[np.arange(len(body.held)), body.held] = 1.0
    factor = None
    if len(free):
        inner = csc_array(csc_array(body.stiffness[:, free])[free, :])
        factor = _factored(inner)
        for start in range(0, len(body.held), AT_ONCE):
            some = slice(start, start + AT_ONCE)
            led[some, free] = -factor.solve(coupling[:, some].toarray()).T
        condensed += coupling.T @ led[:, free].T
    yielding = _inverse(0.5 * (condensed + condensed.T), body.rigid[body.held])
    bare = Held(body, free, factor, coupling, yielding, led, np.empty(0))
    return replace(bare, load_moved=bare.moved(body.load[None])[0])


def _factored(inner: csc_array) -> SuperLU:
    try:
        return splu(
            inner,
            permc_spec="MMD_AT_PLUS_A",
            diag_pivot_thresh=0.0,
            options={"SymmetricMode": True},
        )
    except RuntimeError as error:
        raise HoleplacerError(
            "the strength of a piece can't be reckoned, since part of it hangs by no metal",
            remedy="look for strokes that meet in a point only, and draw them apart or united",
        ) from error


def _inverse(stiff: Floats, rigid: Floats) -> Floats:
    """Inverse of a stiffness but for its rigid movements.

    Args:
        stiff: (h, h), without resistance to rigid movements.
        rigid: (h, 3) these.
    """
    if len(stiff) == rigid.shape[1]:
        # a single holder feels nothing: all there is in the stiffness is rounding
        return np.zeros(stiff.shape)
    diagonal = np.diag(stiff)
    scale = 1.0 / np.sqrt(np.where(diagonal > 0.0, diagonal, 1.0))
    without, _ = np.linalg.qr(rigid / scale[:, None])
    weak = without @ without.T
    inverse = np.linalg.inv(scale[:, None] * stiff * scale + weak) - weak
    found: Floats = scale[:, None] * (0.5 * (inverse + inverse.T)) * scale
    return found


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
    links = tuple(restraints)
    rows = bordering.all_rows(links)
    rigid, load = body.body.rigid, body.body.load
    right = np.concatenate([rows.of(body.load_moved), rigid.T @ load])
    solved = None
    if len(rows) >= MANY:
        with body.lock:
            core = bordering.core_of(body.memory, links)
        solved = None if core is None else bordering.bordered(core, links, right, rigid)
    if solved is None:
        with body.lock:
            matrix = bordering.renewed(body.memory, links, rows, rigid)
        solved = solve_symmetric(matrix, right)
    force = _balanced(body.body, rows, solved[:-3])
    if len(rows) >= MANY:
        freedoms = body.moved((load - rows.transposed(force))[None])[0]
    else:
        freedoms = body.load_moved.copy()
        for link, pull in zip(links, force.reshape(len(links), -1), strict=True):
            for one, moved in zip(pull.tolist(), link.moved, strict=True):
                freedoms -= one * moved
    return Answer(freedoms - rigid @ solved[-3:], force.reshape(len(links), -1))


def hinged(three: Restraint, across: Floats) -> Restraint:
    """Deflection, and of both slopes only the one across a line: along it the sheet tilts freely.

    Args:
        three: One place's deflection and both slopes.
        across: Unit vector square to the line.
    """
    weights = np.array([[1.0, 0.0, 0.0], [0.0, *across]])
    rows = three.rows
    values = np.stack([rows.values[0], weights[1, 1:] @ rows.values[1:]])
    columns = np.stack([rows.columns[0], rows.columns[1]])
    return Restraint(Rows(columns, values, rows.size), weights @ three.moved)


def joined(body: Held[Thing], restraints: list[Restraint]) -> tuple[Rows, Floats]:
    """All rows of restraint, and the system in the rows' forces and the three rigid movements.

    Its first equations say what movement the rows see, the last three that the forces balance the
    load.
    """
    links = tuple(restraints)
    rows = bordering.all_rows(links)
    with body.lock:
        return rows, bordering.renewed(body.memory, links, rows, body.body.rigid)


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
