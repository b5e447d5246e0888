"""Count deflection: what one hole more or less buys, as the largest deflection for each number.

Every number of holes is proposed for anew, so that the figure is that of the holes a person gets
who asks for so many.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from holeplacer.errors import Cancelled, InputError
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose
from holeplacer.plan.plan import Plan
from holeplacer.rules import load_effects


@dataclass(frozen=True)
class CountDeflection:
    """One number of holes.

    Attributes:
        count: Number of holes, fixed ones included.
        max_deflection_mm: Largest deflection under the wind, whichever way it blows.
        utilisation: The greatest; None where none is known.
    """

    count: int
    max_deflection_mm: float
    utilisation: float | None


def count_deflections(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    counts: Iterable[int],
    *,
    progress: Callable[[float, str], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> tuple[CountDeflection, ...]:
    """Largest deflection of the best places for each number of holes.

    Args:
        plan: The plan; without a wind nothing is reckoned and nothing returned.
        outline: The cut outline.
        axis: Its medial axis.
        counts: Numbers of holes, fixed ones included; those that can't be placed are left out.
        progress: Told the share done and what is being done.
        cancelled: Asked now and then whether to stop.

    Raises:
        Cancelled: The person stopped the work.
    """
    if not load_effects.is_asked(plan):
        return ()
    wanted = tuple(counts)
    found: list[CountDeflection] = []
    for done, count in enumerate(wanted):
        if progress is not None:
            progress(done / len(wanted), f"deflection with {count} holes")
        if cancelled is not None and cancelled():
            raise Cancelled("stopped")
        try:
            made = propose.propose(plan, outline, axis, count=count, cancelled=cancelled)
        except InputError:
            continue  # too few for the pieces there are
        if made.count == count and made.max_deflection_mm is not None:
            found.append(CountDeflection(count, made.max_deflection_mm, made.utilisation))
    return tuple(found)
