"""Figures of the seam in hand, each beside its limit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from holeplacer.gui.canvas.plate import Line
from holeplacer.seams import crossing
from holeplacer.units import LengthUnit, format_length

if TYPE_CHECKING:
    from holeplacer.evaluation.layout import Layout
    from holeplacer.plan.plan import Plan
    from holeplacer.plan.seam import Seam


def seam_lines(plan: Plan, layout: Layout, seam: Seam, unit: LengthUnit) -> tuple[Line, ...]:
    """Weld length; then the nearest hole, tip and junction, nearest to its limit."""
    weld = Line("weld length", format_length(seam.length_mm, unit))
    room = crossing.room(plan, layout.axis, seam)
    return (
        weld,
        *(
            Line(
                f"to {'the ' if not item.what[-1].isdigit() else ''}{item.what}",
                format_length(max(item.value_mm, 0.0), unit),
                f"≥ {format_length(item.least_mm, unit)}",
                broken=item.short,
            )
            for item in room
        ),
    )
