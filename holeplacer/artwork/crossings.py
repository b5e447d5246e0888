"""Crossings: how often contours cross themselves and each other, before any work is spent on it.

A drawing of n steps can cross itself n^2 / 2 times; uniting it would take hours and all memory.
Lettering crosses itself where glyphs overlap: a few hundred times at most.
"""

import numpy as np
import shapely
from numpy.typing import NDArray

from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import Points

MOST_CROSSINGS = 4_000
_SAMPLE = 4096
_BATCHES = (8, 64, 512)


def refuse_tangle(rings: list[Points]) -> None:
    """Refuse contours that cross more than `MOST_CROSSINGS` times.

    Every step of small drawings is tested against all others, of large ones a sample.

    Raises:
        ArtworkError: They do.
    """
    steps = _steps(rings)
    if estimated_crossings(steps) > MOST_CROSSINGS:
        raise ArtworkError(
            f"its contours cross each other more than {MOST_CROSSINGS} times",
            remedy="give the outline of the lettering, without hatching or texture",
        )


def estimated_crossings(steps: NDArray[np.float64]) -> float:
    """Number of pairs of straight steps (n, 2, 2) that cross or touch, neighbours not counted."""
    count = len(steps)
    lines = np.asarray(shapely.linestrings(steps), dtype=object)
    tree = shapely.STRtree(lines)
    chosen = _spread(count)
    hits, tested = 0, 0
    while tested < len(chosen):
        size = next((batch for batch in _BATCHES if batch > tested), _BATCHES[-1])
        batch = chosen[tested : tested + size]
        one, other = tree.query(lines[batch], predicate="intersects")
        hits += int(_apart(steps[batch[one]], steps[other]).sum())
        tested += len(batch)
        if hits > 2 * MOST_CROSSINGS:
            break
    return hits * count / max(tested, 1) / 2


def _steps(rings: list[Points]) -> NDArray[np.float64]:
    parts = [np.stack([ring, np.roll(ring, -1, axis=0)], axis=1) for ring in rings]
    return np.concatenate(parts) if parts else np.zeros((0, 2, 2))


def _spread(count: int) -> NDArray[np.intp]:
    """All of a few, else a sample spread over all, in no regular rhythm, the same every time."""
    if count <= _SAMPLE:
        return np.arange(count)
    return np.random.default_rng(0).choice(count, _SAMPLE, replace=False)


def _apart(one: NDArray[np.float64], other: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether two steps share no end."""
    shared = np.zeros(len(one), dtype=bool)
    for end in (0, 1):
        for other_end in (0, 1):
            shared |= (one[:, end] == other[:, other_end]).all(axis=1)
    return ~shared
