"""Layer: one of the materials a fastener passes on its way into the wall."""

from dataclasses import dataclass
from typing import Literal, get_args

LayerKind = Literal["cladding", "soft", "sheathing", "structure", "masonry", "air"]
"""A skin against the weather; what gives way under a barrel (insulation); boards; what carries:
wood or metal framing; stone, brick, concrete; a gap."""

LAYER_KINDS: tuple[LayerKind, ...] = get_args(LayerKind)

BEARING_KINDS: tuple[LayerKind, ...] = ("structure", "masonry")
"""Layers a fastener may be held by."""

SOFT_KINDS: tuple[LayerKind, ...] = ("soft", "air")
"""Layers that neither hold a stud sideways nor bear a barrel."""


@dataclass(frozen=True)
class Layer:
    """One layer of the wall.

    Attributes:
        kind: What it does.
        thickness_mm: How deep it is.
        name: What it is, in the person's words; may be empty.
    """

    kind: LayerKind
    thickness_mm: float
    name: str = ""
