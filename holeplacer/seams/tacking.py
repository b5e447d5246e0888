"""Tacking: in which order seams are tacked and welded so that the sign distorts least.

Common practice, no source: every seam is tacked before one is welded through; work goes from the
middle of each piece outward, to either side in turn, so that heat has time to spread and shrinkage
runs out at the free ends. Along a seam, too, the first tack is at the middle, then one towards
either end in turn, and neighbouring seams begin at opposite ends.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from holeplacer.outline.outline import Outline
from holeplacer.plan.seam import Seam
from holeplacer.seams import sections
from holeplacer.seams.sections import Section

PITCH_MM = 30.0
"""Most between two tacks on thin sheet: common practice, no source."""

SHORT_MM = 20.0
"""A seam up to this takes a tack at either end and none in the middle (likewise)."""

_INSET = 0.1
"""Outermost tacks stay off the cut edges by this share of the seam: edges burn away."""


@dataclass(frozen=True)
class Tack:
    """One tack.

    Attributes:
        order: When it is set, counted from 1 over the whole sign.
        seam: Index of its seam.
        x_mm, y_mm: Where, in sign coordinates.
    """

    order: int
    seam: int
    x_mm: float
    y_mm: float


@dataclass(frozen=True)
class Weld:
    """One seam as it is welded.

    Attributes:
        seam: Its index in the plan.
        order: When it is welded through, counted from 1, after all tacks.
        between: Numbers of the sections on either side.
        weld_mm: Its length.
        tacks: Its tacks in the order they are set.
    """

    seam: int
    order: int
    between: tuple[int, ...]
    weld_mm: float
    tacks: tuple[Tack, ...]


def welds(outline: Outline, seams: Sequence[Seam], parts: Sequence[Section]) -> tuple[Weld, ...]:
    """Every seam that joins sections, in the order they are welded.

    Args:
        outline: The cut outline.
        seams: The plan's seams.
        parts: The sections they divide it into.
    """
    between: dict[int, list[Section]] = {}
    for part in parts:
        for index in part.seams:
            between.setdefault(index, []).append(part)
    order = [
        index
        for piece in sorted({part.piece for part in parts})
        for index in _outward(
            seams,
            sorted(index for index, sides in between.items() if sides[0].piece == piece),
            [part for part in parts if part.piece == piece],
        )
    ]
    lengths = sections.weld_lengths(outline, seams)
    tacks = _tacks(seams, order)
    return tuple(
        Weld(
            seam=index,
            order=place,
            between=tuple(part.number for part in between[index]),
            weld_mm=float(lengths[index]),
            tacks=tuple(tack for tack in tacks if tack.seam == index),
        )
        for place, index in enumerate(order, start=1)
    )


def _outward(seams: Sequence[Seam], own: Sequence[int], parts: Sequence[Section]) -> list[int]:
    """Seams of one piece, the one nearest to its middle first, then to either side in turn."""
    bounds = np.array([part.polygon.bounds for part in parts])
    low, high = bounds[:, :2].min(axis=0), bounds[:, 2:].max(axis=0)
    along = int(np.argmax(high - low))
    middle = float(low[along] + high[along]) / 2
    offset = {index: seams[index].middle_mm[along] - middle for index in own}
    sides = [
        sorted(
            (index for index in own if (offset[index] < 0) == before),
            key=lambda index: (abs(offset[index]), index),
        )
        for before in (True, False)
    ]
    sides.sort(key=lambda side: abs(offset[side[0]]) if side else math.inf)
    found = []
    for turn in range(max(map(len, sides))):
        found += [side[turn] for side in sides if turn < len(side)]
    return found


def _tacks(seams: Sequence[Seam], order: Sequence[int]) -> list[Tack]:
    """All tacks, pass after pass: the first of every seam, then the second of every seam."""
    ways = {index: _along(seams[index], place % 2 == 1) for place, index in enumerate(order)}
    found = list[Tack]()
    for turn in range(max(map(len, ways.values()), default=0)):
        for index in order:
            if turn < len(ways[index]):
                seam, share = seams[index], ways[index][turn]
                x = seam.x1_mm + share * (seam.x2_mm - seam.x1_mm)
                y = seam.y1_mm + share * (seam.y2_mm - seam.y1_mm)
                found.append(Tack(len(found) + 1, index, x, y))
    return found


def _along(seam: Seam, backwards: bool) -> list[float]:
    """Shares of the seam's length at which it is tacked, in order."""
    if seam.length_mm <= SHORT_MM:
        shares = [_INSET, 1.0 - _INSET]
    else:
        pairs = math.ceil((1.0 - 2 * _INSET) * seam.length_mm / 2 / PITCH_MM)
        step = (0.5 - _INSET) / pairs
        shares = [0.5]
        for pair in range(1, pairs + 1):
            shares += [0.5 - pair * step, 0.5 + pair * step]
    return [1.0 - share for share in shares] if backwards else shares
