"""Response: deflection, stress and reactions of a sign on its standoffs under uniform pressure."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

import numpy as np
from numpy.typing import ArrayLike, NDArray

from holeplacer.structure import mechanism, motion
from holeplacer.structure.body import Body
from holeplacer.structure.grillage import Grillage
from holeplacer.structure.mechanism import Mechanism
from holeplacer.structure.motion import Hold, Motion
from holeplacer.structure.supports import Held

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Case:
    """A uniform pressure.

    Attributes:
        name: What it is called, as `pressure out`.
        pressure_mpa: Off the wall positive, on to it negative.
    """

    name: str
    pressure_mpa: float


@dataclass(frozen=True, eq=False)
class Response:
    """What one case does. Compared by identity; arrays are read-only.

    Attributes:
        name: The case's.
        total_load_n: Pressure times area of metal of the pieces that are held.
        max_deflection_mm: Greatest movement of any metal, without sign.
        at_mm: Where.
        max_stress_mpa: Greatest von Mises stress of bending and torsion.
        stress_at_mm: Where.
        stress_branch: Branch of the axis it is in, -1 for none.
        reactions_n: Pull of each standoff's stud, in the holes' order; negative: pushed on the
            wall. 0 for a hole off the metal or of a piece that is not held.
        moments_nmm: (k, 2) moments about y and x (as work on dw/dx and dw/dy) that clamping
            standoffs hold with; 0 for free ones.
        deflection_mm: Of each branch's stations (`Grillage.ways`), off the wall positive.
        stress_mpa: The same of the stress.
        mechanisms: Pieces that are not held, or hardly.
    """

    name: str
    total_load_n: float
    max_deflection_mm: float
    at_mm: tuple[float, float]
    max_stress_mpa: float
    stress_at_mm: tuple[float, float]
    stress_branch: int
    reactions_n: tuple[float, ...]
    moments_nmm: Floats
    deflection_mm: tuple[Floats, ...]
    stress_mpa: tuple[Floats, ...]
    mechanisms: tuple[Mechanism, ...]


def respond(
    grillage: Grillage,
    holes: ArrayLike,
    cases: Sequence[Case],
    *,
    clamped: bool,
    steadied: bool = False,
) -> tuple[Response, ...]:
    """Responses to uniform pressures, one per case.

    The sign is linear: unit pressure is solved once and scaled.

    Args:
        grillage: The sign.
        holes: (k, 2) centres of the holes, mm.
        cases: Pressures.
        clamped: Whether caps and washers hold the sheet's slope at the holes.
        steadied: Whether they keep at least a piece that would else be free to turn from turning,
            and no more; it is still named as a mechanism.
    """
    xy = np.asarray(holes, float).reshape(-1, 2)
    piece = grillage.outline.piece_at(xy) if len(xy) else np.empty(0, np.intp)
    found: list[Mechanism] = []
    motions: list[tuple[Held[Body], Motion]] = []
    reactions, moments = np.zeros(len(xy)), np.zeros((len(xy), 2))
    for held in grillage.bodies:
        own = np.flatnonzero(piece == held.body.piece)
        loose = mechanism.mechanism(held.body, xy[own], clamped=clamped)
        found += [loose] if loose else []
        turns = loose is not None and loose.certain
        if turns and not (steadied and len(own)):
            continue
        places = tuple((x, y) for x, y in xy[own].tolist())
        moved = motion.motion(held, places, _hold(clamped=clamped, turns=turns))
        motions.append((held, moved))
        reactions[own] = moved.forces[:, 0]
        if clamped or turns:
            moments[own] = moved.forces[:, 1:]
    unit = _unit(grillage, motions, reactions, moments, tuple(found))
    return tuple(_scaled(unit, case) for case in cases)


def _hold(*, clamped: bool, turns: bool) -> Hold:
    return "clamped" if clamped else "steadied" if turns else "free"


def _unit(
    grillage: Grillage,
    motions: list[tuple[Held[Body], Motion]],
    reactions: Floats,
    moments: Floats,
    found: tuple[Mechanism, ...],
) -> Response:
    """All pieces together under 1 MPa; those that are not held stay where they are."""
    deflection = [np.zeros(len(ways)) for ways in grillage.ways]
    stress = [np.zeros(len(ways)) for ways in grillage.ways]
    for held, moved in motions:
        body = held.body
        for number, start, stop in zip(body.branches, body.first, body.first[1:], strict=False):
            deflection[number] = moved.deflection[start:stop]
            stress[number] = moved.stress[start:stop]
    every = [moved for _, moved in motions]
    furthest = max(every, key=lambda moved: moved.worst, default=None)
    stressed = max(every, key=lambda moved: moved.stressed, default=None)
    return Response(
        name="",
        total_load_n=sum(held.body.place.area_mm2 for held, _ in motions),
        max_deflection_mm=furthest.worst if furthest else 0.0,
        at_mm=furthest.worst_at if furthest else (0.0, 0.0),
        max_stress_mpa=stressed.stressed if stressed else 0.0,
        stress_at_mm=stressed.stressed_at if stressed else (0.0, 0.0),
        stress_branch=stressed.stressed_branch if stressed else -1,
        reactions_n=tuple(reactions.tolist()),
        moments_nmm=moments,
        deflection_mm=tuple(deflection),
        stress_mpa=tuple(stress),
        mechanisms=found,
    )


def _scaled(unit: Response, case: Case) -> Response:
    p, size = case.pressure_mpa, abs(case.pressure_mpa)
    return replace(
        unit,
        name=case.name,
        total_load_n=p * unit.total_load_n,
        max_deflection_mm=size * unit.max_deflection_mm,
        max_stress_mpa=size * unit.max_stress_mpa,
        reactions_n=tuple(p * force for force in unit.reactions_n),
        moments_nmm=_frozen(p * unit.moments_nmm),
        deflection_mm=_times(unit.deflection_mm, p),
        stress_mpa=_times(unit.stress_mpa, size),
    )


def _times(branches: tuple[Floats, ...], factor: float) -> tuple[Floats, ...]:
    """Arrays of all branches times a factor; read-only parts of one."""
    if not branches:
        return ()
    flat = _frozen(factor * np.concatenate(branches))
    last = list(accumulate(len(branch) for branch in branches))
    return tuple(flat[start:stop] for start, stop in zip([0, *last], last, strict=False))


def _frozen(array: Floats) -> Floats:
    array.setflags(write=False)
    return array
