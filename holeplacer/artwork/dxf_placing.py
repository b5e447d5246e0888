"""Placing: the drawing's curves and all copies of its blocks', each on its effective layer."""

from collections import Counter
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from holeplacer.artwork.drawing import DrawnSegment
from holeplacer.artwork.dxf_blocks import Block, Count, Inserts
from holeplacer.artwork.dxf_contents import Contents
from holeplacer.artwork.dxf_layers import ZERO, Layers
from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_shapes import LARGEST, Shapes
from holeplacer.artwork.dxf_tags import Floats, Indices
from holeplacer.geometry.transform import Matrix, combined, copies, crushes, moved

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
    inserts: Inserts
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
class _Copies:
    """Copies of some contents on their way into the drawing.

    Attributes:
        contents: What is copied.
        places: (k, 2, 3) where to; None for the drawing itself, as it stands.
        layer: What entities on layer "0" inherit.
        hidden: Why none of it is drawn, "" if it is.
    """

    contents: Contents
    places: Matrix | None
    layer: int
    hidden: str

    @property
    def count(self) -> int:
        """Number of copies."""
        return 1 if self.places is None else len(self.places)


def placed(source: Source, drawing: Contents) -> Placed:
    """Place the drawing's own curves and every copy of its blocks'."""
    result = Placed()
    waiting = [_Copies(drawing, None, ZERO, "")]
    while waiting:
        group = waiting.pop()
        _place_lines(source, group, result)
        _place_curves(source, group, result)
        for (name, layer, why), count in group.contents.left_out.items():
            own = _effective(layer, group)
            result.tally.ignored[name, own, why] += count * group.count
            result.tally.on_layer[own] += count * group.count
        waiting.extend(_inserted(source, group, result.tally))
    return result


def _effective(layer: int, group: _Copies) -> int:
    """Entities on layer "0" of a block lie on the layer of its insertion."""
    return group.layer if layer == ZERO else layer


def _hidden(source: Source, layer: int) -> str:
    """Why nothing on a layer is drawn, "" if it is."""
    if source.chosen is not None:
        return "" if layer in source.chosen else NOT_CHOSEN
    return source.layers.hidden(layer)


def _place_lines(source: Source, group: _Copies, result: Placed) -> None:
    rows = group.contents.lines
    if not len(rows):
        return
    layer = source.layers.of_record[source.shapes.line[rows]]
    layer = np.where(layer == ZERO, group.layer, layer)
    order = np.argsort(layer, kind="stable")
    cuts = np.flatnonzero(np.diff(layer[order])) + 1
    for here in np.split(rows[order], cuts):
        own = _effective(int(source.layers.of_record[source.shapes.line[here[0]]]), group)
        if not _is_drawn(source, group, "LINE", own, len(here), result.tally):
            continue
        xy = source.shapes.line_xy[here]
        if group.places is not None:
            xy = moved(xy.reshape(-1, 2), group.places).reshape(-1, 2, 2)
        result.lines.setdefault(own, []).append(xy)
        if source.shapes.notes:
            records = source.shapes.line[here].tolist()
            _note(source, records, own, group.count, result.tally)


def _place_curves(source: Source, group: _Copies, result: Placed) -> None:
    for record in group.contents.curves:
        own = _effective(int(source.layers.of_record[record]), group)
        kind = source.records.name(record)
        if not _is_drawn(source, group, kind, own, 1, result.tally):
            continue
        curve, layer = source.shapes.curves[record], source.layers.names[own]
        curves = [curve] if group.places is None else copies(curve, group.places)
        result.segments.extend(DrawnSegment(copy, layer, kind) for copy in curves)
        _note(source, [record], own, group.count, result.tally)


def _is_drawn(
    source: Source, group: _Copies, kind: str, layer: int, count: int, tally: Tally
) -> bool:
    """Whether entities of a layer are drawn; counted either way."""
    count *= group.count
    tally.on_layer[layer] += count
    hidden = group.hidden or _hidden(source, layer)
    if hidden:
        tally.ignored[kind, layer, hidden] += count
    else:
        tally.read[kind, layer, ""] += count
    return not hidden


def _note(source: Source, records: list[int], layer: int, count: int, tally: Tally) -> None:
    for record in records:
        note = source.shapes.notes.get(record)
        if note:
            tally.mended[source.records.name(record), layer, note] += count


def _inserted(source: Source, group: _Copies, tally: Tally) -> list[_Copies]:
    """What the insertions among some contents copy, grouped by block and layer.

    What lies in a frozen insertion is hidden whatever its own layer; an insertion whose layer
    is off hides only what inherits that layer (common practice of drawing programs, no source).
    """
    rows, inserts = group.contents.inserts, source.inserts
    layer = source.layers.of_record[inserts.record[rows]]
    layer = np.where(layer == ZERO, group.layer, layer).astype(np.intp)
    order = np.lexsort((layer, inserts.block[rows]))
    block, layer, rows = inserts.block[rows][order], layer[order], rows[order]
    cuts = np.flatnonzero(np.diff(block) | np.diff(layer)) + 1
    found = []
    for first, last in pairwise([0, *cuts.tolist(), len(rows)] if len(rows) else []):
        key, own = inserts.names[block[first]], int(layer[first])
        why = _not_copied(source, key)
        if why:
            tally.ignored["INSERT", own, why] += (last - first) * group.count
            tally.on_layer[own] += (last - first) * group.count
            continue
        places = _places(source, group, rows[first:last], key, own, tally)
        hidden = group.hidden
        if source.chosen is None and source.layers.frozen[own]:
            hidden = hidden or source.layers.hidden(own)
        if len(places):
            found.append(_Copies(source.contents[key], places, own, hidden))
    return found


def _not_copied(source: Source, key: str) -> str:
    """Why a block gives nothing to draw, "" if it does."""
    block = source.blocks.get(key)
    if block is None:
        return NO_BLOCK
    if source.totals[key].curves:
        return ""
    return EXTERNAL if block.external else NO_CURVES


def _places(
    source: Source, group: _Copies, rows: Indices, key: str, layer: int, tally: Tally
) -> Matrix:
    """Maps of all copies of a block into the drawing, those out of bounds left out."""
    with np.errstate(over="ignore", invalid="ignore", under="ignore"):
        places = source.inserts.placements(rows, source.blocks[key].base)
        if group.places is not None:
            places = combined(group.places[:, None], places[None]).reshape(-1, 2, 3)
        size = np.abs(places[:, :, :2]).max(axis=(1, 2))
        usable = np.abs(places).max(axis=(1, 2)) <= LARGEST
        usable &= (size >= 1 / LARGEST) & ~crushes(places)
    if not usable.all():
        tally.ignored["INSERT", layer, OUT_OF_BOUNDS] += int((~usable).sum())
    kept: Matrix = places[usable]
    return kept
