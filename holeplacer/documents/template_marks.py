"""Template marks: what proves the printer's scale, and what lets pages be laid to each other.

Bars of 100 mm and 4 in stand along both edges of every page. Where pages meet, the border of
their cells is drawn on both: the one to the right or above is cut along it, the other one keeps
it to lay the cut edge on. Crosses at the corners of cells bear their distances from datum and
level line, the same on all pages that meet there.
"""

import math
from collections.abc import Iterator

from holeplacer.documents.template import Template
from holeplacer.documents.template_cells import Cell, Cells
from holeplacer.documents.template_drawing import length
from holeplacer.paper import display_list, font
from holeplacer.paper.display_list import WHITE, Item, Line, Pen, Text, grey
from holeplacer.units import MM_PER_INCH

BARS = (("100 mm", 100.0, 10), ("4 in", 4 * MM_PER_INCH, 8))
"""Name, length and number of divisions of each bar."""

BAR_MM = 4.6
"""Room that one bar takes across its length."""

SQUARE_MM = 100.0
CROSS_MM = 5.0
_TICK_MM, _BAR_TEXT_MM, _FIGURE_MM = 1.6, 2.2, 2.3
_BAR, _CROSS = Pen(0.2), Pen(0.13)
_CUT, _LAY = Pen(0.2, grey(0.35), (4.0, 1.5)), Pen(0.13, grey(0.5), (0.8, 1.2))


def bars(x: float, y: float, *, upright: bool = False) -> Iterator[Item]:
    """Both bars, one beside the other, from a point to the right, or upright from it up.

    Each ends in ticks across it; from tick to tick it is as long as it says.
    """
    for index, (name, long, divisions) in enumerate(BARS):
        across = index * BAR_MM
        for at in range(divisions + 1):
            tick = _TICK_MM if at in (0, divisions) else _TICK_MM / 2
            yield _turned(x, y, long * at / divisions, across, 0.0, tick, upright=upright)
        yield _turned(x, y, 0.0, across, long, 0.0, upright=upright)
        along, beside = long / 2, across + 1.1
        if upright:
            yield Text(
                name, x - beside, y + along, _BAR_TEXT_MM, anchor="middle", angle_rad=math.pi / 2
            )
        else:
            yield Text(name, x + along, y + beside, _BAR_TEXT_MM, anchor="middle")


def square(x: float, y: float) -> Iterator[Item]:
    """A square with its diagonals, which are alike only if the paper's corners are square."""
    side = SQUARE_MM
    yield display_list.rectangle((x, y, x + side, y + side), _BAR)
    for x1, x2 in ((x, x + side), (x + side, x)):
        yield Line(x1, y, x2, y + side, Pen(0.1))
    diagonal = f"both diagonals {math.hypot(side, side):.1f} mm (5 9/16 in)"
    wide = font.width_mm(diagonal, 2.6)
    box = (x + side / 2 - wide / 2 - 1, y + 24, x + side / 2 + wide / 2 + 1, y + 28)
    yield display_list.rectangle(box, None, WHITE)
    yield Text(diagonal, x + side / 2, y + 25, 2.6, anchor="middle")
    yield Text(f"{side:g} mm", x + side / 2, y + 2, 2.6, anchor="middle")
    yield Text(f"{side:g} mm", x + 4.2, y + side / 2, 2.6, anchor="middle", angle_rad=math.pi / 2)


def joints(template: Template, pages: Cells, cell: Cell, at: tuple[float, float]) -> Iterator[Item]:
    """Borders to cut or to lay on, neighbours' names, and a cross at each corner of the cell.

    Args:
        template: Its datum and level line are what crosses are measured from.
        pages: All pages.
        cell: The page's own.
        at: Where the window's lower left corner lies on the leaf.
    """
    if len(pages.printed) == 1:
        return
    dx, dy = at[0] - cell.window_mm[0], at[1] - cell.window_mm[1]
    left, bottom, right, top = cell.box_mm
    half = pages.overlap_mm / 2
    outer = (left - half + dx, bottom - half + dy, right + half + dx, top + half + dy)
    upright = ((left + dx, -1), (right + dx, 1))
    for x, way in upright:
        other = pages.beside(cell, way, 0)
        if other is not None:
            yield Line(x, outer[1], x, outer[3], _CUT if way < 0 else _LAY)
            text = f"cut, then lay on {other.name}" if way < 0 else f"{other.name} begins here"
            y = (bottom + top) / 2 + dy
            near = x - half / 2 + 0.8 if way < 0 else x + half / 2 + 0.8
            yield Text(text, near, y, _FIGURE_MM, anchor="middle", angle_rad=math.pi / 2)
    for y, way in ((bottom + dy, 1), (top + dy, -1)):
        other = pages.beside(cell, 0, way)
        if other is not None:
            yield Line(outer[0], y, outer[2], y, _CUT if way > 0 else _LAY)
            text = f"cut, then lay on {other.name}" if way > 0 else f"{other.name} begins here"
            near = y - half / 2 - 0.8 if way > 0 else y + half / 2 - 0.8
            yield Text(text, (left + right) / 2 + dx, near, _FIGURE_MM, anchor="middle")
    yield from _crosses(template, cell, (dx, dy))
    yield Text(f"{cell.name} front", left + dx + 1.2, bottom + dy + 5.0, 4.0, bold=True)


def _crosses(template: Template, cell: Cell, shift: tuple[float, float]) -> Iterator[Item]:
    """A cross at each corner, its figures inside the cell."""
    left, bottom, right, top = cell.box_mm
    for x, anchor, aside in ((left, "start", 1.2), (right, "end", -1.2)):
        for y, line in ((bottom, 1.2), (top, -3.0)):
            at_x, at_y = x + shift[0], y + shift[1]
            yield from display_list.cross(at_x, at_y, CROSS_MM, _CROSS)
            text = f"x {length(x - template.datum_mm[0], template.unit)}"
            text += f"  y {length(y - template.level_mm, template.unit)}"
            wide = font.width_mm(text, _FIGURE_MM)
            start = at_x + aside - (0 if anchor == "start" else wide)
            box = (start - 0.3, at_y + line - 0.4, start + wide + 0.3, at_y + line + 2.1)
            yield display_list.rectangle(box, None, WHITE)
            yield Text(text, start, at_y + line, _FIGURE_MM)


def _turned(
    x: float, y: float, along: float, across: float, far: float, tick: float, *, upright: bool
) -> Line:
    """A tick across a bar, or the bar itself, both given from its start along and across it."""
    one = (along, across - tick / 2)
    two = (far, across) if far else (along, across + tick / 2)
    if upright:
        return Line(x - one[1], y + one[0], x - two[1], y + two[0], _BAR)
    return Line(x + one[0], y + one[1], x + two[0], y + two[1], _BAR)
