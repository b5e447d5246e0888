"""Mass of the sheet: what each piece and the whole sign weigh, and where they balance."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from holeplacer.errors import InputError
from holeplacer.sheet.metal import Metal

KG_M2_PER_LB_FT2 = 0.45359237 / 0.3048**2
"""One pound on a square foot; 1 kg/m2 is 0.204816 lb/ft2."""

_MM2_PER_M2 = 1e6
_MM_PER_M = 1e3
_FACES = 2


@dataclass(frozen=True)
class PieceMass:
    """One piece.

    Attributes:
        area_mm2: Metal, holes taken out.
        mass_kg: Metal and finish.
        centre_mm: Centre of gravity.
    """

    area_mm2: float
    mass_kg: float
    centre_mm: tuple[float, float]


@dataclass(frozen=True)
class SheetMass:
    """The whole sign without its standoffs.

    Attributes:
        area_mm2: Metal, holes taken out.
        drops_mm2: What was taken out for holes.
        metal_kg: By density.
        finish_kg: Of the finish on both faces; what lies on cut edges is not counted (about
            perimeter x thickness, a few hundredths of the faces).
        nominal_kg: Metal by the weight its gauge is defined by; None where it has none. It is not
            the density's: a gauge of sheet steel counts 2.4 % more.
        centre_mm: Centre of gravity.
        pieces: In the order they were given.
    """

    area_mm2: float
    drops_mm2: float
    metal_kg: float
    finish_kg: float
    nominal_kg: float | None
    centre_mm: tuple[float, float]
    pieces: tuple[PieceMass, ...]

    @property
    def mass_kg(self) -> float:
        """Metal by density, and finish."""
        return self.metal_kg + self.finish_kg


@dataclass(frozen=True)
class Coat:
    """A finish as mass.

    Attributes:
        per_side_mm: Thickness on each face.
        density_kg_m3: Of the dry coat.
    """

    per_side_mm: float = 0.0
    density_kg_m3: float = 0.0

    @property
    def kg_m2(self) -> float:
        """Of sheet, both faces."""
        return _FACES * self.per_side_mm / _MM_PER_M * self.density_kg_m3


def sheet_mass(
    areas_mm2: Sequence[float],
    centres_mm: ArrayLike,
    metal: Metal,
    thickness_mm: float,
    *,
    coat: Coat | None = None,
    nominal_lb_ft2: float | None = None,
    holes: Sequence[tuple[int, float, float, float]] = (),
) -> SheetMass:
    """Mass and centre of gravity of every piece and of the whole.

    Args:
        areas_mm2: Area of each piece, counters out, holes in.
        centres_mm: (n, 2) centre of each of those areas.
        metal: What the sheet is made of.
        thickness_mm: Of the sheet.
        coat: The finish.
        nominal_lb_ft2: Weight the gauge is defined by.
        holes: Piece, x, y and diameter of each hole that lies in a piece.

    Raises:
        InputError: There is no metal to weigh.
    """
    whole = np.asarray(areas_mm2, float)
    if not whole.size:
        raise InputError("there is no metal to weigh", where="mass", remedy="open artwork first")
    area, moment = _without_holes(whole, np.reshape(np.asarray(centres_mm, float), (-1, 2)), holes)
    film = (coat or Coat()).kg_m2
    per_mm2 = metal.mass_kg(1.0, thickness_mm) + film / _MM2_PER_M2
    total = float(area.sum())
    nominal = None
    if nominal_lb_ft2 is not None:
        nominal = total / _MM2_PER_M2 * nominal_lb_ft2 * KG_M2_PER_LB_FT2
    return SheetMass(
        area_mm2=total,
        drops_mm2=float(whole.sum()) - total,
        metal_kg=metal.mass_kg(total, thickness_mm),
        finish_kg=total / _MM2_PER_M2 * film,
        nominal_kg=nominal,
        centre_mm=_place(moment.sum(axis=0) / total),
        pieces=tuple(
            PieceMass(float(piece), float(piece) * per_mm2, _place(balance / piece))
            for piece, balance in zip(area, moment, strict=True)
        ),
    )


def _without_holes(
    areas: NDArray[np.float64],
    centres: NDArray[np.float64],
    holes: Sequence[tuple[int, float, float, float]],
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Area (n,) and first moments (n, 2) of the pieces with their holes taken out."""
    area, moment = areas.copy(), areas[:, None] * centres
    for piece, x, y, diameter in holes:
        drop = np.pi / 4 * diameter**2
        area[piece] -= drop
        moment[piece] -= drop * np.array([x, y])
    return area, moment


def _place(xy: NDArray[np.float64]) -> tuple[float, float]:
    return float(xy[0]), float(xy[1])
