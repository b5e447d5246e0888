"""Template cells: the pages a template is divided onto, which of them are printed, their names.

The paper lies on the sign as a grid of cells that meet edge to edge. Every page shows its cell
and half the overlap beyond it on each side, so that neighbours show the same over the whole
overlap. Rows are lettered from the top, columns numbered from the left: A1 is top left.
"""

import math
from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely
from scipy.spatial import KDTree

from holeplacer.documents.template import SYMBOL_MM, Template
from holeplacer.errors import InputError
from holeplacer.paper.display_list import Box
from holeplacer.units import MM_PER_INCH, LengthUnit

MOST_CELLS = 5_000
"""More pages than this are a mistake in paper or size, not a template."""

Place = tuple[int, int]
"""Column from the left, row from the top, both from 0."""


@dataclass(frozen=True)
class Cell:
    """One page's part of the sign.

    Attributes:
        column, row: From the left and from the top, from 0.
        box_mm: The cell in sign coordinates.
        window_mm: What the page shows: the cell and half the overlap all round.
    """

    column: int
    row: int
    box_mm: Box
    window_mm: Box

    @property
    def name(self) -> str:
        """Letter of the row, number of the column."""
        return f"{letters(self.row)}{self.column + 1}"

    @property
    def place(self) -> Place:
        """Column and row."""
        return self.column, self.row


@dataclass(frozen=True)
class Cells:
    """All pages of a template.

    Attributes:
        columns, rows: Of the whole grid.
        step_mm: Width and height of a cell.
        overlap_mm: How far neighbours show the same.
        printed: Cells that are printed, row by row from the top.
        joining: How many of them show nothing of the sign and only join the others.
    """

    columns: int
    rows: int
    step_mm: tuple[float, float]
    overlap_mm: float
    printed: tuple[Cell, ...]
    joining: int

    def beside(self, cell: Cell, columns: int, rows: int) -> Cell | None:
        """The printed page so many columns to the right and rows down; None without one."""
        wanted = cell.column + columns, cell.row + rows
        return next((other for other in self.printed if other.place == wanted), None)


def cells(template: Template, most_mm: tuple[float, float], overlap_mm: float) -> Cells:
    """The pages a template is divided onto.

    Cells begin at round distances from datum and level line and are round in size, so that the
    marks at their corners bear round figures.

    Args:
        template: What is to be shown.
        most_mm: Greatest width and height of what one page can show.
        overlap_mm: How far neighbours show the same.

    Raises:
        InputError: A page would show nothing beyond the overlap, or there are too many.
    """
    left, bottom, right, top = template.extent_mm
    round_mm = MM_PER_INCH / 4 if template.unit is LengthUnit.INCH else 5.0
    x0 = _floor(left - template.datum_mm[0], round_mm) + template.datum_mm[0]
    y0 = _floor(bottom - template.level_mm, round_mm) + template.level_mm
    columns, wide = _divided(right - x0, most_mm[0] - overlap_mm, round_mm)
    rows, high = _divided(top - y0, most_mm[1] - overlap_mm, round_mm)
    if columns * rows > MOST_CELLS:
        raise InputError(
            f"the template would take a grid of {columns * rows} pages",
            remedy="take larger paper, or check the sign's size",
        )
    grid = {
        (column, row): _cell(column, row, rows, (x0, y0), (wide, high), overlap_mm)
        for row in range(rows)
        for column in range(columns)
    }
    needed = {place for place, cell in grid.items() if _shows(template, cell)}
    places = joined(needed)
    printed = tuple(grid[place] for place in sorted(places, key=lambda place: place[::-1]))
    return Cells(columns, rows, (wide, high), overlap_mm, printed, len(places) - len(needed))


def joined(needed: Iterable[Place]) -> set[Place]:
    """Places with as many more as it takes to join them all edge to edge.

    From the part at the first place, the nearest other part is joined by a straight-as-can-be
    way, until there is one part. Pages that hang together by tape can't be misplaced.
    """
    places = set(needed)
    if not places:
        return places
    while True:
        start = min(places, key=lambda place: place[::-1])
        part = _part(places, start)
        rest = places - part
        if not rest:
            return places
        ours, theirs = np.array(sorted(part)), np.array(sorted(rest))
        apart, nearest = KDTree(ours).query(theirs, p=1)
        at = int(np.argmin(apart))
        (x1, y1), (x2, y2) = ours[np.atleast_1d(nearest)[at]].tolist(), theirs[at].tolist()
        places |= _way((x1, y1), (x2, y2))


def letters(index: int) -> str:
    """A, B, ... Z, AA, AB, ...

    >>> letters(0), letters(25), letters(26), letters(702)
    ('A', 'Z', 'AA', 'AAA')
    """
    text, index = "", index + 1
    while index:
        index, letter = divmod(index - 1, 26)
        text = chr(ord("A") + letter) + text
    return text


def _part(places: set[Place], start: Place) -> set[Place]:
    """All places that hang together with one."""
    part, queue = {start}, deque([start])
    while queue:
        x, y = queue.popleft()
        near = {(x + 1, y), (x - 1, y), (x, y + 1), (x, y - 1)} & places - part
        part |= near
        queue.extend(near)
    return part


def _way(one: Place, other: Place) -> set[Place]:
    """Places on the way from one to another: along the row first, then along the column."""
    (x1, y1), (x2, y2) = one, other
    along = {(x, y1) for x in range(min(x1, x2), max(x1, x2) + 1)}
    return along | {(x2, y) for y in range(min(y1, y2), max(y1, y2) + 1)}


def _divided(length: float, most: float, round_mm: float) -> tuple[int, float]:
    """Number and size of the least cells of round size that reach over a length."""
    most = _floor(most, round_mm)
    if most < round_mm:
        raise InputError(
            "a page shows nothing beyond its overlap",
            where="template",
            remedy="take larger paper or less overlap",
        )
    number = max(1, math.ceil(length / most - 1e-9))
    return number, min(most, math.ceil(length / number / round_mm - 1e-9) * round_mm)


def _cell(
    column: int,
    row: int,
    rows: int,
    start: tuple[float, float],
    step: tuple[float, float],
    overlap_mm: float,
) -> Cell:
    left = start[0] + column * step[0]
    bottom = start[1] + (rows - 1 - row) * step[1]
    right, top, half = left + step[0], bottom + step[1], overlap_mm / 2
    window = (left - half, bottom - half, right + half, top + half)
    return Cell(column, row, (left, bottom, right, top), window)


def _shows(template: Template, cell: Cell) -> bool:
    """Whether metal, a hole's symbol or the datum lies in a cell."""
    left, bottom, right, top = cell.box_mm
    marks = [(hole.x_mm, hole.y_mm, hole.reach_mm) for hole in template.holes]
    if template.shows_datum:
        marks.append((*template.datum_mm, SYMBOL_MM))
    if any(
        left - reach < x < right + reach and bottom - reach < y < top + reach
        for x, y, reach in marks
    ):
        return True
    return bool(shapely.intersects(template.metal, shapely.box(*cell.box_mm)))


def _floor(value: float, step: float) -> float:
    return math.floor(value / step + 1e-9) * step
