"""Sheet limits: what this sheet needs in this wind, solved backwards.

The largest spacing and overhang at which the fewest holes still bear the loads; the thinnest gauge
that the holes there are will do for; and, for a first idea, what a plain strip of the sheet spans.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import gauge_limit, spacing_limit, strip_span
from holeplacer.placement.gauge_limit import GaugeLimit
from holeplacer.placement.spacing_limit import SpacingLimit
from holeplacer.placement.watch import Watch
from holeplacer.plan.plan import Plan
from holeplacer.rules import load_effects

Progress = Callable[[float, str], None]

_SPACING_SHARE = 0.65
"""Share of the time that the spacing takes."""


@dataclass(frozen=True, eq=False)
class SheetLimits:
    """What the sheet bears.

    Attributes:
        strip_span_mm: What a plain strip of it spans.
        spacing: The largest spacing.
        gauge: The thinnest gauge; None where there are no holes, or no gauges of the metal.
    """

    strip_span_mm: float
    spacing: SpacingLimit
    gauge: GaugeLimit | None


def sheet_limits(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    *,
    progress: Progress | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> SheetLimits | None:
    """Largest spacing and overhang, and the thinnest gauge, under the plan's loads.

    Args:
        plan: The plan; the spacing is sought with its fixed holes, the gauge with all its holes.
        outline: The cut outline.
        axis: Its medial axis.
        progress: Told the share done and what is being done.
        cancelled: Asked now and then whether to stop.

    Returns:
        None where no wind is chosen.

    Raises:
        Cancelled: The person stopped the work.
        InputError: A figure of the wind is missing.
    """
    if not load_effects.is_asked(plan):
        return None
    first = _part(progress, 0.0, _SPACING_SHARE)
    spacing = spacing_limit.spacing_limit(
        plan, outline, axis, Watch(cancelled=cancelled, progress=first)
    )
    assert spacing is not None  # noqa: S101 (a wind is chosen)
    last = _part(progress, _SPACING_SHARE, 1.0)
    thinnest = gauge_limit.gauge_limit(
        plan, outline, axis, Watch(cancelled=cancelled, progress=last)
    )
    if progress is not None:
        progress(1.0, "done")
    return SheetLimits(strip_span.strip_span_mm(plan), spacing, thinnest)


def _part(progress: Progress | None, low: float, high: float) -> Progress | None:
    if progress is None:
        return None
    return lambda share, text: progress(low + share * (high - low), text)
