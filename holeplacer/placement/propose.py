"""Propose: holes for the whole sign, the fewest that keep the rules, or the best for a number.

"Fewest" is meant among holes on the medial axis (a dot without room for two on its axis may get
two beside it). Every piece is solved by itself: no way leads from one to another. The count is
proven where the lower bound equals it; else both are given. Where a wind is chosen, holes are
added, taken away and slid until the sheet bears it (`strengthening`).
"""

from collections.abc import Callable
from dataclasses import dataclass
from time import perf_counter

import numpy as np

from holeplacer.errors import InputError
from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import piece_holes, piece_task, sharing, strengthening
from holeplacer.placement.piece_holes import PieceHoles
from holeplacer.placement.piece_task import PieceTask
from holeplacer.placement.unsupported import Unsupported
from holeplacer.placement.watch import Watch
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import spacing

SECONDS_A_PIECE = 5.0
"""Longest search for the proof of one piece's count; then count and bound are both told."""

_TRIES = 3
"""Tighter covers asked for in each piece, to place its holes better."""

_SLACK = 1e-6


@dataclass(frozen=True, eq=False)
class Proposal:
    """Holes for the whole sign.

    Attributes:
        holes: Those that stay, with their numbers, and the new ones, numbered from left to
            right; in order of number.
        count: Number of holes.
        lower_bound: No layout on the axis that keeps the rules has fewer.
        proven: Whether the count is the least there can be, all rules kept.
        unsupported: What no hole can hold, the longest stretch first, with ways out.
        unheld: Indices of pieces that can turn, since they have no room for two holes apart.
        tightness: Share of spacing and overhang at which everything is just served.
        seconds: How long it took.
        utilisation: The greatest, where a wind is chosen; above 1 more holes don't help.
        max_deflection_mm: The greatest, likewise.
    """

    holes: tuple[Hole, ...]
    count: int
    lower_bound: int
    proven: bool
    unsupported: tuple[Unsupported, ...]
    unheld: tuple[int, ...]
    tightness: float
    seconds: float
    utilisation: float | None = None
    max_deflection_mm: float | None = None

    @property
    def new(self) -> tuple[Hole, ...]:
        """The proposed holes without those that stay."""
        return tuple(hole for hole in self.holes if not hole.fixed)


def propose(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    *,
    count: int | None = None,
    near: tuple[Hole, ...] = (),
    progress: Callable[[float, str], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Proposal:
    """Holes for a plan: the fewest that keep every rule, or the best places for a number.

    Args:
        plan: Its limits and hardware, and its fixed holes, which stay and count.
        outline: The cut outline.
        axis: Its medial axis.
        count: Number of holes wanted, fixed ones included; None for the fewest.
        near: Holes of an earlier proposal; where as few will still do, they are slid, not
            reshuffled.
        progress: Told the share done and what is being done.
        cancelled: Asked now and then whether to stop.

    Raises:
        Cancelled: The person stopped the work.
        InputError: The number wanted is too small for the pieces and fixed holes there are.
    """
    begun = perf_counter()
    watch = Watch(SECONDS_A_PIECE, cancelled, progress)
    fixed = tuple(hole for hole in plan.holes if hole.fixed)
    tasks = piece_task.tasks_of(plan, outline, axis, watch)
    if count is None:
        solved = _fewest(tasks, _places(near), outline, watch)
    else:
        solved = _counted(tasks, count - len(fixed), watch)
    holes = _numbered(fixed, [part.centres for part in solved])
    bound = len(fixed) + sum(min(part.bound, len(part.centres)) for part in solved)
    strong = strengthening.strengthened(
        edit.with_holes(plan, holes), outline, axis, watch, may_add=count is None
    )
    if strong is not None:
        holes = strong.holes
    watch.tell(1.0, "done")
    return Proposal(
        holes=holes,
        count=len(holes),
        lower_bound=bound,
        proven=bound == len(holes) and (count is None or _all_kept(tasks, solved)),
        unsupported=tuple(
            sorted((u for part in solved for u in part.unsupported), key=lambda u: -u.length_mm)
        ),
        unheld=tuple(part.piece for part in solved if not part.held),
        tightness=max((part.tightness for part in solved), default=0.0),
        seconds=perf_counter() - begun,
        utilisation=strong.utilisation if strong else None,
        max_deflection_mm=strong.max_deflection_mm if strong else None,
    )


def _fewest(
    tasks: tuple[PieceTask, ...], near: Points, outline: Outline, watch: Watch
) -> list[PieceHoles]:
    piece_of = outline.piece_at(near) if len(near) else np.empty(0, np.intp)
    length = [max(job.axis.length_mm, 1.0) for job in tasks]
    done, solved = 0.0, []
    for job, own in zip(tasks, length, strict=True):
        watch.tell(done / sum(length), f"piece {job.piece.piece + 1} of {len(tasks)}")
        here = near[piece_of == job.piece.piece]
        solved.append(piece_holes.solve(job, here, watch, tries=_TRIES))
        done += own
    return solved


def _counted(tasks: tuple[PieceTask, ...], count: int, watch: Watch) -> list[PieceHoles]:
    """Best places for a number of new holes, given out to the pieces where they help most."""
    shared = sharing.Sharing(tasks, watch)
    if count < shared.least:
        raise InputError(
            f"{count} new holes are too few",
            where="number of holes",
            remedy=f"the pieces that can take holes need {shared.least} at least",
        )
    shared.start(count)
    while shared.count < count and shared.add():
        pass
    return shared.holes()


def _all_kept(tasks: tuple[PieceTask, ...], solved: list[PieceHoles]) -> bool:
    """Whether a given number of holes keeps the limits, and every piece that can be held."""
    can_hold = {job.piece.piece for job in tasks if job.owed.base_mm is not None}
    return all(
        part.tightness <= 1.0 + _SLACK and (part.held or part.piece not in can_hold)
        for part in solved
    )


def _numbered(fixed: tuple[Hole, ...], centres: list[Points]) -> tuple[Hole, ...]:
    """New holes take the free numbers from left to right."""
    xy = np.concatenate([np.empty((0, 2)), *centres])
    taken = {hole.number for hole in fixed}
    free = (number for number in range(1, len(xy) + len(fixed) + 1) if number not in taken)
    new = tuple(
        Hole(number, float(xy[index, 0]), float(xy[index, 1]))
        for number, index in zip(free, np.lexsort((xy[:, 1], xy[:, 0])), strict=False)
    )
    return tuple(sorted(fixed + new, key=lambda hole: hole.number))


def _places(holes: tuple[Hole, ...]) -> Points:
    return np.array([(hole.x_mm, hole.y_mm) for hole in holes]).reshape(-1, 2)


def largest_span_mm(plan: Plan, proposal: Proposal) -> float:
    """Twice the greatest way from any supported axis point to its hole, at most, mm."""
    return proposal.tightness * spacing.limit(plan)
