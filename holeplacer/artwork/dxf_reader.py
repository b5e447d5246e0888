"""DXF into a drawing: versions R12 to 2018, text and binary, curves kept as they are.

    bytes > tags > records > sections > layers, shapes, blocks > placed curves > Drawing

ezdxf serves where it is strong (binary tags, text encodings); it does not load the document,
because of files that are awkward on purpose or by accident it returns some as empty drawings
without a word, fails on others, and takes minutes for large ones. It and GDAL are the judges in
the tests.
"""

from collections import Counter

import numpy as np

from holeplacer.artwork.account import Entry, ImportAccount
from holeplacer.artwork.drawing import Drawing, DrawnContour, LooseLines
from holeplacer.artwork.dxf_blocks import Inserts, blocks_of, counted
from holeplacer.artwork.dxf_contents import (
    IN_PAPER_SPACE,
    PARTS,
    Contents,
    contents_of,
    roles_of,
    shapes_of,
)
from holeplacer.artwork.dxf_layers import Layers, chosen_layers, layers_of
from holeplacer.artwork.dxf_placing import Placed, Source, placed
from holeplacer.artwork.dxf_records import Records, records_of
from holeplacer.artwork.dxf_sections import Sections, sections_of
from holeplacer.artwork.dxf_tags import tags_of
from holeplacer.artwork.dxf_units import stated_units
from holeplacer.artwork.options import ReadOptions
from holeplacer.errors import ArtworkError
from holeplacer.geometry.evaluate import is_closed

_DRAWING = "\n"
"""Key of the drawing among the blocks; no name in a DXF can hold a line end."""

LARGEST_DXF_MB = 80
"""As many lines as may be read take half of it; the tags take eight times as much of memory."""

_MOST_BLOCKS = 10_000
"""Different blocks that one drawing may use."""


def read_dxf(data: bytes, name: str, options: ReadOptions) -> Drawing:
    """Read the curves of a DXF file.

    Args:
        data: The file.
        name: Its name, for the sentence of an error.
        options: Only the choice of layers matters here.

    Returns:
        Curves in drawing units: closed ones as contours without a fill (they nest by
        containment), open ones loose, LINEs in bulk. The account names everything that is
        drawn in the file and was not read.

    Raises:
        ArtworkError: The file is too large, damaged where it matters, would never end or never
            fit, or holds nothing that is a curve.
    """
    if len(data) > LARGEST_DXF_MB * 1_000_000:
        raise ArtworkError(
            f"the DXF is larger than {LARGEST_DXF_MB} MB, the most that is read",
            where=name,
            remedy="leave out everything but the outline",
        )
    try:
        return _drawing(data, options)
    except ArtworkError as error:
        raise type(error)(error.what, where=error.where or name, remedy=error.remedy) from error


def _drawing(data: bytes, options: ReadOptions) -> Drawing:
    records = records_of(tags_of(data))
    sections = sections_of(records)
    layers = layers_of(records, sections.of("TABLES"))
    source = _source(records, sections, layers, options)
    result = placed(source, source.contents[_DRAWING])
    account = _account(result, layers, sections, source)
    if not result.segments and not result.lines:
        raise _nothing_drawn(account)
    contours, loose = [], []
    for segment in result.segments:
        if is_closed(segment.curve):
            contours.append(DrawnContour((segment,)))
        else:
            loose.append(segment)
    return Drawing(
        contours=tuple(contours),
        loose=tuple(loose),
        lines=_lines(result, layers),
        account=account,
        units=stated_units(records, sections),
        layers=tuple(
            (layer, result.tally.on_layer[number], not layers.hidden(number))
            for number, layer in enumerate(layers.names)
        ),
    )


def _source(records: Records, sections: Sections, layers: Layers, options: ReadOptions) -> Source:
    """Decode all entities and sort them by the block they stand in, as far as it is used."""
    entities, in_blocks = sections.of("ENTITIES"), sections.of("BLOCKS")
    within = np.sort(np.concatenate([entities, in_blocks]))
    shapes = shapes_of(records, within)
    blocks = blocks_of(records, in_blocks)
    roles = roles_of(records, layers, shapes, within)
    contents = {_DRAWING: contents_of(roles, entities)}
    inserted: dict[str, dict[str, int]] = {}
    waiting = [_DRAWING]
    while waiting:
        key = waiting.pop()
        inserted[key] = _inserted(roles.inserts, contents[key])
        for block in inserted[key]:
            if block in blocks and block not in contents:
                contents[block] = contents_of(roles, blocks[block].within)
                waiting.append(block)
        if len(contents) > _MOST_BLOCKS:
            raise ArtworkError(
                f"the drawing is built of more than {_MOST_BLOCKS} blocks",
                remedy="explode them, or keep only the outline",
            )
    own = {key: held.count(records) for key, held in contents.items()}
    return Source(
        records=records,
        layers=layers,
        chosen=chosen_layers(layers, options.layers),
        shapes=shapes,
        blocks=blocks,
        inserts=roles.inserts,
        contents=contents,
        totals=counted(own, inserted, _DRAWING, blocks),
    )


def _inserted(inserts: Inserts, held: Contents) -> dict[str, int]:
    """How many copies of which block some contents insert."""
    order = np.argsort(inserts.block[held.inserts], kind="stable")
    rows = held.inserts[order]
    cuts = np.flatnonzero(np.diff(inserts.block[rows])) + 1
    groups = np.split(rows, cuts) if len(rows) else []
    return {inserts.names[inserts.block[group[0]]]: inserts.copies(group) for group in groups}


def _lines(result: Placed, layers: Layers) -> tuple[LooseLines, ...]:
    return tuple(
        LooseLines(np.concatenate(parts), layers.names[layer], "LINE")
        for layer, parts in result.lines.items()
    )


def _account(result: Placed, layers: Layers, sections: Sections, source: Source) -> ImportAccount:
    tally = result.tally
    sheets = _on_sheets(source)
    mended = tuple(Entry(what, "the file") for what in sections.mended)
    return ImportAccount(
        read=_entries(tally.read, layers),
        mended=mended + _entries(tally.mended, layers),
        ignored=_entries(tally.ignored + sheets, layers),
    )


def _entries(counts: Counter[tuple[str, int, str]], layers: Layers) -> tuple[Entry, ...]:
    return tuple(
        Entry(f"{kind} {why}".strip(), f"layer {layers.names[layer]}", count)
        for (kind, layer, why), count in counts.items()
    )


def _on_sheets(source: Source) -> Counter[tuple[str, int, str]]:
    """Entities of sheet layouts that are kept as blocks."""
    found: Counter[tuple[str, int, str]] = Counter()
    for block in source.blocks.values():
        if block.is_paper:
            for record in block.within.tolist():
                name = source.records.name(record)
                if name not in PARTS:
                    found[name, int(source.layers.of_record[record]), IN_PAPER_SPACE] += 1
    return found


def _nothing_drawn(account: ImportAccount) -> ArtworkError:
    """The error for a file without a usable curve, naming what it holds instead."""
    if not account.ignored:
        return ArtworkError(
            "nothing is drawn in it",
            remedy="save the drawing again with its outline in model space",
        )
    held = sorted(account.ignored, key=lambda entry: -entry.count)
    most = "; ".join(f"{entry.count} {entry.what} ({entry.where})" for entry in held[:3])
    more = f" and {len(held) - 3} kinds more" if len(held) > 3 else ""
    return ArtworkError(
        f"no curve of it can be used: it holds {most}{more}",
        remedy="show the layers of the outline and convert lettering and fills to curves",
    )
