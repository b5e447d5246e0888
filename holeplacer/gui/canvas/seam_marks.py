"""Seam marks: what is seen of each seam, read from plan and findings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from holeplacer.gui.canvas.seam_symbol import SeamMark
from holeplacer.rules import seam_distance
from holeplacer.seams import seams
from holeplacer.units import LengthUnit, format_length

if TYPE_CHECKING:
    from holeplacer.evaluation.evaluate import Evaluation
    from holeplacer.plan.plan import Plan
    from holeplacer.plan.seam import Seam
    from holeplacer.rules.finding import Finding


def seam_marks(
    plan: Plan,
    evaluation: Evaluation | None,
    selected: frozenset[int],
    unit: LengthUnit,
) -> tuple[SeamMark, ...]:
    """A mark for each seam of a plan, in its order."""
    found = () if evaluation is None else evaluation.findings
    about = [item for item in found if item.rule in (seams.NAME, seam_distance.NAME)]
    return tuple(
        SeamMark(
            index=index,
            x_mm=seam.middle_mm[0],
            y_mm=seam.middle_mm[1],
            across_mm=((seam.x2_mm - seam.x1_mm) / 2, (seam.y2_mm - seam.y1_mm) / 2),
            fixed=seam.fixed,
            selected=index in selected,
            trouble=trouble(index, seam, about, unit),
        )
        for index, seam in enumerate(plan.seams)
    )


def trouble(index: int, seam: Seam, about: list[Finding], unit: LengthUnit) -> str:
    """What the findings say of one seam, the first of them; empty if they say nothing."""
    for item in about:
        if item.rule == seams.NAME and item.place.xy_mm == seam.middle_mm:
            if item.unit == "mm":
                return _figures(item, unit)
            return item.message.partition(f"Seam {index + 1} ")[2].partition(",")[0]
        if item.rule == seam_distance.NAME and f" seam {index + 1}," in item.message:
            return f"hole {item.place.index}: {_figures(item, unit)}"
    return ""


def _figures(item: Finding, unit: LengthUnit) -> str:
    value = format_length(max(item.value, 0.0), unit).removesuffix(f" {unit.value}")
    return f"{value} of {format_length(item.limit, unit)}"
