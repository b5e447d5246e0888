"""Preparation: what is done to the edges of a seam before it is welded.

Common practice, no source: sheet up to about 3 mm is welded with square edges, thicker metal is
bevelled so that the weld goes through; up to twice that a square seam still goes through if it is
welded from both sides. A plasma cut is ground bright first: its skin of nitride and oxide makes
pores.
"""

from holeplacer.plan.plan import Plan
from holeplacer.units import LengthUnit, format_length

SQUARE_TO_MM = 3.0
"""Up to this thickness square edges are welded through from one side."""

_BOTH_SIDES_TO_MM = 6.0
_ROOT_FACE_MM = 1.5
_BEVEL_DEG = 30
_BRIGHT_MM = 25.0
_THERMAL = ("plasma", "laser")


def notes(plan: Plan, unit: LengthUnit = LengthUnit.MM) -> tuple[str, ...]:
    """Sentences for the shop.

    Args:
        plan: Its sheet, finish, process and how its seams are prepared.
        unit: What lengths are shown in.
    """
    thick = plan.sheet.thickness_mm
    found = [_edges(plan, unit), _gap(plan, unit)]
    if plan.sheet.process in _THERMAL:
        found.append("Grind the cut faces bright before welding, and take off all dross")
    if plan.sections.preparation == "square" and thick > SQUARE_TO_MM:
        found.append(_too_thick(thick, unit))
    if plan.sheet.material.coating_mm > 0:
        found.append(
            f"Grind the zinc off {format_length(_BRIGHT_MM, unit)} to either side, front and "
            "back; its fume is harmful: air and mask"
        )
    found.append("Grind the front flush only after the whole sign has cooled")
    return tuple(found)


def _edges(plan: Plan, unit: LengthUnit) -> str:
    thick = plan.sheet.thickness_mm
    if plan.sections.preparation == "square":
        return f"Edges square, as cut, {format_length(thick, unit)} thick"
    if thick <= SQUARE_TO_MM:
        return (
            f"Bevel wanted, but {format_length(thick, unit)} is thin enough to weld square: break "
            "the edges only"
        )
    face = min(_ROOT_FACE_MM, thick / 2)
    return (
        f"Grind each edge to {_BEVEL_DEG} degrees ({2 * _BEVEL_DEG} between both), "
        f"{format_length(thick - face, unit)} deep, a root face of {format_length(face, unit)} left"
    )


def _gap(plan: Plan, unit: LengthUnit) -> str:
    gap = plan.sections.root_gap_mm
    if gap > 0:
        return (
            f"Root gap {format_length(gap, unit)}: half of it is taken off either section already; "
            "set it with a shim"
        )
    return "No root gap in the drawings: sections meet edge to edge"


def _too_thick(thick_mm: float, unit: LengthUnit) -> str:
    if thick_mm <= _BOTH_SIDES_TO_MM:
        return (
            f"{format_length(thick_mm, unit)} with square edges is not welded through from one "
            "side: weld both, or bevel"
        )
    return f"{format_length(thick_mm, unit)} is too thick for square edges: bevel them"
