"""Handling: a piece carried flat by two hands, bent by its own weight.

A hand grips a stroke by its width: it carries, and it keeps the piece from turning about the line
through both hands; along that line the sheet is free to tilt in it. Of all sensible pairs of grips
the best one is taken, which is what a person looks for who feels the piece sag. No source.
"""

from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.structure import supports
from holeplacer.structure.body import Body
from holeplacer.structure.grillage import Grillage
from holeplacer.structure.supports import Held, Restraint

Floats = NDArray[np.float64]

GRIPS = 10
"""Places tried on each piece, spread over it."""
APART = 0.2
"""Hands are at least this share of the piece's size apart."""
OFF_BALANCE = 0.35
"""The centre of gravity lies no further off the line through the hands, as a share of the size."""


@dataclass(frozen=True)
class Carried:
    """One piece in two hands, under 1 MPa of its own weight; scale it by `density x g x thickness`.

    Attributes:
        piece: Index of the piece.
        grips_mm: Where the hands are.
        deflection_mm: Greatest sag of any metal below or above the hands.
        at_mm: Where.
        stress_mpa: Greatest stress.
        stress_at_mm: Where.
    """

    piece: int
    grips_mm: tuple[tuple[float, float], tuple[float, float]]
    deflection_mm: float
    at_mm: tuple[float, float]
    stress_mpa: float
    stress_at_mm: tuple[float, float]

    def times(self, weight_mpa: float) -> "Carried":
        """The same under a weight by area, N/mm2."""
        return Carried(
            self.piece,
            self.grips_mm,
            weight_mpa * self.deflection_mm,
            self.at_mm,
            weight_mpa * self.stress_mpa,
            self.stress_at_mm,
        )


@lru_cache(maxsize=8)
def carried(sign: Grillage) -> tuple[Carried, ...]:
    """Every piece in the pair of hands that bends it least, under 1 MPa.

    Args:
        sign: The sign without standoffs.
    """
    return tuple(_best(held) for held in sign.bodies)


def _best(held: Held[Body]) -> Carried:
    grips = _places(held.body)
    known = held.restraints(grips, 3)
    found = [
        _in_hands(held, grips[[one, two]], [known[one], known[two]])
        for one, two in _pairs(held.body, grips)
    ]
    return _read(held.body, min(found, key=lambda pair: pair.sag.max()))


def _places(body: Body) -> Points:
    """Places spread over a piece's metal on its strokes, the outermost first."""
    every = body.along_xy if len(body.along_xy) else body.metal_xy
    far = np.hypot(*(every - body.place.centre).T)
    chosen = [int(far.argmax())]
    away = np.hypot(*(every - every[chosen[0]]).T)
    while len(chosen) < min(GRIPS, len(every)) and away.max() > 0.0:
        chosen.append(int(away.argmax()))
        away = np.minimum(away, np.hypot(*(every - every[chosen[-1]]).T))
    return every[chosen]


def _pairs(body: Body, grips: Points) -> list[tuple[int, int]]:
    """Pairs of grips far enough apart that balance the piece; else those that do best."""
    off = {}
    for one, two in combinations(range(len(grips)), 2):
        line = grips[two] - grips[one]
        length = float(np.hypot(*line))
        if length < APART * body.place.size_mm:
            continue
        towards = body.place.centre - grips[one]
        along = float(towards @ line) / length
        aside = abs(float(line[0] * towards[1] - line[1] * towards[0])) / length
        off[one, two] = aside + max(0.0, -along, along - length)
    allowed = max(OFF_BALANCE * body.place.size_mm, min(off.values()))
    return [pair for pair, value in off.items() if value <= allowed]


@dataclass(frozen=True, eq=False)
class _InHands:
    """One pair of hands.

    Attributes:
        grips: (2, 2) where.
        freedoms: Movement of the piece in them.
        forces: (2, 3) what they hold with.
        sag: (k,) how far its metal moves, without sign.
    """

    grips: Points
    freedoms: Floats
    forces: Floats
    sag: Floats


def _in_hands(held: Held[Body], grips: Points, known: list[Restraint]) -> _InHands:
    """The piece in one pair of hands."""
    line = grips[1] - grips[0]
    aside = np.array([-line[1], line[0]]) / np.hypot(*line)
    answer = supports.answer_to(held, [supports.hinged(one, aside) for one in known])
    forces = np.column_stack([answer.forces[:, 0], answer.forces[:, 1:] * aside])
    sag = np.abs(held.body.metal.of(answer.freedoms))
    return _InHands(grips, answer.freedoms, forces, sag)


def _read(body: Body, pair: _InHands) -> Carried:
    """Sag and stress of a piece in its best pair of hands."""
    seen = body.gauges.stress(pair.freedoms, pair.grips, pair.forces)
    furthest = int(pair.sag.argmax())
    stress_at = body.gauges.xy[int(seen.argmax())] if len(seen) else body.place.centre
    (x0, y0), (x1, y1) = pair.grips.tolist()
    return Carried(
        piece=body.piece,
        grips_mm=((x0, y0), (x1, y1)),
        deflection_mm=float(pair.sag[furthest]),
        at_mm=(float(body.metal_xy[furthest, 0]), float(body.metal_xy[furthest, 1])),
        stress_mpa=float(seen.max(initial=0.0)),
        stress_at_mm=(float(stress_at[0]), float(stress_at[1])),
    )
