"""Template roll: the template on plotter paper, in one length if it can be.

The sign lies along the roll or across it: in the fewest lengths, then on the least paper. What is
wider than the roll takes several lengths side by side; what would be longer than 200 in is divided.
Lengths overlap and are joined by marks, as tiles are; nothing is ever scaled.
"""

from collections.abc import Iterator, Sequence

from holeplacer.documents import template_cells, template_marks, template_notes
from holeplacer.documents.template import Template, TemplateWish
from holeplacer.documents.template_cells import Cell, Cells
from holeplacer.documents.template_drawing import drawn
from holeplacer.documents.template_notes import COLUMN_MM, GUTTER_MM, Block
from holeplacer.paper import size
from holeplacer.paper.display_list import Group, Item, Leaf

MARGIN_MM = 10.0
"""Kept free along every edge of a roll: common practice, no source."""


def lengths(template: Template, wish: TemplateWish) -> tuple[Leaf, ...]:
    """Every length of the roll, the notes on the first.

    Raises:
        InputError: The roll is too narrow.
    """
    found = [_laid(template, wish, along=along) for along in (True, False)]
    return min(found, key=_worth)


def _worth(leaves: Sequence[Leaf]) -> tuple[int, float]:
    """Fewest joints on the wall first, then the least paper."""
    return len(leaves), sum(leaf.width_mm * leaf.height_mm for leaf in leaves)


def whole(template: Template, wish: TemplateWish) -> Leaf:
    """One leaf with everything, as large as it takes: for files that know no page."""
    left, bottom, right, top = template.extent_mm
    most = (right - left + 100.0 + wish.overlap_mm, top - bottom + 100.0 + wish.overlap_mm)
    pages = template_cells.cells(template, most, wish.overlap_mm)
    (cell,) = pages.printed
    blocks = template_notes.blocks(template, pages, tiled=False)
    high = max(_high(cell), max(block.height_mm for block in blocks))
    return _along(template, pages, cell, blocks, high + 2 * MARGIN_MM)


def _laid(template: Template, wish: TemplateWish, *, along: bool) -> tuple[Leaf, ...]:
    """All lengths with the sign along the roll or across it."""
    roll = wish.roll_mm - 2 * MARGIN_MM
    notes = _notes_room(template, wish, along=along)
    free = size.LONGEST_MM - 2 * MARGIN_MM - notes
    most = (free, roll) if along else (roll, free)
    pages = template_cells.cells(template, most, wish.overlap_mm)
    leaves = []
    for index, cell in enumerate(pages.printed):
        name = cell.name if len(pages.printed) > 1 else ""
        blocks = template_notes.blocks(template, pages, tiled=False, length=name)
        blocks = blocks if index == 0 else _short(template, pages, name)
        lay = _along if along else _across
        leaves.append(lay(template, pages, cell, blocks, wish.roll_mm))
    return tuple(leaves)


def _notes_room(template: Template, wish: TemplateWish, *, along: bool) -> float:
    """What the notes take of a length; the map of pages does not depend on this by much."""
    whole = template_cells.cells(template, (1e5, 1e5), wish.overlap_mm)
    blocks = template_notes.blocks(template, whole, tiled=False)
    pages = template_notes.Block(110.0, lambda _x, _y: ())
    blocks = (*blocks[:2], pages, *blocks[2:])
    roll = wish.roll_mm - 2 * MARGIN_MM
    if along:
        return len(template_notes.columns(blocks, roll)) * (COLUMN_MM + GUTTER_MM)
    return template_notes.highest(blocks, _columns_across(roll)) + GUTTER_MM + 10.0


def _columns_across(roll: float) -> int:
    return max(1, int((roll + GUTTER_MM) // (COLUMN_MM + GUTTER_MM)))


def _along(
    template: Template, pages: Cells, cell: Cell, blocks: Sequence[Block], roll_mm: float
) -> Leaf:
    """A length whose height is the roll's width; the notes stand to the left of the window."""
    high = roll_mm - 2 * MARGIN_MM
    columns = template_notes.columns(blocks, high)
    items: list[Item] = []
    for index, column in enumerate(columns):
        x = MARGIN_MM + index * (COLUMN_MM + GUTTER_MM)
        items += column.items(x, roll_mm - MARGIN_MM)
    start = MARGIN_MM + len(columns) * (COLUMN_MM + GUTTER_MM)
    at = (start, (roll_mm - _high(cell)) / 2)
    items += _shown(template, pages, cell, at)
    return Leaf(start + _wide(cell) + MARGIN_MM, roll_mm, tuple(items), cell.name)


def _across(
    template: Template, pages: Cells, cell: Cell, blocks: Sequence[Block], roll_mm: float
) -> Leaf:
    """A length whose width is the roll's; the notes stand below the window."""
    number = _columns_across(roll_mm - 2 * MARGIN_MM)
    notes = template_notes.highest(blocks, number)
    at = ((roll_mm - _wide(cell)) / 2, MARGIN_MM + notes + GUTTER_MM)
    items: list[Item] = []
    for index, column in enumerate(template_notes.columns(blocks, notes)):
        items += column.items(MARGIN_MM + index * (COLUMN_MM + GUTTER_MM), MARGIN_MM + notes)
    items += _shown(template, pages, cell, at)
    return Leaf(roll_mm, at[1] + _high(cell) + MARGIN_MM, tuple(items), cell.name)


def _shown(template: Template, pages: Cells, cell: Cell, at: tuple[float, float]) -> Iterator[Item]:
    yield Group(drawn(template, cell.window_mm, at, inset_mm=pages.overlap_mm / 2), "template")
    yield Group(tuple(template_marks.joints(template, pages, cell, at)), "joints")


def _short(template: Template, pages: Cells, name: str) -> tuple[Block, ...]:
    """Notes of every length but the first: whose it is, and the scale again."""
    return template_notes.title(template, pages, name), template_notes.scale(template)


def _wide(cell: Cell) -> float:
    return cell.window_mm[2] - cell.window_mm[0]


def _high(cell: Cell) -> float:
    return cell.window_mm[3] - cell.window_mm[1]
