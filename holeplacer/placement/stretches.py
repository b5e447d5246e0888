"""Stretches: parts of the axis, as intervals along its branches."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Stretches:
    """Closed intervals, disjoint, in order of branch and way.

    Attributes:
        branch: (n,) branch each lies on.
        low, high: (n,) ways along the branch, low < high, mm.
    """

    branch: Indices
    low: Floats
    high: Floats

    def __len__(self) -> int:
        return len(self.branch)

    @property
    def length(self) -> Floats:
        """(n,) mm."""
        return self.high - self.low

    def __getitem__(self, chosen: NDArray[np.bool_] | Indices) -> "Stretches":
        return Stretches(self.branch[chosen], self.low[chosen], self.high[chosen])

    def holding(self, branch: Indices, s: Floats) -> Indices:
        """Index of the stretch each point lies in, -1 for none."""
        if not len(self):
            return np.full(len(branch), -1, np.intp)
        size = _key_size(self, s)
        index = np.searchsorted(self.branch * size + self.low, branch * size + s, side="right") - 1
        index = np.maximum(index, 0)
        inside = (self.branch[index] == branch) & (self.low[index] <= s) & (s <= self.high[index])
        return np.where(inside, index, -1)


def joined(branch: Indices, low: Floats, high: Floats) -> Stretches:
    """Union of any intervals; those of no length are left out."""
    return _swept([(branch, low, high)], lambda inside: inside[0] > 0)


def common(one: Stretches, two: Stretches) -> Stretches:
    """What lies in both."""
    return _swept(
        [(one.branch, one.low, one.high), (two.branch, two.low, two.high)],
        lambda inside: (inside[0] > 0) & (inside[1] > 0),
    )


def without(one: Stretches, two: Stretches) -> Stretches:
    """What lies in the first but not in the second."""
    return _swept(
        [(one.branch, one.low, one.high), (two.branch, two.low, two.high)],
        lambda inside: (inside[0] > 0) & (inside[1] == 0),
    )


def overlaps(one: Stretches, two: Stretches) -> tuple[Indices, Indices, Floats, Floats]:
    """Pairs that overlap: index into the first, index into the second, from and to."""
    if not len(one) or not len(two):
        none = np.empty(0, np.intp)
        return none, none, np.empty(0), np.empty(0)
    size = _key_size(one, two.high)
    first = np.searchsorted(two.branch * size + two.high, one.branch * size + one.low, "right")
    last = np.searchsorted(two.branch * size + two.low, one.branch * size + one.high, "left")
    i, j = runs(first, last)
    low, high = np.maximum(one.low[i], two.low[j]), np.minimum(one.high[i], two.high[j])
    real = high > low
    return i[real], j[real], low[real], high[real]


def runs(first: Indices, last: Indices) -> tuple[Indices, Indices]:
    """All members of the ranges first[i] to last[i] - 1: the range's index, and the member."""
    counts = np.maximum(last - first, 0)
    owner = np.repeat(np.arange(len(counts)), counts)
    begins = np.cumsum(counts) - counts
    return owner, np.arange(len(owner)) - begins[owner] + first[owner]


def _key_size(stretches: Stretches, s: Floats) -> float:
    """More than any way, so that branch x size + way is one sorted key."""
    return 2.0 * max(float(stretches.high.max(initial=0.0)), float(s.max(initial=0.0))) + 1.0


def _swept(families, wanted) -> Stretches:  # type: ignore[no-untyped-def]
    """Sweep along all branches at once, counting how many intervals of each family are open."""
    branch = np.concatenate([np.concatenate([b, b]) for b, _, _ in families])
    at = np.concatenate([np.concatenate([low, high]) for _, low, high in families])
    steps = np.zeros((len(families), len(at)), np.intp)
    position = 0
    for row, (b, _, _) in enumerate(families):
        steps[row, position : position + len(b)] = 1
        steps[row, position + len(b) : position + 2 * len(b)] = -1
        position += 2 * len(b)
    order = np.lexsort((at, branch))
    branch, at = branch[order], at[order]
    inside = np.cumsum(steps[:, order], axis=1)
    keep = np.asarray(wanted(inside), bool)[:-1] & (branch[1:] == branch[:-1]) & (at[1:] > at[:-1])
    cells = np.flatnonzero(keep)
    b, low, high = branch[cells], at[cells], at[cells + 1]
    if not len(cells):
        return Stretches(b.astype(np.intp), low, high)
    new = np.ones(len(cells), bool)
    new[1:] = (b[1:] != b[:-1]) | (low[1:] > high[:-1])
    begin = np.flatnonzero(new)
    end = np.append(begin[1:], len(cells)) - 1
    return Stretches(b[begin].astype(np.intp), low[begin], high[end])
