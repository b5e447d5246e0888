"""Grillage: the sign as elastic strokes along its medial axis, ready to be put on standoffs.

A piece that is no grillage of slender strokes is reckoned as a plate, with the same answers.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.structure import slenderness, supports, tributary
from holeplacer.structure.body import Body
from holeplacer.structure.plate_body import plate_body
from holeplacer.structure.sheet_stiffness import SheetStiffness
from holeplacer.structure.stations import stations
from holeplacer.structure.stroke_body import stroke_body
from holeplacer.structure.supports import Held

Floats = NDArray[np.float64]

Model = Literal["strokes", "plate"]


@dataclass(frozen=True, eq=False)
class Grillage:
    """The sign without its standoffs. Compared and cached by identity.

    Attributes:
        outline, axis: What it was made of.
        sheet: Thickness and metal.
        bodies: One for each piece, factored.
        models: What each piece is reckoned as.
        ways: Way to the stations along each branch of the axis, mm; read-only.
    """

    outline: Outline
    axis: Axis
    sheet: SheetStiffness
    bodies: tuple[Held[Body], ...]
    models: tuple[Model, ...]
    ways: tuple[Floats, ...]


@lru_cache(maxsize=4)
def grillage(
    outline: Outline,
    axis: Axis,
    *,
    thickness_mm: float,
    elastic_mpa: float,
    shear_mpa: float,
    model: Model | None = None,
) -> Grillage:
    """Build and factor the sign; kept for as long as it is in use.

    Args:
        outline: The cut outline.
        axis: Its medial axis.
        thickness_mm: Of the sheet.
        elastic_mpa: E of the metal.
        shear_mpa: G of the metal.
        model: What every piece is reckoned as; None: what fits each.

    Raises:
        InputError: Thickness or stiffness can't be those of a sheet.
    """
    sheet = SheetStiffness(thickness_mm, elastic_mpa, shear_mpa)
    ways: list[Floats] = [np.empty(0)] * len(axis.branches)
    bodies, models = [], []
    for piece, metal in enumerate(outline.pieces):
        strip = stations(axis, piece)
        bits = tributary.bits(metal.polygon)
        chosen: Model = model or ("strokes" if slenderness.slender(axis, strip) else "plate")
        build = stroke_body if chosen == "strokes" else plate_body
        bodies.append(supports.held(build(piece, metal.polygon, strip, bits, sheet)))
        models.append(chosen)
        for branch, way in strip.ways.items():
            way.setflags(write=False)
            ways[branch] = way
    return Grillage(outline, axis, sheet, tuple(bodies), tuple(models), tuple(ways))
