"""Count curve: what one hole more or less buys, as the largest span for each number of holes.

Each piece has its own curve; the next hole goes to the piece that is served worst. So the layout
for every number is the best there is for that number, pieces taken together.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import inf

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import piece_task, sharing
from holeplacer.placement.watch import Watch
from holeplacer.plan.plan import Plan
from holeplacer.rules import spacing

_SECONDS_A_PIECE = 2.0


@dataclass(frozen=True)
class CountPoint:
    """One number of holes.

    Attributes:
        count: Number of holes, fixed ones included.
        largest_span_mm: The spacing that so many holes can keep everywhere (with the overhang
            scaled alike), where metal allows.
        tightness: The same as a share of the plan's limits; above 1 a rule is broken.
    """

    count: int
    largest_span_mm: float
    tightness: float


def count_curve(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    counts: range,
    *,
    progress: Callable[[float, str], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> tuple[CountPoint, ...]:
    """Largest span for each number of holes, the number rising; too small ones left out.

    One hole more never makes it worse: if no better layout is found, the one before still stands,
    with a hole that nothing needs.

    Args:
        plan: The plan.
        outline: The cut outline.
        axis: Its medial axis.
        counts: Numbers of holes, fixed ones included.
        progress: Told the share done and what is being done.
        cancelled: Asked now and then whether to stop.

    Raises:
        Cancelled: The person stopped the work.
    """
    watch = Watch(_SECONDS_A_PIECE, cancelled, progress)
    tasks = piece_task.tasks_of(plan, outline, axis, watch)
    stays = sum(1 for hole in plan.holes if hole.fixed)
    shared = sharing.Sharing(tasks, watch)
    first = max(counts.start, shared.least + stays)
    points: list[CountPoint] = []
    if first >= counts.stop:
        return ()
    shared.start(first - stays)
    while shared.count + stays < counts.stop:
        count = shared.count + stays
        watch.tell((count - counts.start) / max(len(counts), 1), f"{count} holes")
        if count >= first:
            share = min(shared.tightness, points[-1].tightness if points else inf)
            points.append(CountPoint(count, share * spacing.limit(plan), share))
        if not shared.add():
            break
    return tuple(points)
