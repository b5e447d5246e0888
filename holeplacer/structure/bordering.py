"""Bordering: the standoffs' dense system solved again cheaply where all but a few are as before.

While one standoff moves the others stay: their system is inverted once, and what moves is added at
its border. Only for many standoffs; few are solved from scratch as fast.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from holeplacer.structure.rows import Rows

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

RIGID = 3
"""Unknowns beside the standoffs' forces: the rigid movements."""
FEW = 2
"""Most standoffs at the border."""
WRONG = 1e-7
"""What may be left of the right side, as a share of it."""


@dataclass(frozen=True, eq=False)
class Link:
    """One standoff as the dense system sees it. Compared by identity.

    Attributes:
        rows: Its rows of movement.
        moved: (r, n) movement of the free body under a unit force on each.
    """

    rows: Rows
    moved: Floats

    def seen_by(self, rows: Rows) -> Floats:
        """(r, k) movement of other rows under a unit force on each of its own."""
        seen: Floats = (self.moved[:, rows.columns] * rows.values).sum(axis=-1)
        return seen


@dataclass(frozen=True, eq=False)
class Core:
    """Standoffs that stay, with their system inverted.

    Attributes:
        links: The standoffs.
        rows: All their rows.
        matrix: Their system, rigid movements last.
        inverse: Its inverse.
    """

    links: tuple[Link, ...]
    rows: Rows
    matrix: Floats
    inverse: Floats


@dataclass
class Memory:
    """What was solved last in one piece.

    Attributes:
        solved: Its standoffs and their system.
        core: Those that stayed then.
    """

    solved: tuple[tuple[Link, ...], Floats] = field(default_factory=lambda: ((), np.empty((0, 0))))
    core: Core | None = None


def all_rows(links: tuple[Link, ...]) -> Rows:
    """Rows of all standoffs, one after the other."""
    return Rows(
        np.concatenate([link.rows.columns for link in links]),
        np.concatenate([link.rows.values for link in links]),
        links[0].rows.size,
    )


def system(links: tuple[Link, ...], rows: Rows, rigid: Floats) -> Floats:
    """(k + 3, k + 3) movement of the rows by forces on them and by rigid movements.

    Args:
        links: The standoffs.
        rows: All their rows.
        rigid: (n, 3) rigid movements.
    """
    yielding = np.concatenate([link.seen_by(rows) for link in links])
    lever = np.column_stack([rows.of(movement) for movement in rigid.T])
    corner = np.zeros((RIGID, RIGID))
    return np.block([[0.5 * (yielding + yielding.T), lever], [lever.T, corner]])


def renewed(memory: Memory, links: tuple[Link, ...], rows: Rows, rigid: Floats) -> Floats:
    """The same system, taken from what was solved last but for the standoffs that have moved.

    Args:
        memory: What was solved last; it is renewed.
        links: The standoffs now, of as many rows each.
        rows: All their rows.
        rigid: (n, 3) rigid movements.
    """
    before, matrix = memory.solved
    size = len(links[0].rows)
    moved = [index for index, link in enumerate(links) if link not in before[index : index + 1]]
    if len(before) != len(links) or len(moved) > 2 * FEW or len(matrix) != len(rows) + RIGID:
        matrix = system(links, rows, rigid)
    else:
        matrix = matrix.copy()
        for index in moved:
            own = slice(index * size, (index + 1) * size)
            seen = links[index].seen_by(rows)
            seen[:, own] = 0.5 * (seen[:, own] + seen[:, own].T)
            lever = np.column_stack([links[index].rows.of(movement) for movement in rigid.T])
            matrix[own] = np.concatenate([seen, lever], axis=1)
            matrix[:, own] = matrix[own].T
    memory.solved = links, matrix
    return matrix


def core_of(memory: Memory, links: tuple[Link, ...]) -> Core | None:
    """The standoffs that stay since the last time, None if that is no help.

    Args:
        memory: What was solved last; its core is renewed.
        links: The standoffs now, of as many rows each.
    """
    now = set(map(id, links))
    core = memory.core
    few = core is not None and 0 < len(links) - len(core.links) <= FEW
    if core is not None and few and all(id(link) in now for link in core.links):
        return core
    before, whole = memory.solved
    stay = [index for index, link in enumerate(before) if id(link) in now]
    if not 0 < len(links) - len(stay) <= FEW or len(stay) < len(before) - FEW:
        return None
    size = len(links[0].rows)
    chosen = (np.array(stay)[:, None] * size + np.arange(size)).ravel()
    chosen = np.concatenate([chosen, len(whole) - RIGID + np.arange(RIGID)])
    matrix = whole[np.ix_(chosen, chosen)]
    kept = tuple(before[index] for index in stay)
    inverse = _inverse(matrix)
    memory.core = None if inverse is None else Core(kept, all_rows(kept), matrix, inverse)
    return memory.core


def _inverse(matrix: Floats) -> Floats | None:
    """Inverse of a symmetric system whose rows have different units, None if there is none."""
    scale = 1.0 / np.sqrt(np.maximum(np.abs(matrix).max(axis=1), 1e-300))
    try:
        found = np.linalg.inv(scale[:, None] * matrix * scale)
    except np.linalg.LinAlgError:
        return None
    return np.asarray(scale[:, None] * found * scale, float)


def bordered(core: Core, links: tuple[Link, ...], right: Floats, rigid: Floats) -> Floats | None:
    """Forces and rigid movements with a few standoffs added to those that stay.

    Args:
        core: Those that stay.
        links: All, of as many rows each.
        right: (k + 3,) movement of all rows under the load, then its balance.
        rigid: (n, 3) rigid movements.

    Returns:
        (k + 3,), None if it came out wrong.
    """
    place = {id(link): index for index, link in enumerate(links)}
    stay = {id(link) for link in core.links}
    added = tuple(link for link in links if id(link) not in stay)
    size, count = len(links[0].rows), len(right) - RIGID
    old = _freedoms([place[id(link)] for link in core.links], size, count)
    new = _freedoms([place[id(link)] for link in added], size, count)[:-RIGID]
    rows = all_rows(added)
    border = np.concatenate(
        [
            np.concatenate([link.seen_by(core.rows) for link in added], axis=0).T,
            np.stack([rows.of(movement) for movement in rigid.T]),
        ]
    )
    own = np.concatenate([link.seen_by(rows) for link in added])
    own = 0.5 * (own + own.T)
    led = core.inverse @ border
    rest = own - border.T @ led
    found, lacking = np.zeros(len(right)), right.copy()
    for _ in range(2):
        start = core.inverse @ lacking[old]
        try:
            force = np.linalg.solve(rest, lacking[new] - border.T @ start)
        except np.linalg.LinAlgError:
            return None
        found[new] += force
        found[old] += start - led @ force
        lacking[old] = right[old] - core.matrix @ found[old] - border @ found[new]
        lacking[new] = right[new] - border.T @ found[old] - own @ found[new]
    wrong = np.abs(lacking[:count]).max() > WRONG * np.abs(right[:count]).max()
    return None if wrong else found


def _freedoms(places: list[int], size: int, count: int) -> Indices:
    """Unknowns of standoffs, then the rigid movements."""
    of_links = (np.array(places, np.intp)[:, None] * size + np.arange(size)).ravel()
    return np.concatenate([of_links, count + np.arange(RIGID)]).astype(np.intp)
