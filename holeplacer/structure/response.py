"""Response: deflection, stress and reactions of a sign on its standoffs under uniform pressure."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from holeplacer.structure import mechanism, supports
from holeplacer.structure.grillage import Grillage
from holeplacer.structure.mechanism import Mechanism

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
        doubtful: Places where the model is not to be trusted, in words.
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
    doubtful: tuple[str, ...] = ()


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
        steadied: Whether they do so at least in a piece that would else be free to turn; it is
            still named as a mechanism.
    """
    xy = np.asarray(holes, float).reshape(-1, 2)
    piece = grillage.outline.piece_at(xy) if len(xy) else np.empty(0, np.intp)
    found: list[Mechanism] = []
    answers: dict[int, supports.Answer] = {}
    reactions, moments = np.zeros(len(xy)), np.zeros((len(xy), 2))
    for index, held in enumerate(grillage.bodies):
        own = np.flatnonzero(piece == held.body.piece)
        loose = mechanism.mechanism(held.body, xy[own], clamped=clamped)
        found += [loose] if loose else []
        turns = loose is not None and loose.certain
        if turns and not (steadied and len(own)):
            continue
        answers[index] = supports.answer(held, xy[own], clamped=clamped or turns)
        reactions[own] = answers[index].forces[:, 0]
        if clamped or turns:
            moments[own] = answers[index].forces[:, 1:]
    unit = _unit(grillage, answers, reactions, moments, tuple(found))
    return tuple(_scaled(unit, case) for case in cases)


def _unit(
    grillage: Grillage,
    answers: dict[int, supports.Answer],
    reactions: Floats,
    moments: Floats,
    found: tuple[Mechanism, ...],
) -> Response:
    deflection = [np.zeros(len(ways)) for ways in grillage.ways]
    stress = [np.zeros(len(ways)) for ways in grillage.ways]
    worst, at = 0.0, (0.0, 0.0)
    worst_stress, stress_at, branch = 0.0, (0.0, 0.0), -1
    total = 0.0
    for index, answer in answers.items():
        body = grillage.bodies[index].body
        total += body.area_mm2
        for number, rows in zip(body.branches, body.along, strict=True):
            deflection[number] = rows @ answer.freedoms
        moved = np.abs(body.metal @ answer.freedoms)
        if len(moved) and moved.max() > worst:
            worst, at = float(moved.max()), _place(body.metal_xy[moved.argmax()])
        seen = body.gauges.stress(answer.freedoms)
        for number in body.branches:
            mine = body.gauges.branch == number
            np.maximum.at(stress[number], body.gauges.station[mine], seen[mine])
        if len(seen) and seen.max() > worst_stress:
            worst_stress, top = float(seen.max()), int(seen.argmax())
            stress_at, branch = _place(body.gauges.xy[top]), int(body.gauges.branch[top])
    return Response(
        name="",
        total_load_n=total,
        max_deflection_mm=worst,
        at_mm=at,
        max_stress_mpa=worst_stress,
        stress_at_mm=stress_at,
        stress_branch=branch,
        reactions_n=tuple(reactions.tolist()),
        moments_nmm=moments,
        deflection_mm=tuple(deflection),
        stress_mpa=tuple(stress),
        mechanisms=found,
        doubtful=grillage.doubtful,
    )


def _place(xy: Floats) -> tuple[float, float]:
    return float(xy[0]), float(xy[1])


def _scaled(unit: Response, case: Case) -> Response:
    p, size = case.pressure_mpa, abs(case.pressure_mpa)
    return Response(
        name=case.name,
        total_load_n=p * unit.total_load_n,
        max_deflection_mm=size * unit.max_deflection_mm,
        at_mm=unit.at_mm,
        max_stress_mpa=size * unit.max_stress_mpa,
        stress_at_mm=unit.stress_at_mm,
        stress_branch=unit.stress_branch,
        reactions_n=tuple(p * force for force in unit.reactions_n),
        moments_nmm=_frozen(p * unit.moments_nmm),
        deflection_mm=tuple(_frozen(p * w) for w in unit.deflection_mm),
        stress_mpa=tuple(_frozen(size * stress) for stress in unit.stress_mpa),
        mechanisms=unit.mechanisms,
        doubtful=unit.doubtful,
    )


def _frozen(array: Floats) -> Floats:
    array.setflags(write=False)
    return array
