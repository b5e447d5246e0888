"""Motion: what unit pressure does to one piece on its standoffs, read off along its strokes."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from holeplacer.structure import supports
from holeplacer.structure.body import Body
from holeplacer.structure.supports import Held

Floats = NDArray[np.float64]


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
def motion(held: Held[Body], places: tuple[tuple[float, float], ...], *, clamped: bool) -> Motion:
    """Solve one piece; what was asked for lately is remembered, so that others may move meanwhile.

    Args:
        held: The piece, factored.
        places: Its standoffs, which keep it from moving rigidly.
        clamped: Whether they hold the slopes too.
    """
    body = held.body
    answer = supports.answer(held, np.array(places), clamped=clamped)
    moved = np.abs(body.metal.of(answer.freedoms))
    furthest = int(moved.argmax())
    seen = body.gauges.stress(answer.freedoms)
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


def _branch(held: Held[Body], gauge: int) -> int:
    gauges, body = held.body.gauges, held.body
    if gauge < 0 or not body.branches:
        return -1
    station = int(gauges.station[np.flatnonzero(gauges.gauge == gauge)[0]])
    return body.branches[int(np.searchsorted(body.first, station, side="right")) - 1]


def _place(xy: Floats) -> tuple[float, float]:
    return float(xy[0]), float(xy[1])
