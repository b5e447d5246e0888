"""Layers: what a fastener passes on its way to what holds it, and how far its stud stands free.

Layers are counted from outside. The bearing layer is the first that may hold a fastener; what lies
deeper does not matter. A soft layer or an air gap neither holds a stud sideways nor bears a barrel,
and so nor does what lies outside it: a skin of plaster on foam is no support.
"""

from collections.abc import Sequence

from holeplacer.wall.layer import BEARING_KINDS, SOFT_KINDS, Layer
from holeplacer.wall.wall import Wall


def bearing_index(layers: Sequence[Layer]) -> int | None:
    """Index of the first layer that may hold a fastener; None if there is none."""
    return next((i for i, layer in enumerate(layers) if layer.kind in BEARING_KINDS), None)


def outside_mm(layers: Sequence[Layer]) -> float:
    """Thickness of all that lies outside the bearing layer; of all layers where there is none."""
    index = bearing_index(layers)
    return sum(layer.thickness_mm for layer in layers[:index])


def free_mm(layers: Sequence[Layer]) -> float:
    """From the wall's face to the inner side of the innermost soft layer outside the bearing one.

    That far a stud stands free and a barrel has nothing to press on; 0 on a solid wall.
    """
    index = bearing_index(layers)
    outer = list(layers[:index])
    while outer and outer[-1].kind not in SOFT_KINDS:
        outer.pop()
    return sum(layer.thickness_mm for layer in outer)


def soft_outside(layers: Sequence[Layer]) -> tuple[Layer, ...]:
    """The soft layers and gaps outside the bearing layer."""
    return tuple(layer for layer in layers[: bearing_index(layers)] if layer.kind in SOFT_KINDS)


def lever_arm_mm(wall: Wall, projection_mm: float) -> float:
    """How far from its support in the wall a stud carries the sheet, mm.

    The projection alone on a solid wall; over a soft layer the stud spans that too (foam and gap
    together), since nothing there holds it sideways.

    Args:
        wall: The wall; without layers it counts as solid.
        projection_mm: Wall to back of sheet.

    >>> lever_arm_mm(Wall(layers=(Layer("soft", 50.8), Layer("structure", 89.0))), 25.4) / 25.4
    3.0
    """
    return projection_mm + free_mm(wall.layers)
