"""Hole forces: the worst of every force at every hole, each with the case it comes from."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.rules.load_effects import WEIGHT, LoadEffects
from holeplacer.structure.grillage import Grillage

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Force:
    """One kind of force at every hole.

    Attributes:
        most: (n,) greatest over all cases.
        of: (n,) index of the case.
        cases: Names of the cases.
    """

    most: Floats
    of: Indices
    cases: tuple[str, ...]

    def case(self, index: int) -> str:
        """The case that governs at a hole."""
        return self.cases[int(self.of[index])]


@dataclass(frozen=True, eq=False)
class HoleForces:
    """What standoffs carry and strokes bear at every hole of a plan, in its order.

    Attributes:
        pull: Off the wall, on cap and stud, N.
        push: On to the wall, on the barrel, N.
        shear: Across the stud, N.
        least_shear: The same where it is least, N.
        stud_pull: (c, n) pull in every case of wind, N.
        moment: (c, n) that the stud holds the sheet's slope with in the same, N mm; 0 where it
            doesn't.
        stress: Of the whole stroke at the hole, MPa.
        tension: Along the stroke at the hole, N.
    """

    pull: Force
    push: Force
    shear: Force
    least_shear: Force
    stud_pull: Floats
    moment: Floats
    stress: Force
    tension: Force


def hole_forces(effects: LoadEffects, feet: AxisPoints, diameter_mm: Floats) -> HoleForces:
    """Forces at every hole.

    Args:
        effects: What the loads do.
        feet: Of the holes on the axis.
        diameter_mm: (n,) of the holes.
    """
    names = tuple(case.name for case in effects.wind)
    reaction = np.array([case.reactions_n for case in effects.wind]).reshape(len(names), -1)
    moments = np.array([case.moments_nmm for case in effects.wind]).reshape(len(names), -1, 2)
    shear = effects.shears_n if effects.in_plane else np.zeros((1, reaction.shape[1]))
    along = effects.tensions_n if effects.in_plane else np.zeros((1, reaction.shape[1]))
    hung = tuple(case.name for case in effects.in_plane) or (WEIGHT,)
    pull = np.maximum(reaction, 0.0)
    return HoleForces(
        pull=_worst(pull, names),
        push=_worst(np.maximum(-reaction, 0.0), names),
        shear=_worst(shear, hung),
        least_shear=_worst(shear, hung, least=True),
        stud_pull=pull,
        moment=np.hypot(moments[..., 0], moments[..., 1]),
        stress=_worst(_stresses(effects, feet, diameter_mm), names),
        tension=_worst(np.maximum(along, 0.0), hung),
    )


def _worst(values: Floats, cases: tuple[str, ...], *, least: bool = False) -> Force:
    of = values.argmin(axis=0) if least else values.argmax(axis=0)
    return Force(np.take_along_axis(values, of[None], axis=0)[0], of, cases)


def _stresses(effects: LoadEffects, feet: AxisPoints, diameter_mm: Floats) -> Floats:
    """(c, n) greatest stress of the stroke across each hole in every case of wind.

    A hole on a lone node has no stroke.
    """
    on = feet.branch >= 0
    found = np.zeros((len(effects.wind), len(on)))
    if not on.any():
        return found
    ways, start, stop = _one_line(effects.grillage)
    branch = feet.branch[on]
    low, high = ways[start[branch]], ways[stop[branch] - 1]
    at = low + feet.s[on] + np.array([[-0.5], [0.0], [0.5]]) * diameter_mm[on]
    at = np.clip(at, low, high)
    for row, case in zip(found, effects.wind, strict=True):
        row[on] = np.interp(at, ways, np.concatenate(case.stress_mpa)).max(axis=0)
    return found


@lru_cache(maxsize=4)  # the same wherever the holes are
def _one_line(sign: Grillage) -> tuple[Floats, Indices, Indices]:
    """All branches' stations laid end to end, with a gap between; first and last of each."""
    count = np.array([len(way) for way in sign.ways], np.intp)
    length = np.array([way[-1] if len(way) else 0.0 for way in sign.ways])
    begin = np.cumsum(length + 1.0) - (length + 1.0)
    stop = np.cumsum(count)
    ways = np.concatenate(_shifted(sign.ways, begin)) if len(count) else np.empty(0)
    return ways, stop - count, stop


def _shifted(ways: Sequence[Floats], begin: Floats) -> list[Floats]:
    return [way + start for way, start in zip(ways, begin.tolist(), strict=True)]
