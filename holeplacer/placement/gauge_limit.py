"""Gauge limit: the thinnest gauge of the plan's metal in which its present holes bear the loads."""

from __future__ import annotations

from dataclasses import dataclass, replace

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import verdict
from holeplacer.placement.verdict import Verdict
from holeplacer.placement.watch import Watch
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.rules import load_effects
from holeplacer.sheet import gauge
from holeplacer.sheet.gauge import Gauge

_POWER = 2.5
"""Stress goes with the second power of the thickness, deflection with the third."""


@dataclass(frozen=True, eq=False)
class GaugeLimit:
    """The thinnest gauge that bears the loads with the holes where they are.

    Attributes:
        enough: Whether there is one; else `gauge` is the thickest, and `verdict` says what fails.
        gauge: The row of the gauge table.
        verdict: What all loads do in this gauge.
        thinner: The next thinner gauge, which fails; None where even the thinnest passes.
        beyond: How it fails.
    """

    enough: bool
    gauge: Gauge
    verdict: Verdict
    thinner: Gauge | None = None
    beyond: Verdict | None = None

    def taken(self, plan: Plan) -> Plan:
        """The plan with this gauge."""
        return edit.with_sheet(plan, with_gauge(plan, self.gauge).sheet)


def with_gauge(plan: Plan, row: Gauge) -> Plan:
    """The plan in another gauge of its metal."""
    sheet = replace(plan.sheet, gauge=row.number, thickness_mm=row.thickness_mm)
    return replace(plan, sheet=sheet)


def gauge_limit(
    plan: Plan, outline: Outline, axis: Axis, watch: Watch | None = None
) -> GaugeLimit | None:
    """The thinnest gauge in which the plan's present holes, unmoved, bear the loads.

    Only strength is asked; process limits and edge distances may ask for others. The answer is
    held to every limit state under all loads, and so is the next thinner gauge until it fails.

    Args:
        plan: The plan with its holes.
        outline: The cut outline.
        axis: Its medial axis.
        watch: Told the progress; stops the work.

    Returns:
        None where no wind is chosen, there are no holes, or the metal has no gauges.

    Raises:
        Cancelled: The person stopped the work.
        InputError: A figure of the wind is missing.
    """
    if not (plan.holes and load_effects.is_asked(plan)):
        return None
    load_effects.design_pressure(plan)  # a missing figure is told before any gauge is tried
    metal = plan.sheet.material
    rows = [
        row
        for row in gauge.gauges(metal.gauge_series)  # thickest first
        if metal.bearing_thickness_mm(row.thickness_mm) > 0
    ]
    if not rows:
        return None
    return _Search(plan, outline, axis, watch or Watch()).thinnest(rows)


class _Search:
    """Tries gauges, beginning where the present sheet's utilisation points."""

    def __init__(self, plan: Plan, outline: Outline, axis: Axis, watch: Watch) -> None:
        self._plan, self._outline, self._axis, self._watch = plan, outline, axis, watch
        self._tried: dict[int, Verdict] = {}

    def thinnest(self, rows: list[Gauge]) -> GaugeLimit:
        at = self._begin(rows)
        while not self._says(rows[at]).passes:
            if at == 0:
                return GaugeLimit(False, rows[0], self._says(rows[0]))
            at -= 1
        while at + 1 < len(rows) and self._says(rows[at + 1]).passes:
            at += 1
        if at + 1 == len(rows):
            return GaugeLimit(True, rows[at], self._says(rows[at]))
        thinner = rows[at + 1]
        return GaugeLimit(True, rows[at], self._says(rows[at]), thinner, self._says(thinner))

    def _begin(self, rows: list[Gauge]) -> int:
        """The gauge nearest to the thickness at which the greatest utilisation should be 1."""
        self._watch.tell(0.0, "asking the present sheet")
        share = verdict.verdict(self._plan, self._outline, self._axis).utilisation
        wanted = self._plan.sheet.thickness_mm * min(max(share, 1e-2), 1e2) ** (1 / _POWER)
        return min(range(len(rows)), key=lambda at: abs(rows[at].thickness_mm - wanted))

    def _says(self, row: Gauge) -> Verdict:
        """What loads do in a gauge: the wind first, which is quicker and mostly decides."""
        if row.number not in self._tried:
            done = 1 - 0.6 ** (1 + len(self._tried))
            self._watch.tell(done, f"trying {row.number} gauge, {row.thickness_mm:.2f} mm")
            tried = with_gauge(self._plan, row)
            said = verdict.verdict(tried, self._outline, self._axis, wind_only=True)
            if said.passes:
                self._watch.look()
                said = verdict.verdict(tried, self._outline, self._axis)
            self._tried[row.number] = said
        return self._tried[row.number]
