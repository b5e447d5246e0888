"""Template tiles: the template on sheets of paper, to be cut and joined by their marks.

First come the notes with the map of the pages, then the pages row by row. Sheets stand or lie,
whichever takes fewer.
"""

from collections.abc import Iterator

from holeplacer.documents import template_cells, template_marks, template_notes
from holeplacer.documents.template import Template, TemplateWish
from holeplacer.documents.template_cells import Cell, Cells
from holeplacer.documents.template_drawing import drawn
from holeplacer.paper import font, size
from holeplacer.paper.display_list import Group, Item, Leaf, Text
from holeplacer.paper.size import PaperSize

MARGIN_MM = 6.35
"""Kept free along every edge: a quarter inch, which office printers can't reach; common practice,
no source."""

_LEFT_MM, _FOOT_MM = 2 * template_marks.BAR_MM + 2.0, 2 * template_marks.BAR_MM + 5.0
_SMALL_MM, _NAME_MM = 2.5, 9.0
_FOOT_LINE_MM = 3.6


def tiles(template: Template, wish: TemplateWish) -> tuple[Leaf, ...]:
    """Notes, then every printed page.

    Raises:
        InputError: The paper is too small for the overlap, or there are too many pages.
    """
    paper, pages = best_cells(template, wish)
    notes = _note_leaves(template, size.paper_size(wish.paper), pages)
    total = len(notes) + len(pages.printed)
    leaves = [
        _leaf(template, paper, pages, cell, f"page {len(notes) + index} of {total}")
        for index, cell in enumerate(pages.printed, start=1)
    ]
    return (*notes, *leaves)


def best_cells(template: Template, wish: TemplateWish) -> tuple[PaperSize, Cells]:
    """The paper, standing or lying, that takes fewer pages; standing where both take as many."""
    paper, spare = size.paper_size(wish.paper), template.reach_mm
    found = [
        (turned, template_cells.cells(template, room(turned, spare), wish.overlap_mm))
        for turned in (paper, paper.landscape)
    ]
    return min(found, key=lambda item: len(item[1].printed))


def room(paper: PaperSize, spare_mm: float) -> tuple[float, float]:
    """Width and height of what a page can show of the template.

    Args:
        paper: The sheet as it lies.
        spare_mm: Kept beyond it to the right and above, so that a symbol at its edge is whole; to
            the left and below there is room for bars and names.
    """
    return (
        paper.width_mm - 2 * MARGIN_MM - _LEFT_MM - spare_mm,
        paper.height_mm - 2 * MARGIN_MM - _FOOT_MM - spare_mm,
    )


def window_at() -> tuple[float, float]:
    """Where on every page the lower left corner of its window lies."""
    return MARGIN_MM + _LEFT_MM, MARGIN_MM + _FOOT_MM


def _leaf(template: Template, paper: PaperSize, pages: Cells, cell: Cell, number: str) -> Leaf:
    at = window_at()
    items = (
        Group(drawn(template, cell.window_mm, at, inset_mm=pages.overlap_mm / 2), "template"),
        Group(tuple(template_marks.joints(template, pages, cell, at)), "joints"),
        Group(tuple(_foot(template, paper, cell, number)), "foot"),
    )
    return Leaf(paper.width_mm, paper.height_mm, items, cell.name)


def _foot(template: Template, paper: PaperSize, cell: Cell, number: str) -> Iterator[Item]:
    """Bars along both edges, the page's name, and what it belongs to."""
    left = MARGIN_MM + _LEFT_MM
    yield from template_marks.bars(MARGIN_MM + template_marks.BAR_MM + 3.2, left + 20, upright=True)
    yield Text(cell.name, MARGIN_MM, MARGIN_MM + 2.0, _NAME_MM, bold=True)
    start = MARGIN_MM + max(24.0, font.width_mm(cell.name, _NAME_MM, bold=True) + 4.0)
    yield from template_marks.bars(start, MARGIN_MM + 2.0)
    start += template_marks.BARS[1][1] + 5.0
    for index, line in enumerate(_said(template, number)):
        shown = font.shortened(line, _SMALL_MM, paper.width_mm - MARGIN_MM - start)
        at = MARGIN_MM + _FOOT_MM - 5.4 - index * _FOOT_LINE_MM
        yield Text(shown, start, at, _SMALL_MM, bold=index == 1)


def _said(template: Template, number: str) -> tuple[str, str, str]:
    revision = f", revision {template.revision}" if template.revision else ""
    part = "" if template.section is None else f", section {template.section}"
    dated = f", {template.date}" if template.date else ""
    return (
        f"{template.name}{part}{revision}{dated}",
        "THIS SIDE OUT, seen from the front",
        f"{number}; full size, measure the bars",
    )


def _note_leaves(template: Template, paper: PaperSize, pages: Cells) -> tuple[Leaf, ...]:
    """Notes on paper standing upright, in as many columns as its width holds."""
    wide, high = paper.width_mm - 2 * MARGIN_MM, paper.height_mm - 2 * MARGIN_MM
    pitch = template_notes.COLUMN_MM + template_notes.GUTTER_MM
    across = max(1, int((wide + template_notes.GUTTER_MM) // pitch))
    blocks = template_notes.blocks(template, pages, tiled=True)
    columns = template_notes.columns(blocks, high)
    leaves = []
    for start in range(0, len(columns), across):
        items: list[Item] = []
        for index, column in enumerate(columns[start : start + across]):
            items += column.items(MARGIN_MM + index * pitch, paper.height_mm - MARGIN_MM)
        leaves.append(Leaf(paper.width_mm, paper.height_mm, tuple(items), "notes"))
    return tuple(leaves)
