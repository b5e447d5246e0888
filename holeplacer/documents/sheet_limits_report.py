"""Sheet limits report: the largest spacing and the thinnest gauge, where they were asked for.

Part of the report (`report`); lengths in mm. Estimates for planning, not an approval.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import msgspec

if TYPE_CHECKING:  # placing is slow to load, and not every report asks it
    from holeplacer.placement.sheet_limits import SheetLimits
    from holeplacer.placement.verdict import Verdict


class GovernsReport(msgspec.Struct, frozen=True):
    """The limit state nearest to failing.

    Attributes:
        check: The limit state; empty where nothing holds the sheet.
        hole: Number of the hole, as numbered in that trial; null: the sheet.
        value: Demand over resistance, at most 1 where it passes; null without any.
        not_judged: Limit states whose resistance is not known.
        status: `from memory, verify` where that is so; else empty.
    """

    check: str
    hole: int | None
    value: float | None
    not_judged: tuple[str, ...]
    status: str


class SheetLimitsReport(msgspec.Struct, frozen=True):
    """What this sheet bears in this wind.

    Attributes:
        strip_span_mm: What a plain strip spans; null: any length.
        spacing_enough: Whether there is a spacing that does.
        spacing_mm, overhang_mm: The largest; else the closest tried.
        count: Number of holes there.
        governs: What all loads do to them.
        fails_mm: Nearest greater spacing tried, which fails; null where none does.
        fails: How.
        gauge: The thinnest gauge with the plan's present holes; null where none will do, there are
            no holes, or no gauges of the metal.
        thickness_mm: Its thickness.
        gauge_governs: What all loads do in it, or in the thickest where none will do.
        thinner_gauge: The next thinner, which fails; null where even the thinnest passes.
        thinner_fails: How.
    """

    strip_span_mm: float | None
    spacing_enough: bool
    spacing_mm: float
    overhang_mm: float
    count: int
    governs: GovernsReport
    fails_mm: float | None
    fails: GovernsReport | None
    gauge: int | None
    thickness_mm: float | None
    gauge_governs: GovernsReport | None
    thinner_gauge: int | None
    thinner_fails: GovernsReport | None


def sheet_limits_report(found: SheetLimits | None) -> SheetLimitsReport | None:
    """Null where it was not asked for."""
    if found is None:
        return None
    spacing, best = found.spacing, found.gauge
    taken = best.gauge if best and best.enough else None
    return SheetLimitsReport(
        strip_span_mm=found.strip_span_mm if math.isfinite(found.strip_span_mm) else None,
        spacing_enough=spacing.enough,
        spacing_mm=spacing.spacing_mm,
        overhang_mm=spacing.overhang_mm,
        count=len(spacing.holes),
        governs=_governs(spacing.verdict),
        fails_mm=spacing.beyond_mm,
        fails=_governs(spacing.beyond) if spacing.beyond else None,
        gauge=taken.number if taken else None,
        thickness_mm=taken.thickness_mm if taken else None,
        gauge_governs=_governs(best.verdict) if best else None,
        thinner_gauge=best.thinner.number if best and best.thinner else None,
        thinner_fails=_governs(best.beyond) if best and best.beyond else None,
    )


def _governs(said: Verdict) -> GovernsReport:
    state, share = said.governs, said.utilisation
    if state is None:
        return GovernsReport("", None, None, said.not_judged, "")
    value = share if math.isfinite(share) else None
    item = state.utilisation
    return GovernsReport(item.check, state.hole or None, value, said.not_judged, item.caveat)
