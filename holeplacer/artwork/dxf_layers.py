"""Layers of a DXF file: names, which are hidden, and which of them the person chose."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_tags import Indices
from holeplacer.errors import ArtworkError

ZERO = 0
"""Number of layer "0": entities on it take the layer of the block insertion they stand in."""

MOST_LAYERS = 10_000

_FROZEN = 1


@dataclass(frozen=True, eq=False)
class Layers:
    """All layers that the file lists or its entities name; upper and lower case are the same.

    Attributes:
        names: As first written; number `ZERO` is layer "0".
        frozen: Which are frozen.
        off: Which are switched off.
        of_record: (n,) layer number of every record of the file.
    """

    names: tuple[str, ...]
    frozen: tuple[bool, ...]
    off: tuple[bool, ...]
    of_record: NDArray[np.int32]

    def hidden(self, layer: int) -> str:
        """Why a layer is not seen, "" if it is."""
        if self.frozen[layer]:
            return "on a frozen layer"
        return "on a layer that is off" if self.off[layer] else ""


def layers_of(records: Records, tables: Indices) -> Layers:
    """Layers from the layer table and from all records that name one.

    Args:
        records: The file.
        tables: Records of its TABLES section.
    """
    names, numbers = ["0"], {"0": ZERO}
    frozen, off = {ZERO: False}, {ZERO: False}
    listed = records.named("LAYER", tables)
    states = records.flags(listed, 70).tolist()
    colours = records.flags(listed, 62, default=7).tolist()
    for record, state, colour in zip(listed.tolist(), states, colours, strict=True):
        number = _number(records.text(record, 2), names, numbers)
        frozen[number], off[number] = bool(state & _FROZEN), colour < 0
    of_record = _of_records(records, names, numbers)
    every = range(len(names))
    return Layers(
        names=tuple(names),
        frozen=tuple(frozen.get(number, False) for number in every),
        off=tuple(off.get(number, False) for number in every),
        of_record=of_record,
    )


def chosen_layers(layers: Layers, choice: tuple[str, ...] | None) -> frozenset[int] | None:
    """Numbers of the layers a person chose, None for all that are visible.

    Raises:
        ArtworkError: The file has no layer of such a name.
    """
    if choice is None:
        return None
    numbers = {name.casefold(): number for number, name in enumerate(layers.names)}
    missing = [name for name in choice if name.casefold() not in numbers]
    if missing:
        raise ArtworkError(
            f"the drawing has no layer {missing[0]!r}",
            remedy=f"its layers are {', '.join(layers.names[:20])}",
        )
    return frozenset(numbers[name.casefold()] for name in choice)


def _number(name: str, names: list[str], numbers: dict[str, int]) -> int:
    key = name.casefold()
    if key not in numbers:
        if len(names) == MOST_LAYERS:
            raise ArtworkError(
                f"the drawing has more than {MOST_LAYERS} layers",
                remedy="keep only the layers of the outline",
            )
        numbers[key] = len(names)
        names.append(name)
    return numbers[key]


def _of_records(records: Records, names: list[str], numbers: dict[str, int]) -> NDArray[np.int32]:
    tag = records.first_tag(np.arange(len(records.first)), 8)
    of_record = np.full(len(tag), ZERO, dtype=np.int32)
    stated = np.flatnonzero(tag >= 0)
    seen: dict[bytes, int] = {}
    for_each = []
    for value in records.tags.raw(tag[stated]):
        if value not in seen:
            seen[value] = _number(records.tags.decoded(value) or "0", names, numbers)
        for_each.append(seen[value])
    of_record[stated] = for_each
    return of_record
