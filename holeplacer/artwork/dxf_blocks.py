"""Blocks and their insertions: where each copy of a block's entities lands in the drawing.

A few insertions nested in one another can ask for a thousand million copies, and a block can be
made to contain itself. So copies are counted, by multiplication, before a single one is made.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_shapes import TILTED, add_fault, bounds_fault, sides
from holeplacer.artwork.dxf_tags import Floats, Indices
from holeplacer.errors import ArtworkError
from holeplacer.geometry.transform import Matrix, combined

MOST_COPIES = 20_000
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


@dataclass(frozen=True, eq=False)
class Inserts:
    """All usable INSERTs of a file: copies of blocks in columns and rows.

    Attributes:
        record: (n,) their record numbers, rising.
        block: (n,) number of the block's name in `names`.
        names: Names of blocks, case folded.
        outer: (n, 2, 3) turn, place and side: all but scale and array.
        scale: (n, 2) along the block's x and y.
        grid: (n, 2) numbers of columns and rows.
        step: (n, 2) distances between columns and rows, along the turned axes.
        faults: Why others can't be used, by record.
    """

    record: Indices
    block: Indices
    names: tuple[str, ...]
    outer: Matrix
    scale: Floats
    grid: NDArray[np.int64]
    step: Floats
    faults: dict[int, str]

    def copies(self, rows: Indices) -> int:
        """How many copies some of the insertions ask for, up to `_COUNTLESS`."""
        return int(min(self.grid[rows].astype(float).prod(axis=1).sum(), _COUNTLESS))

    def placements(self, rows: Indices, base: tuple[float, float]) -> Matrix:
        """Maps from a block's coordinates to those around it, (k, 2, 3), one for each copy.

        Args:
            rows: Which insertions.
            base: Base point of their block.
        """
        count = self.grid[rows].prod(axis=1)
        row = np.repeat(rows, count)
        number = np.arange(len(row)) - np.repeat(np.cumsum(count) - count, count)
        columns = self.grid[row, 0]
        grid = np.stack([number % columns, number // columns], axis=1)
        inner = np.zeros((len(row), 2, 3))
        inner[:, 0, 0], inner[:, 1, 1] = self.scale[row].T
        inner[:, :, 2] = grid * self.step[row] - self.scale[row] * base
        return combined(self.outer[row], inner)


def blocks_of(records: Records, within: Indices) -> dict[str, Block]:
    """All blocks of the BLOCKS section by case-folded name; of equal names the first counts."""
    begins = records.named("BLOCK", within)
    ends = records.named("ENDBLK", within)
    flags = records.flags(begins, 70)
    base = np.nan_to_num([records.column(begins, code, 0.0) for code in (10, 20)])
    stops = np.sort(np.concatenate([begins, ends, within[-1:] + 1]))
    stop = stops[np.searchsorted(stops, begins, side="right")]
    names = records.texts(begins, 2)
    blocks: dict[str, Block] = {}
    for index, begin in enumerate(begins.tolist()):
        block = Block(
            name=names[index],
            base=(float(base[0, index]), float(base[1, index])),
            within=np.arange(begin + 1, stop[index]),
            external=bool(flags[index] & _EXTERNAL),
        )
        blocks.setdefault(names[index].casefold(), block)
    return blocks


def inserts_of(records: Records, within: Indices) -> Inserts:
    """All INSERTs among some records.

    Raises:
        ArtworkError: There are more than `MOST_COPIES`.
    """
    chosen = records.named("INSERT", within)
    if len(chosen) > MOST_COPIES:
        raise _too_many(len(chosen))
    defaults = {10: math.nan, 20: math.nan, 41: 1.0, 42: 1.0, 50: 0.0, 44: 0.0, 45: 0.0}
    values = np.stack([records.column(chosen, code, d) for code, d in defaults.items()], axis=1)
    grid = np.stack([records.flags(chosen, code, 1) for code in (70, 71)], axis=1).clip(1)
    side, faults = sides(records, chosen), bounds_fault(values)
    add_fault(faults, side == 0, TILTED)
    add_fault(faults, (values[:, 2:4] == 0).any(axis=1), NO_SCALE)
    bad = np.flatnonzero(faults != "")
    good = np.flatnonzero(faults == "")
    chosen_names = [name.casefold() for name in records.texts(chosen[good], 2)]
    names = {name: number for number, name in enumerate(dict.fromkeys(chosen_names))}
    return Inserts(
        record=chosen[good],
        block=np.array([names[name] for name in chosen_names], dtype=np.intp),
        names=tuple(names),
        outer=_outer(values[good], side[good]),
        scale=values[good, 2:4],
        grid=grid[good],
        step=values[good, 5:7],
        faults={int(chosen[index]): str(faults[index]) for index in bad},
    )


def _outer(values: Floats, side: Floats) -> Matrix:
    turn = np.radians(values[:, 4])
    cos, sin = np.cos(turn), np.sin(turn)
    x_axis = np.stack([side * cos, -side * sin, side * values[:, 0]], axis=1)
    return np.stack([x_axis, np.stack([sin, cos, values[:, 1]], axis=1)], axis=1)


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
    own: dict[str, Count],
    inserted: dict[str, dict[str, int]],
    drawing: str,
    blocks: dict[str, Block],
) -> dict[str, Count]:
    """Count what the drawing and every block that it reaches come to.

    Args:
        own: Curves that each block holds itself, by key; the drawing is one of them.
        inserted: Which blocks each inserts, and how many copies.
        drawing: Key of the drawing.
        blocks: The blocks, for their names.

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
        children = {block: copies for block, copies in inserted[key].items() if block in own}
        unknown = [block for block in children if block not in total]
        path[key] = None
        if unknown:
            cycle = next((block for block in unknown if block in path), None)
            if cycle is not None:
                raise ArtworkError(
                    f"block {blocks[cycle].name!r} contains itself, so its drawing never ends",
                    remedy="explode that block, or save the drawing without it",
                )
            waiting.extend(unknown)
            continue
        count = own[key]
        for block, copies in children.items():
            if total[block].curves:
                count = count.plus(copies, total[block])
        total[key] = count
        waiting.pop()
        del path[key]
    _refuse_excess(total[drawing], own[drawing])
    return total


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
