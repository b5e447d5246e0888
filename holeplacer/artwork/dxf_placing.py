"""Placing: the drawing's curves and all copies of its blocks', each on its effective layer."""

from collections import Counter
from dataclasses import dataclass, field

import numpy as np

from holeplacer.artwork.drawing import DrawnSegment
from holeplacer.artwork.dxf_blocks import Block, Count, Insert
from holeplacer.artwork.dxf_contents import Contents
from holeplacer.artwork.dxf_layers import ZERO, Layers
from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_shapes import LARGEST, Shapes
from holeplacer.artwork.dxf_tags import Floats
from holeplacer.geometry.transform import (
    IDENTITY,
    Matrix,
    combined,
    crushes,
    moved,
    transformed,
)

NOT_CHOSEN = "on a layer that was not chosen"
NO_BLOCK = "of a block that is not in the file"
EXTERNAL = "of another file (an external reference), which is not opened"
NO_CURVES = "of a block without curves"
OUT_OF_BOUNDS = "with a place or a scale beyond all bounds"


@dataclass(frozen=True, eq=False)
class Tally:
    """Counts of what was met, by (entity, layer number, note)."""

    read: Counter[tuple[str, int, str]] = field(default_factory=Counter)
    mended: Counter[tuple[str, int, str]] = field(default_factory=Counter)
    ignored: Counter[tuple[str, int, str]] = field(default_factory=Counter)
    on_layer: Counter[int] = field(default_factory=Counter)


@dataclass(frozen=True, eq=False)
class Source:
    """All that placing draws on: the file's records, layers, shapes, blocks and their contents.

    Attributes:
        chosen: Layers the person chose; None for all that are visible.
        contents: By block key.
        totals: What a copy of each block comes to, for the blocks that are reached.
    """

    records: Records
    layers: Layers
    chosen: frozenset[int] | None
    shapes: Shapes
    blocks: dict[str, Block]
    contents: dict[str, Contents]
    totals: dict[str, Count]


@dataclass(frozen=True, eq=False)
class Placed:
    """Everything that is drawn, in drawing coordinates.

    Attributes:
        lines: (n, 2, 2) loose straight segments, by layer number.
        segments: All other curves.
        tally: What was read, changed and left out on the way.
    """

    lines: dict[int, list[Floats]] = field(default_factory=dict)
    segments: list[DrawnSegment] = field(default_factory=list)
    tally: Tally = field(default_factory=Tally)


@dataclass(frozen=True, eq=False)
class _Copy:
    """One copy of some contents on its way into the drawing."""

    contents: Contents
    place: Matrix
    layer: int
    hidden: str


def placed(source: Source, drawing: Contents) -> Placed:
    """Place the drawing's own curves and every copy of its blocks'."""
    result = Placed()
    waiting = [_Copy(drawing, IDENTITY, ZERO, "")]
    while waiting:
        copy = waiting.pop()
        _place_lines(source, copy, result)
        _place_curves(source, copy, result)
        for (name, layer, why), count in copy.contents.left_out.items():
            own = _effective(layer, copy)
            result.tally.ignored[name, own, why] += count
            result.tally.on_layer[own] += count
        children = [child for insert in copy.contents.inserts
                    for child in _copies(source, copy, insert, result.tally)]  # fmt: skip
        waiting.extend(reversed(children))
    return result


def _effective(layer: int, copy: _Copy) -> int:
    """Entities on layer "0" of a block lie on the layer of its insertion."""
    return copy.layer if layer == ZERO else layer


def _hidden(source: Source, layer: int) -> str:
    """Why nothing on a layer is drawn, "" if it is."""
    if source.chosen is not None:
        return "" if layer in source.chosen else NOT_CHOSEN
    return source.layers.hidden(layer)


def _place_lines(source: Source, copy: _Copy, result: Placed) -> None:
    rows = copy.contents.lines
    if not len(rows):
        return
    records = source.shapes.line[rows]
    layer = source.layers.of_record[records]
    layer = np.where(layer == ZERO, copy.layer, layer)
    for own in np.unique(layer).tolist():
        here = layer == own
        count = int(here.sum())
        result.tally.on_layer[own] += count
        hidden = copy.hidden or _hidden(source, own)
        if hidden:
            result.tally.ignored["LINE", own, hidden] += count
            continue
        result.tally.read["LINE", own, ""] += count
        xy = source.shapes.line_xy[rows[here]]
        if copy.place is not IDENTITY:
            xy = moved(xy.reshape(-1, 2), copy.place).reshape(-1, 2, 2)
        result.lines.setdefault(own, []).append(xy)
        _note(source, records[here].tolist() if source.shapes.notes else [], own, result.tally)


def _place_curves(source: Source, copy: _Copy, result: Placed) -> None:
    for record in copy.contents.curves:
        own = _effective(int(source.layers.of_record[record]), copy)
        name = source.records.name(record)
        result.tally.on_layer[own] += 1
        hidden = copy.hidden or _hidden(source, own)
        if hidden:
            result.tally.ignored[name, own, hidden] += 1
            continue
        curve = source.shapes.curves[record]
        if copy.place is not IDENTITY:
            curve = transformed(curve, copy.place)
        result.tally.read[name, own, ""] += 1
        result.segments.append(DrawnSegment(curve, source.layers.names[own], name))
        _note(source, [record], own, result.tally)


def _note(source: Source, records: list[int], layer: int, tally: Tally) -> None:
    for record in records:
        note = source.shapes.notes.get(record)
        if note:
            tally.mended[source.records.name(record), layer, note] += 1


def _copies(source: Source, around: _Copy, insert: Insert, tally: Tally) -> list[_Copy]:
    """The copies of a block that an insertion asks for, none if they hold nothing to draw.

    What lies in a frozen insertion is hidden whatever its own layer; an insertion whose layer
    is off hides only what inherits that layer (common practice of drawing programs, no source).
    """
    layer = _effective(int(source.layers.of_record[insert.record]), around)
    block = source.blocks.get(insert.block)
    why = ""
    if block is None:
        why = NO_BLOCK
    elif not source.totals[insert.block].curves:
        why = EXTERNAL if block.external else NO_CURVES
    if block is None or why:
        tally.ignored["INSERT", layer, why] += 1
        tally.on_layer[layer] += 1
        return []
    hidden = around.hidden
    if source.chosen is None and source.layers.frozen[layer]:
        hidden = hidden or source.layers.hidden(layer)
    contents = source.contents[insert.block]
    with np.errstate(over="ignore", invalid="ignore", under="ignore"):
        places = [combined(around.place, place) for place in insert.placements(block.base)]
        usable = [place for place in places if _is_usable(place)]
    if len(usable) < len(places):
        tally.ignored["INSERT", layer, OUT_OF_BOUNDS] += len(places) - len(usable)
    return [_Copy(contents, place, layer, hidden) for place in usable]


def _is_usable(place: Matrix) -> bool:
    """Whether a place is within bounds and its scale neither vanishes nor crushes."""
    size = np.abs(place[:, :2]).max()
    return bool(np.abs(place).max() <= LARGEST and size >= 1 / LARGEST and not crushes(place))
