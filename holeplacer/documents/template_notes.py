"""Template notes: what is to be read before a template is used, as blocks set in columns.

Title, scale to prove, map of the pages, what to do, list of holes, cautions. A block is as wide
as a column and knows its height; `columns` lays blocks out one below the other.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from holeplacer.documents import caution, template_marks
from holeplacer.documents.hole_schedule import tape_inches
from holeplacer.documents.template import Template
from holeplacer.documents.template_cells import Cells
from holeplacer.errors import InputError
from holeplacer.paper import display_list, font
from holeplacer.paper.display_list import BLACK, Item, Line, Path, Pen, Subpath, Text, grey
from holeplacer.units import MM_PER_INCH, LengthUnit, format_length, format_mass
from holeplacer.wall.drilling import Drilling

COLUMN_MM, GUTTER_MM = 186.0, 8.0
"""A column, and what is left free beside and below a block."""

_TITLE_MM, _BODY_MM, _SMALL_MM = 8.0, 3.3, 2.7
_LEADING = 1.35
_MAP_HIGH_MM = 95.0
_MAP_ROUGH_MM = 0.15
_ROW_MM = 4.0
_ROWS = 40
_TABLES = 2
_TABLE_ENDS = (8.0, 26.0, 42.0, 58.0, 73.0, 89.0)
_HEADS = ("No.", "x mm", "y mm", "x in", "y in", "Ø mm")
_THIN = Pen(0.15)

_PROVE = (
    "Before use, measure with a steel rule: both bars along both edges, the square's sides and "
    "its diagonals. More than 0.3 mm off in 100 mm: print again at actual size (100 %, no "
    "fitting to the page)."
)
_HANG = (
    "Hang. Tape the template to the wall by its middle; bring the level line level with a level "
    "or a laser over its whole length, prove by the plumb lines, then tape all round."
)
_LOOK = (
    "Look. Grid figures count from the datum across and from the level line up. Look behind "
    "every one of the {holes} crosses for what must not be drilled."
)
_PUNCH = (
    "Punch. Prick every cross through its middle and mark its number on the wall; count them "
    "before the paper comes off."
)
_DRILL = (
    "Drill as the drill list says. The rings show the holes in the sign, not those in the wall, "
    "unless a drill is stated beside them."
)
_JOIN = (
    "Join. Start at the lower left. Cut each {what} along its dashed lines, lay the cut edge on "
    "the dotted line of its neighbour, {half} inside the end of that one's drawing, so that "
    "crosses and grid lines run through, and tape. Figures at the crosses must be the same on "
    "both."
)

Draw = Callable[[float, float], Iterable[Item]]


@dataclass(frozen=True, eq=False)
class Block:
    """Something to read, as wide as a column.

    Attributes:
        height_mm: Room it takes.
        draw: Gives its items, its upper left corner at (x, y).
    """

    height_mm: float
    draw: Draw


@dataclass(frozen=True, eq=False)
class Column:
    """Blocks one below the other.

    Attributes:
        blocks: Each with the distance of its upper edge below the column's.
    """

    blocks: tuple[tuple[float, Block], ...]

    def items(self, x: float, top: float) -> Iterator[Item]:
        """Everything in it, its upper left corner at (x, top)."""
        for below, block in self.blocks:
            yield from block.draw(x, top - below)


def columns(blocks: Sequence[Block], height_mm: float) -> tuple[Column, ...]:
    """Blocks in as many columns as it takes, in order.

    Raises:
        InputError: A block is higher than a column.
    """
    done: list[Column] = []
    column: list[tuple[float, Block]] = []
    below = 0.0
    for block in blocks:
        if block.height_mm > height_mm + 1e-6:
            raise InputError(
                f"the paper is too narrow for its notes, {height_mm:.0f} mm",
                remedy=f"take paper with {block.height_mm:.0f} mm of room",
            )
        if column and below + block.height_mm > height_mm + 1e-6:
            done.append(Column(tuple(column)))
            column, below = [], 0.0
        column.append((below, block))
        below += block.height_mm + GUTTER_MM
    return (*done, Column(tuple(column))) if column else tuple(done)


def highest(blocks: Sequence[Block], number: int) -> float:
    """Least height, to a few millimetres, at which blocks fit into so many columns."""
    height = max(block.height_mm for block in blocks)
    while len(columns(blocks, height)) > number:
        height += 5.0
    return height


def blocks(template: Template, pages: Cells, *, tiled: bool, length: str = "") -> tuple[Block, ...]:
    """All notes of a template.

    Args:
        template: What they are about.
        pages: The pages it is divided onto.
        tiled: Whether pages are cut and joined by hand; False: lengths of a roll.
        length: Name of the length they stand on, where there are several.
    """
    return (
        title(template, pages, length),
        scale(template),
        *([page_map(template, pages)] if len(pages.printed) > 1 else []),
        _sentences("How to use it", _steps(template, pages, tiled=tiled)),
        *_hole_lists(template),
        _sentences("Caution", caution.FULL, _SMALL_MM),
    )


def title(template: Template, pages: Cells, length: str = "") -> Block:
    """Whose template it is, how large, of which revision, and which side is out.

    Args:
        template: What it is about.
        pages: The pages it is divided onto.
        length: Name of the length of a roll that this stands on, where there are several.
    """
    facts = (font.wrapped(fact, _BODY_MM, COLUMN_MM) for fact in _facts(template, pages))
    lines = [(line, _BODY_MM, False) for wrapped in facts for line in wrapped]
    name = font.shortened(template.name, _TITLE_MM, COLUMN_MM, bold=True)
    side = [
        ("THIS SIDE OUT: the sign as seen from the front", _BODY_MM * 1.3, True),
        ("Drilling template, full size 1:1", _BODY_MM, False),
    ]
    if length:
        side.insert(0, (f"Length {length}", _TITLE_MM, True))
    return _lines_block([(name, _TITLE_MM, True), *side, *lines])


def scale(template: Template) -> Block:
    """Bars along both axes and a square, with what to do about them."""
    side = template_marks.SQUARE_MM
    text = (_PROVE, _long_check(template))
    inner = COLUMN_MM - side - 22.0
    lines = [line for part in text for line in (*font.wrapped(part, _BODY_MM, inner), "")]

    def draw(x: float, y: float) -> Iterator[Item]:
        bottom = y - side - 14.0
        yield from template_marks.bars(x + 12.0, bottom + 2.0)
        yield from template_marks.bars(x + 8.0, bottom + 13.0, upright=True)
        yield from template_marks.square(x + 12.0, bottom + 13.0)
        yield Text("Prove the scale", x + side + 20, y - 4.0, _BODY_MM * 1.2, bold=True)
        for index, line in enumerate(lines, start=1):
            at = y - 4.5 - index * _BODY_MM * _LEADING
            yield Text(line, x + side + 20, at - 1.5, _BODY_MM)

    return Block(side + 16.0, draw)


def page_map(template: Template, pages: Cells) -> Block:
    """The sign drawn small with its pages; those that are not printed stay without a name."""
    cells = pages.printed
    left = min(cell.box_mm[0] - cell.column * pages.step_mm[0] for cell in cells)
    top = max(cell.box_mm[3] + cell.row * pages.step_mm[1] for cell in cells)
    wide, high = pages.columns * pages.step_mm[0], pages.rows * pages.step_mm[1]
    factor = min(COLUMN_MM / wide, _MAP_HIGH_MM / high)
    outline = shapely.simplify(template.edges, _MAP_ROUGH_MM / factor)

    def draw(x: float, y: float) -> Iterator[Item]:
        yield Text("Page map", x, y - 4.0, _BODY_MM * 1.2, bold=True)
        shift = np.array([x, y - 7.0]) - np.array([left, top]) * factor
        runs = [
            Subpath(shapely.get_coordinates(part)[:-1] * factor + shift, closed=True)
            for part in shapely.get_parts(outline)
            if len(part.coords) > 3
        ]
        yield Path(tuple(runs), Pen(0.1, grey(0.4)), grey(0.85))
        for cell in cells:
            x1, y1, x2, y2 = (np.array(cell.box_mm).reshape(2, 2) * factor + shift).ravel().tolist()
            yield display_list.rectangle((x1, y1, x2, y2), _THIN)
            size = min(4.0, 0.5 * (y2 - y1), 0.9 * (x2 - x1) / max(1.0, len(cell.name) * 0.75))
            at = (y1 + y2) / 2 - 0.36 * size
            yield Text(cell.name, (x1 + x2) / 2, at, size, anchor="middle")

    return Block(high * factor + 9.0, draw)


def _facts(template: Template, pages: Cells) -> Iterator[str]:
    left, bottom, right, top = template.bounds_mm
    unit = template.unit
    sign = f"{format_length(right - left, unit)} × {format_length(top - bottom, unit)}"
    noun = "hole" if len(template.holes) == 1 else "holes"
    part = "" if template.section is None else f"Section {template.section} of a sign of "
    yield f"{part or 'Sign '}{sign}, {len(template.holes)} {noun}"
    revision = f"Revision {font.printable(template.revision)}" if template.revision else ""
    dated = f"Date {font.printable(template.date)}" if template.date else ""
    mass = (
        ""
        if template.mass_kg is None
        else f"Mass of the sign {format_mass(template.mass_kg, unit)}"
    )
    yield ", ".join(filter(None, (revision, dated, mass)))
    if template.ground_mm is not None:
        yield f"Lower edge of the sign {format_length(template.ground_mm, unit)} above the ground"
    if template.drilling is not None:
        yield _drill_fact(template.drilling, unit)
    count, grid = len(pages.printed), pages.columns * pages.rows
    if count > 1:
        empty = f"; {grid - count} of the grid of {grid} show nothing and are left out"
        joining = f"; {pages.joining} only join others" if pages.joining else ""
        yield f"{count} pages{empty if grid > count else ''}{joining}"
    grid_mm = format_length(template.grid_mm, unit)
    yield f"Grid {grid_mm}, counted from the datum and the level line"
    yield f"Cut edges drawn within {template.within_mm:.2g} mm of the artwork's curves"


def _drill_fact(drilled: Drilling, unit: LengthUnit) -> str:
    deep = "right through"
    if drilled.depth_mm is not None:
        step = MM_PER_INCH / 16 if unit is LengthUnit.INCH else 1.0
        depth = format_length(round(drilled.depth_mm / step) * step, unit)
        deep = f"{depth} deep from the wall's face"
    outer = drilled.outer_drill
    wider = f", {outer.name} through the outer layers" if outer.mm > drilled.drill.mm else ""
    return f"Drill the wall {drilled.drill.name}, {deep}{wider}"


def _long_check(template: Template) -> str:
    first, last = min(template.plumbs_mm), max(template.plumbs_mm)
    if template.section is not None:
        return ""
    away = format_length(last - first, template.unit)
    return (
        f"On the finished template measure from the first to the last plumb line: {away}. Paper "
        "grows in damp air; print and hang it the same day."
    )


def _steps(template: Template, pages: Cells, *, tiled: bool) -> tuple[str, ...]:
    steps = [_HANG, _LOOK.format(holes=len(template.holes)), _PUNCH, _DRILL]
    if len(pages.printed) > 1:
        half = format_length(pages.overlap_mm / 2, template.unit)
        steps.insert(0, _JOIN.format(what="page" if tiled else "length", half=half))
    return tuple(f"{number}. {step}" for number, step in enumerate(steps, start=1))


def _hole_lists(template: Template) -> Iterator[Block]:
    """Tables of holes, two side by side, in blocks short enough for any column."""
    per_block = _ROWS * _TABLES
    holes = template.holes
    for start in range(0, len(holes), per_block):
        chunk = holes[start : start + per_block]
        rows = -(-len(chunk) // _TABLES)
        listed = [_row(template, index) for index in range(start, start + len(chunk))]
        tables = [listed[at : at + rows] for at in range(0, len(listed), rows)]
        yield Block(14.0 + (rows + 1) * _ROW_MM, _table_drawer(tables))


def _table_drawer(tables: Sequence[Sequence[Sequence[str]]]) -> Draw:
    def draw(x: float, y: float) -> Iterator[Item]:
        yield Text("Hole centres, from the datum", x, y - 4.0, _BODY_MM * 1.2, bold=True)
        note = "Millimetres to a tenth, inches to the nearest 1/32; Ø of the hole in the sign."
        yield Text(note, x, y - 8.5, _SMALL_MM)
        for place, rows in enumerate(tables):
            start = x + place * (COLUMN_MM + GUTTER_MM / 2) / _TABLES
            for line, cells in enumerate((_HEADS, *rows)):
                at = y - 13.0 - line * _ROW_MM
                for cell, end in zip(cells, _TABLE_ENDS, strict=True):
                    yield Text(cell, start + end, at, _SMALL_MM, bold=line == 0, anchor="end")
            yield Line(start, y - 14.2, start + _TABLE_ENDS[-1], y - 14.2, Pen(0.1, BLACK))

    return draw


def _row(template: Template, index: int) -> tuple[str, ...]:
    hole = template.holes[index]
    x, y = template.listed(hole.x_mm, hole.y_mm)
    across = f"{hole.diameter_mm:.2f}".rstrip("0").rstrip(".")
    return str(hole.number), f"{x:.1f}", f"{y:.1f}", tape_inches(x), tape_inches(y), across


def _sentences(heading: str, sentences: Sequence[str], size: float = _BODY_MM) -> Block:
    lines = [(heading, _BODY_MM * 1.2, True)]
    for sentence in sentences:
        lines += [(line, size, False) for line in font.wrapped(sentence, size, COLUMN_MM)]
    return _lines_block(lines)


def _lines_block(lines: Sequence[tuple[str, float, bool]]) -> Block:
    """Lines of text below each other, each with its size and whether it is bold."""

    def draw(x: float, y: float) -> Iterator[Item]:
        for text, size, bold in lines:
            y -= size * _LEADING
            yield Text(text, x, y + 0.25 * size, size, bold)

    return Block(sum(size * _LEADING for _, size, _ in lines), draw)
