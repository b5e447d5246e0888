"""Blocks and their insertions: where each copy of a block's entities lands in the drawing.

A few insertions nested in one another can ask for a thousand million copies, and a block can be
made to contain itself. So copies are counted, by multiplication, before a single one is made.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_shapes import TILTED, bounds_fault, sides
from holeplacer.artwork.dxf_tags import Indices
from holeplacer.errors import ArtworkError
from holeplacer.geometry.transform import Matrix, combined, matrix

MOST_COPIES = 200_000
"""Curves and insertions that blocks may come to; real drawings stay far below."""

MOST_POINTS = 4_000_000
"""Vertices and control points that blocks may come to."""

NO_SCALE = "with a scale of zero"

_EXTERNAL = 4 | 8
_COUNTLESS = 10**15
"""Counting stops here; thousands of nested arrays would only grow the number."""


@dataclass(frozen=True, eq=False)
class Block:
    """A named group of entities.

    Attributes:
        name: As the file writes it.
        base: Point that insertions put at their place.
        within: Its records.
        external: Whether it only refers to another file.
    """

    name: str
    base: tuple[float, float]
    within: Indices
    external: bool

    @property
    def is_paper(self) -> bool:
        """Whether it is a sheet layout rather than a part of the drawing."""
        return self.name.upper().startswith(("*PAPER_SPACE", "$PAPER_SPACE"))


@dataclass(frozen=True)
class Insert:
    """An INSERT: copies of a block in columns and rows.

    Attributes:
        record: Its number.
        block: Key of the block (its name, case folded).
        place: x, y of the first copy.
        scale: Along the block's x and y.
        rotation: Radians.
        columns, rows: Number of copies.
        column_step, row_step: Distances between them along the turned axes.
        side: -1 if seen from below, else 1.
    """

    record: int
    block: str
    place: tuple[float, float]
    scale: tuple[float, float]
    rotation: float
    columns: int
    rows: int
    column_step: float
    row_step: float
    side: float

    @property
    def copies(self) -> int:
        """Number of copies."""
        return self.columns * self.rows

    def placements(self, base: tuple[float, float]) -> Iterator[Matrix]:
        """Maps from the block's coordinates to those around it, one for each copy."""
        cos, sin = math.cos(self.rotation), math.sin(self.rotation)
        outer = matrix(self.side * cos, sin, -self.side * sin, cos, self.side * self.place[0],
                       self.place[1])  # fmt: skip
        x_scale, y_scale = self.scale
        for row in range(self.rows):
            for column in range(self.columns):
                x = column * self.column_step - x_scale * base[0]
                y = row * self.row_step - y_scale * base[1]
                yield combined(outer, matrix(x_scale, 0.0, 0.0, y_scale, x, y))


def blocks_of(records: Records, within: Indices) -> dict[str, Block]:
    """All blocks of the BLOCKS section by case-folded name; of equal names the first counts."""
    begins = records.named("BLOCK", within)
    ends = records.named("ENDBLK", within)
    flags = records.flags(begins, 70)
    base = np.nan_to_num([records.column(begins, code, 0.0) for code in (10, 20)])
    blocks: dict[str, Block] = {}
    stops = np.sort(np.concatenate([begins, ends, within[-1:] + 1]))
    stop = stops[np.searchsorted(stops, begins, side="right")] if len(begins) else begins
    for index, begin in enumerate(begins.tolist()):
        name = records.text(begin, 2)
        block = Block(
            name=name,
            base=(float(base[0, index]), float(base[1, index])),
            within=np.arange(begin + 1, stop[index]),
            external=bool(flags[index] & _EXTERNAL),
        )
        blocks.setdefault(name.casefold(), block)
    return blocks


def inserts_of(records: Records, within: Indices) -> tuple[dict[int, Insert], dict[int, str]]:
    """All usable INSERTs by record number, and why the others can't be used.

    Raises:
        ArtworkError: There are more than `MOST_COPIES`.
    """
    chosen = records.named("INSERT", within)
    if len(chosen) > MOST_COPIES:
        raise _too_many(len(chosen))
    defaults = {10: math.nan, 20: math.nan, 41: 1.0, 42: 1.0, 50: 0.0, 44: 0.0, 45: 0.0}
    values = np.stack([records.column(chosen, code, d) for code, d in defaults.items()], axis=1)
    columns, rows = (np.maximum(records.flags(chosen, code, 1), 1) for code in (70, 71))
    side, faults = sides(records, chosen), bounds_fault(values)
    faults[(faults == "") & (side == 0)] = TILTED
    faults[(faults == "") & (values[:, 2:4] == 0).any(axis=1)] = NO_SCALE
    inserts = {}
    for index in np.flatnonzero(faults == "").tolist():
        x, y, x_scale, y_scale, degrees, column_step, row_step = values[index].tolist()
        record = int(chosen[index])
        inserts[record] = Insert(
            record=record,
            block=records.text(record, 2).casefold(),
            place=(x, y),
            scale=(x_scale, y_scale),
            rotation=math.radians(degrees),
            columns=int(columns[index]),
            rows=int(rows[index]),
            column_step=column_step,
            row_step=row_step,
            side=float(side[index]),
        )
    bad = np.flatnonzero(faults != "")
    return inserts, {int(chosen[index]): str(faults[index]) for index in bad}


@dataclass(frozen=True)
class Count:
    """What one copy of a block comes to, its own insertions included.

    Attributes:
        curves: Number of curves.
        points: Number of their vertices and control points.
        insertions: Number of insertions that hold curves.
    """

    curves: int = 0
    points: int = 0
    insertions: int = 0

    def plus(self, copies: int, other: "Count") -> "Count":
        """This and a number of copies of a block that holds curves, up to `_COUNTLESS`."""
        return Count(
            min(self.curves + copies * other.curves, _COUNTLESS),
            min(self.points + copies * other.points, _COUNTLESS),
            min(self.insertions + copies * (1 + other.insertions), _COUNTLESS),
        )


def counted(
    own: dict[str, Count], inserts: dict[str, list[Insert]], drawing: str
) -> dict[str, Count]:
    """Count what the drawing and every block that it reaches come to.

    Args:
        own: Curves that each block holds itself, by key; the drawing is one of them.
        inserts: Insertions that each holds.
        drawing: Key of the drawing.

    Raises:
        ArtworkError: A block contains itself, or there would be too many copies.
    """
    total: dict[str, Count] = {}
    path: dict[str, None] = {}
    waiting = [drawing]
    while waiting:
        key = waiting[-1]
        if key in total:
            waiting.pop()
            continue
        children = [insert for insert in inserts[key] if insert.block in own]
        unknown = [insert.block for insert in children if insert.block not in total]
        path[key] = None
        if unknown:
            _refuse_cycle(unknown, path)
            waiting.extend(dict.fromkeys(unknown))
            continue
        count = own[key]
        for insert in children:
            if total[insert.block].curves:
                count = count.plus(insert.copies, total[insert.block])
        total[key] = count
        waiting.pop()
        del path[key]
    _refuse_excess(total[drawing], own[drawing])
    return total


def _refuse_cycle(blocks: list[str], path: dict[str, None]) -> None:
    for block in blocks:
        if block in path:
            raise ArtworkError(
                f"block {block!r} contains itself, so its drawing never ends",
                remedy="explode that block, or save the drawing without it",
            )


def _refuse_excess(count: Count, own: Count) -> None:
    copies = count.curves - own.curves + count.insertions
    points = count.points - own.points
    if copies > MOST_COPIES or points > MOST_POINTS:
        raise _too_many(max(copies, points))


def _too_many(count: int) -> ArtworkError:
    return ArtworkError(
        f"its block insertions come to {_rounded(count)} curves or points, far more than any sign",
        remedy="leave out the arrays and nested blocks that are not part of the outline",
    )


def _rounded(count: int) -> str:
    return f"{count:,}".replace(",", " ") if count < _COUNTLESS else "more than 10^15"
