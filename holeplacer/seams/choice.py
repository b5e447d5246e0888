"""Choice: the seams that divide the sign into the fewest sections that fit, at the least cost.

Every piece is solved by itself. Of every short stretch of axis the cheapest candidate is taken, and
among these the cheapest division is found (`parting`); with a charge on every seam the fewest seams
come first. On a piece without counters a seam more is a section more, so that this is the fewest
sections; round a counter two seams part one, and the number is told with a lower bound: cells of
which no two fit a sheet together each need a section of their own.
"""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from holeplacer.errors import Cancelled
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.seams import candidates, cells, cost, parting, sections, stock_fit, unfit
from holeplacer.seams.candidates import Candidates
from holeplacer.seams.cells import Cells
from holeplacer.seams.parting import Parting
from holeplacer.seams.stock_fit import Usable

SECONDS_A_SIGN = 3.0
"""Longest search, as time of the processor; then the best division so far is taken and the bound
is told. Large pieces get most of it."""

_STRETCH_MM = 16.0
_MOST_CUTS = 450

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class SeamChoice:
    """Seams for the whole sign.

    Attributes:
        seams: Those that stay, in the plan's order, then the new ones from left to right.
        sections: Number of sections.
        lower_bound: No division with seams on these candidates has fewer.
        proven: Whether the number is the least.
        weld_mm: Length of all welds.
        cost_mm: Weld and penalties of the new seams.
        least_cost: Whether the cost is proven the least for this many seams, to 0.01 %.
    """

    seams: tuple[Seam, ...]
    sections: int
    lower_bound: int
    proven: bool
    weld_mm: float
    cost_mm: float
    least_cost: bool


@dataclass(frozen=True, eq=False)
class _PieceChoice:
    rows: tuple[int, ...]
    sections: int
    bound: int
    cost_mm: float
    least: bool


def choose(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    *,
    progress: Callable[[float, str], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> SeamChoice:
    """The best seams for a plan; its fixed ones stay.

    Args:
        plan: Sheets, holes, limits, fixed seams.
        outline: The cut outline.
        axis: Its medial axis.
        progress: Told the share done and what is being done.
        cancelled: Asked now and then whether to stop.

    Raises:
        InputError: No sheet is given, or something can't be divided so that it fits.
        Cancelled: The person stopped the work.
    """
    sizes = unfit.usable_or_told(plan)
    every = candidates.candidates(plan, outline, axis)
    worth = cost.cost(every, plan.sections.seam_clear_mm)
    fixed = tuple(seam for seam in plan.seams if seam.fixed)
    end = time.thread_time() + SECONDS_A_SIGN
    large = [
        0.0 if stock_fit.fits(stock_fit.hull_of(piece.polygon), sizes) else piece.area_mm2
        for piece in outline.pieces
    ]
    found: list[_PieceChoice] = []
    for index, piece in enumerate(outline.pieces):
        if cancelled is not None and cancelled():
            raise Cancelled("the division was stopped", remedy="nothing was changed")
        if progress is not None:
            progress(index / len(outline.pieces), f"piece {index + 1} of {len(outline.pieces)}")
        share = large[index] / max(sum(large[index:]), 1.0)
        left = (end - time.thread_time()) * share

        def expired(until: float = time.thread_time() + max(left, 0.2)) -> bool:
            if cancelled is not None and cancelled():
                raise Cancelled("the division was stopped", remedy="nothing was changed")
            return time.thread_time() > until

        own = np.flatnonzero(every.piece == index)
        found.append(_of_piece(plan, piece.polygon, every, own, worth, fixed, sizes, expired))
    return _sign(outline, every, fixed, found)


def _of_piece(
    plan: Plan,
    polygon: Polygon,
    every: Candidates,
    own: NDArray[np.intp],
    worth: Floats,
    fixed: tuple[Seam, ...],
    sizes: tuple[Usable, ...],
    expired: Callable[[], bool],
) -> _PieceChoice:
    apart = sections.divided(polygon, fixed)
    fit = [stock_fit.fits(stock_fit.hull_of(part), sizes) for part in apart]
    if all(fit):
        return _PieceChoice((), len(apart), len(apart), 0.0, True)
    graph = cells.cells_of(polygon, every, thinned(every, own, worth), fixed, sizes)
    unfit.tell_unfit(plan, graph, every, sizes)
    best, exact = _best(graph, worth[graph.row], expired)
    count = int(graph.parts(best.cut).max()) + 1
    bound = count if exact else max(apart_bound(graph), sum(1 if fits else 2 for fits in fit))
    return _PieceChoice(tuple(graph.row[best.cut].tolist()), count, bound, best.cost, best.optimal)


def _best(graph: Cells, worth: Floats, expired: Callable[[], bool]) -> tuple[Parting, bool]:
    """The division with the fewest sections, then the cheapest; whether the number is proven."""
    trees = parting.Trees()
    uncut = graph.parts(np.zeros(len(worth), bool))
    loops = len(graph.joins) - len(graph) + int(uncut.max()) + 1
    found = []
    for charge in _charges(worth, loops):
        parted = parting.parting(graph, worth + charge, trees, expired)
        if parted is None:
            continue
        found.append(_priced(graph, worth, parted))
        if charge == 0.0 and found[-1][0] == apart_bound(graph):
            break
    if not found:
        found.append(_priced(graph, worth, parting.by_merging(graph, worth)))
    _, _, best = min(found, key=lambda item: item[:2])
    return best, best.optimal and loops == 0


def _charges(worth: Floats, loops: int) -> list[float]:
    """Charges on every seam to try: without loops the one that puts the number first."""
    if len(worth) == 0:
        return [1.0]
    most = float(worth.sum())
    return [most] if loops == 0 else [most, 0.0, float(np.median(worth))]


def _priced(graph: Cells, worth: Floats, parted: Parting) -> tuple[int, float, Parting]:
    """Number of sections, cost without charges, and the cuts at that cost."""
    real = float(worth[parted.cut].sum())
    count = int(graph.parts(parted.cut).max()) + 1
    return count, real, Parting(parted.cut, real, parted.optimal)


def apart_bound(graph: Cells) -> int:
    """Number of cells found of which no two fit a sheet together, a lower bound of sections."""
    best = 1
    middle = (graph.reach - np.roll(graph.reach, graph.reach.shape[1] // 2, axis=1)) / 2
    for direction in range(0, graph.reach.shape[1], 30):
        chosen: list[int] = []
        free = np.ones(len(graph), bool)
        order = np.argsort(middle[:, direction], kind="stable")
        for cell in order.tolist():
            if free[cell]:
                chosen.append(cell)
                both = np.maximum(graph.reach, graph.reach[cell])
                free &= ~graph.may_fit(both)
        best = max(best, len(chosen))
    return best


def thinned(every: Candidates, own: NDArray[np.intp], worth: Floats) -> NDArray[np.intp]:
    """The cheapest candidate of every short stretch, in order."""
    stretch = max(_STRETCH_MM, len(own) * candidates.PITCH_MM / _MOST_CUTS)
    place = np.floor(every.s[own] / stretch)
    order = np.lexsort((worth[own], place, every.branch[own]))
    keys = np.stack([every.branch[own][order], place[order]], axis=1)
    if len(keys) == 0:
        return own
    first = np.concatenate([[True], (keys[1:] != keys[:-1]).any(axis=1)])
    return np.sort(own[order[first]])


def _sign(
    outline: Outline,
    every: Candidates,
    fixed: tuple[Seam, ...],
    found: Sequence[_PieceChoice],
) -> SeamChoice:
    new = [every.seam(row) for part in found for row in part.rows]
    seams = fixed + tuple(sorted(new, key=lambda seam: seam.middle_mm))
    count = sum(part.sections for part in found)
    bound = sum(min(part.bound, part.sections) for part in found)
    return SeamChoice(
        seams=seams,
        sections=count,
        lower_bound=bound,
        proven=count == bound,
        weld_mm=float(sections.weld_lengths(outline, seams).sum()),
        cost_mm=sum(part.cost_mm for part in found),
        least_cost=all(part.least for part in found),
    )
