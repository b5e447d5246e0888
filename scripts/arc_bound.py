"""Compares the arcs that drawings are fitted with to a bound that no arcs can beat.

    .venv/bin/python scripts/arc_bound.py FILE... [--within MM]

takes SVGs of letterings, and tells for each how many chords it has when it is flattened as finely
as it is fitted, how many arcs it is fitted with, and how many arcs any fit must have at least.

The bound: along each ring the longest arc from gate to gate is taken, again and again, its ends
anywhere in the gates and apart from its neighbours' ends, so that nothing binds arc to arc. No
chain of arcs that stays in the band can have fewer, but for one a ring, where it begins. Whether
an arc passes a row of gates is a linear program: of circles and lines A (x2 + y2) + B x + y + D = 0
one must have the left ends of all gates on one side and the right ends on the other. No arc is
let turn by more than half a turn and a little.
"""

import argparse
import itertools
import math
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
from scipy.optimize import linprog

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.artwork.read import read_artwork
from holeplacer.geometry import arc_spline
from holeplacer.geometry.curve import Points

FINE_MM = 0.002
"""How finely the gates follow the curves."""

READ_MM = 0.02
MOST_TURN = 3.2


def rings(path: Path, flattened_mm: float) -> Iterator[Points]:
    """Every ring of a lettering, its first point not repeated."""
    file = ArtworkFile(path.name, path.read_bytes())
    outline = read_artwork(file, ReadOptions(tolerance_mm=flattened_mm)).outline
    for piece in outline.pieces:
        for ring in (piece.polygon.exterior, *piece.polygon.interiors):
            yield np.asarray(ring.coords)[:-1]


def passes(at: Points, across: Points) -> bool:
    """Whether one circle or line passes all gates between two."""
    if len(at) <= 3:
        return True
    chord = at[-1] - at[0]
    length = float(np.hypot(*chord))
    if length < 1e-9:
        return False
    cos, sin = chord / length
    turn = np.array([(cos, -sin), (sin, cos)])
    middle, half = (at - at[0]) @ turn / length, across @ turn / length
    left, right = middle + half, middle - half

    def row(xy: Points) -> Points:
        return np.column_stack([(xy**2).sum(axis=1), xy[:, 0], np.ones(len(xy))])

    within = np.vstack([-row(left), row(right)])
    most = np.concatenate([left[:, 1], -right[:, 1]])
    found = linprog([0, 0, 0], A_ub=within, b_ub=most, bounds=[(None, None)] * 3, method="highs")
    return bool(found.status == 0)


def least_arcs(ring: Points, within_mm: float) -> int:
    """No fewer arcs go along a ring, wherever they begin."""
    chord = np.roll(ring, -1, axis=0) - ring
    course = np.arctan2(chord[:, 1], chord[:, 0])
    turn = np.abs((course - np.roll(course, 1) + math.pi) % (2 * math.pi) - math.pi)
    first = int(turn.argmax())
    along = np.roll(ring, -1, axis=0) - np.roll(ring, 1, axis=0)
    along *= within_mm / np.hypot(*along.T)[:, None]
    across = np.column_stack([-along[:, 1], along[:, 0]])
    order = np.append(np.roll(np.arange(len(ring)), -first), first)
    at, gate, turned = ring[order], across[order], np.cumsum(turn[order[:-1]])

    def held(begin: int, end: int) -> bool:
        bent = turned[end - 1] - turned[begin] > MOST_TURN
        return not bent and passes(at[begin : end + 1], gate[begin : end + 1])

    begin, count, step = 0, 0, 16
    while begin < len(ring):
        end = _furthest(held, begin, len(ring), step)
        begin, count, step = end, count + 1, end - begin
    return max(1, count - 1)


def _furthest(held: Callable[[int, int], bool], begin: int, last: int, step: int) -> int:
    """The last gate that is held from one on, about so many steps away, by halving."""
    low, high = begin + 1, last + 1
    for end in itertools.accumulate(itertools.repeat(max(step, 4)), initial=begin):
        if end <= low:
            continue
        if end > last or not held(begin, end):
            high = min(high, end)
            break
        low = end
    while high - low > 1:
        middle = (low + high) // 2
        if held(begin, middle):
            low = middle
        else:
            high = middle
    return low


def main() -> None:
    """One line for each lettering."""
    parser = argparse.ArgumentParser(description="Arcs of drawings, and how few there could be.")
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE")
    parser.add_argument("--within", type=float, default=0.05, metavar="MM")
    wanted = parser.parse_args()
    for path in wanted.files:
        chords = sum(map(len, rings(path, wanted.within)))
        fits = [
            arc_spline.fitted(ring, wanted.within, READ_MM, closed=True)
            for ring in rings(path, READ_MM)
        ]
        arcs = sum(fit.entities for fit in fits)
        least = sum(least_arcs(ring, wanted.within) for ring in rings(path, FINE_MM))
        kink = math.degrees(max(fit.kink_rad for fit in fits))
        print(
            f"{path.stem}: {chords} chords, {arcs} arcs (1 in {chords / arcs:.1f}, largest kink "
            f"{kink:.1f} degrees), at least {least} (1 in {chords / least:.1f})",
            flush=True,
        )


if __name__ == "__main__":
    main()
