"""Alternatives: the two usual ways to divide a sign, to be weighed against the proposal.

Straight split: upright and level lines across the whole sign, as far apart as the sheet allows,
all columns of one width. Letters cut singly: at every stroke that joins two letters, whether or
not they would fit together. Both disregard the plan's seams.
"""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.seams import candidates, cells, choice, cost, sections, unfit
from holeplacer.seams import seams as seam_rule
from holeplacer.seams.candidates import Candidates
from holeplacer.seams.cells import Cells
from holeplacer.seams.stock_fit import Usable

STRAIGHT = "straight split"
LETTERS = "letters singly"

_LEAST_LETTER = 0.25
"""Least width and height of a letter by the height of its piece: an i of a slim script."""

_MOST_OVERLAP = 0.5
"""Two letters share no more than this of the narrower one's width."""

_LEVEL = math.cos(math.radians(50.0))
_LEAST_MM = 0.01


@dataclass(frozen=True, eq=False)
class Alternative:
    """One way to divide the sign, with its figures.

    Attributes:
        name: What it is called.
        seams: Where it cuts.
        sections: Number of sections.
        weld_mm: Length of all welds.
        too_near: Seams nearer a hole, tip or junction than entered.
        misfits: Sections that fit no sheet.
    """

    name: str
    seams: tuple[Seam, ...]
    sections: int
    weld_mm: float
    too_near: int
    misfits: int


def alternatives(plan: Plan, outline: Outline, axis: Axis) -> tuple[Alternative, ...]:
    """Straight split and letters cut singly.

    Raises:
        InputError: No sheet is given, or none has anything left within its margin.
    """
    sizes = unfit.usable_or_told(plan)
    return (
        measured(STRAIGHT, plan, outline, axis, straight_split(outline, sizes)),
        measured(LETTERS, plan, outline, axis, letters_singly(plan, outline, axis)),
    )


def measured(
    name: str, plan: Plan, outline: Outline, axis: Axis, seams: tuple[Seam, ...]
) -> Alternative:
    """The figures of any division."""
    parts = sections.sections(outline, seams, plan.holes)
    return Alternative(
        name=name,
        seams=seams,
        sections=len(parts),
        weld_mm=float(sections.weld_lengths(outline, seams).sum()),
        too_near=seam_rule.too_near(plan, axis, seams),
        misfits=len(seam_rule.misfits(plan.sections, parts)),
    )


def straight_split(outline: Outline, sizes: tuple[Usable, ...]) -> tuple[Seam, ...]:
    """Seams of the fewest equal columns and rows that fit a sheet, the least weld among equals."""
    left, bottom, right, top = outline.bounds_mm
    found: list[tuple[int, float, int, tuple[Seam, ...]]] = []
    for size in sizes:
        for width, height in _ways_round(size):
            columns = math.ceil((right - left) / width - 1e-9)
            rows = math.ceil((top - bottom) / height - 1e-9)
            seams = _along(outline, _lines(outline, max(columns, 1), max(rows, 1)))
            weld = sum(seam.length_mm for seam in seams)
            found.append((columns * rows, weld, len(found), seams))
    return min(found)[3]


def letters_singly(plan: Plan, outline: Outline, axis: Axis) -> tuple[Seam, ...]:
    """Seams at the strokes that join letters, from left to right.

    A joining stroke runs across rather than up, its cut alone parts the piece, and what lies left
    and right of it hardly overlaps. The cheapest cuts first, one in a stroke, each that leaves
    letters large enough on both sides. A piece without a junction is one stroke: one letter.
    """
    bare = edit.with_seams(plan, ())
    cuts = candidates.candidates(bare, outline, axis)
    worth = cost.cost(cuts, plan.sections.seam_clear_mm)
    found = []
    joined = set(axis.node_piece[axis.degree >= 3].tolist())
    for index, piece in enumerate(outline.pieces):
        if index not in joined:
            continue
        own = np.flatnonzero(cuts.piece == index)
        rows = choice.thinned(cuts, own, worth)
        graph = cells.cells_of(piece.polygon, cuts, rows, (), ())
        left, bottom, right, top = piece.bounds_mm
        least = _LEAST_LETTER * min(top - bottom, right - left)
        found += [cuts.seam(row) for row in _joins(graph, cuts, worth, least)]
    return tuple(sorted(found, key=lambda seam: seam.middle_mm))


def _ways_round(size: Usable) -> list[tuple[float, float]]:
    upright = (size.width_mm, size.height_mm)
    return [upright] if size.turning == "none" else [upright, upright[::-1]]


def _lines(outline: Outline, columns: int, rows: int) -> list[NDArray[np.float64]]:
    left, bottom, right, top = outline.bounds_mm
    across = left + (right - left) * np.arange(1, columns) / columns
    up = bottom + (top - bottom) * np.arange(1, rows) / rows
    return [
        *(np.array([(x, bottom - 1.0), (x, top + 1.0)]) for x in across),
        *(np.array([(left - 1.0, y), (right + 1.0, y)]) for y in up),
    ]


def _along(outline: Outline, lines: list[NDArray[np.float64]]) -> tuple[Seam, ...]:
    """A seam for every stretch of metal along the lines."""
    if not lines:
        return ()
    within = shapely.get_parts(shapely.intersection(shapely.linestrings(lines), outline.region))
    kept = within[(shapely.get_dimensions(within) == 1) & (shapely.length(within) > _LEAST_MM)]
    ends = [shapely.get_coordinates(line)[[0, -1]].ravel().tolist() for line in kept]
    return tuple(Seam(x1, y1, x2, y2) for x1, y1, x2, y2 in ends)


def _joins(
    graph: Cells, cuts: Candidates, worth: NDArray[np.float64], least_mm: float
) -> list[int]:
    """Rows of the cuts between letters."""
    chosen = np.zeros(len(graph.row), bool)
    bounds = shapely.bounds(graph.polygons)
    done: set[int] = set()
    for place in np.argsort(worth[graph.row], kind="stable").tolist():
        row = int(graph.row[place])
        if int(cuts.branch[row]) in done or not _upright(cuts, row):
            continue
        tried = chosen.copy()
        tried[place] = True
        part = graph.parts(tried)
        one, two = part[graph.joins[place]]
        if one != two and _are_letters(bounds[part == one], bounds[part == two], least_mm):
            chosen = tried
            done.add(int(cuts.branch[row]))
    return [int(row) for row in graph.row[chosen]]


def _upright(cuts: Candidates, row: int) -> bool:
    """Whether a cut stands rather than lies, so that its stroke runs across."""
    way = cuts.ends[row, 1] - cuts.ends[row, 0]
    return bool(abs(way[1]) >= _LEVEL * np.hypot(*way))


def _are_letters(one: NDArray[np.float64], two: NDArray[np.float64], least_mm: float) -> bool:
    """Whether two parts, given by the bounds of their cells, can be letters side by side."""
    low = np.array([one[:, :2].min(axis=0), two[:, :2].min(axis=0)])
    high = np.array([one[:, 2:].max(axis=0), two[:, 2:].max(axis=0)])
    if (high - low).min() < least_mm:
        return False
    shared = high[:, 0].min() - low[:, 0].max()
    return bool(shared <= _MOST_OVERLAP * (high - low)[:, 0].min())
