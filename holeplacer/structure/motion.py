"""Motion: what unit pressure does to one piece on its standoffs, read off along its strokes."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.structure import supports
from holeplacer.structure.body import Body
from holeplacer.structure.supports import Answer, Held

Floats = NDArray[np.float64]

Hold = Literal["free", "clamped", "steadied"]
"""Caps and washers leave the sheet's slopes alone, hold both, or hold the one across the line
through the standoffs: just enough that it can't turn about that line."""


@dataclass(frozen=True, eq=False)
class Motion:
    """One piece under 1 MPa off the wall.

    Attributes:
        deflection: Of its branches' stations, branch after branch, mm.
        stress: (s,) von Mises at the same, MPa.
        forces: (k, 1 or 3) what its standoffs pull with, N, and hold the slopes with, N mm.
        worst: Greatest deflection of any metal, without sign, mm.
        worst_at: Where.
        stressed: Greatest stress, MPa.
        stressed_at: Where.
        stressed_branch: Branch of the axis that is nearest there, -1 for a dot.
    """

    deflection: Floats
    stress: Floats
    forces: Floats
    worst: float
    worst_at: tuple[float, float]
    stressed: float
    stressed_at: tuple[float, float]
    stressed_branch: int


@lru_cache(maxsize=128)
def motion(held: Held[Body], places: tuple[tuple[float, float], ...], hold: Hold) -> Motion:
    """Solve one piece; what was asked for lately is remembered, so that others may move meanwhile.

    Args:
        held: The piece, factored.
        places: Its standoffs, which keep it from moving rigidly.
        hold: What the standoffs do to the sheet's slopes.
    """
    body = held.body
    xy = np.array(places)
    answer = _answer(held, xy, hold)
    moved = np.abs(body.metal.of(answer.freedoms))
    furthest = int(moved.argmax())
    seen = body.gauges.stress(answer.freedoms, xy, answer.forces)
    top = int(seen.argmax()) if len(seen) else -1
    return Motion(
        deflection=body.along.of(answer.freedoms),
        stress=body.gauges.along_strokes(seen, len(body.along)),
        forces=answer.forces,
        worst=float(moved[furthest]),
        worst_at=_place(body.metal_xy[furthest]),
        stressed=float(seen[top]) if len(seen) else 0.0,
        stressed_at=_place(body.gauges.xy[top] if len(seen) else body.place.centre),
        stressed_branch=_branch(held, top),
    )


def _answer(held: Held[Body], xy: Points, hold: Hold) -> Answer:
    if hold == "free":
        return supports.answer_to(held, held.restraints(xy, 1))
    known = held.restraints(xy, 3)
    if hold == "clamped" or len(xy) == 1:
        return supports.answer_to(held, known)
    across = _across(xy)
    found = supports.answer_to(held, [supports.hinged(three, across) for three in known])
    forces = np.column_stack([found.forces[:, 0], found.forces[:, 1:] * across])
    return Answer(found.freedoms, forces)


def _across(xy: Points) -> Floats:
    """Unit vector square to the line nearest to all places."""
    return np.asarray(np.linalg.svd(xy - xy.mean(axis=0))[2][1], float)


def _branch(held: Held[Body], gauge: int) -> int:
    gauges, body = held.body.gauges, held.body
    if gauge < 0 or not body.branches:
        return -1
    station = int(gauges.station[np.flatnonzero(gauges.gauge == gauge)[0]])
    return body.branches[int(np.searchsorted(body.first, station, side="right")) - 1]


def _place(xy: Floats) -> tuple[float, float]:
    return float(xy[0]), float(xy[1])
