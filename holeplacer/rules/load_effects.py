"""Load effects: what wind does to the sheet of a plan, and its standoffs answer.

Deflection and stress of every stroke and the pull and push on every standoff, by the grillage of
the cut outline. The sign is linear, so that both ways of the wind come from one solution.
"""

from dataclasses import dataclass

from holeplacer.loads import effective_area, wind
from holeplacer.loads.wind import DesignPressure
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.structure import grillage, response
from holeplacer.structure.grillage import Grillage
from holeplacer.structure.response import Case, Response

OUT, IN = "pressure out", "pressure in"
"""Cases: wind off the wall and on to it."""

_MPA = 1e-6


@dataclass(frozen=True, eq=False)
class LoadEffects:
    """Wind on a plan. Compared by identity.

    Attributes:
        pressure: Off the wall and on to it, with all that led to it.
        grillage: The sign without its standoffs.
        wind: One response to each way of the wind, `OUT` first.
    """

    pressure: DesignPressure
    grillage: Grillage
    wind: tuple[Response, ...]


def is_asked(plan: Plan) -> bool:
    """Whether a wind was chosen; without one nothing is reckoned, since none is ever guessed."""
    return plan.loading.method != "none"


def design_pressure(plan: Plan) -> DesignPressure:
    """The wind a plan is designed for.

    A standard's coefficients fall with the area that a gust must fill. They are taken for a
    standoff whose spans are the greatest that are allowed, so that the wind does not change while
    holes are placed.

    Raises:
        InputError: A figure is missing or can't be meant, or the place is beyond the standard.
    """
    area_mm2 = effective_area.effective_area_mm2(plan.limits.spacing_mm, 0.0)
    return wind.design_pressure(
        plan.loading, effective_area_mm2=area_mm2, gap_mm=plan.standoff.projection_mm
    )


def bare(plan: Plan, outline: Outline, axis: Axis) -> Grillage:
    """The sign without its standoffs, built once for an outline and a sheet.

    Raises:
        InputError: Nothing of the sheet's thickness carries load.
    """
    metal = plan.sheet.material
    return grillage.grillage(
        outline,
        axis,
        thickness_mm=metal.bearing_thickness_mm(plan.sheet.thickness_mm),
        elastic_mpa=metal.elastic_mpa,
        shear_mpa=metal.shear_mpa,
    )


def load_effects(plan: Plan, outline: Outline, axis: Axis) -> LoadEffects:
    """Wind on a plan's holes.

    Args:
        plan: The plan; a wind is chosen.
        outline: Its cut outline.
        axis: Medial axis of that outline.

    Raises:
        InputError: A figure is missing or can't be meant.
    """
    pressure = design_pressure(plan)
    sign = bare(plan, outline, axis)
    cases = (Case(OUT, pressure.out_pa * _MPA), Case(IN, -pressure.in_pa * _MPA))
    return LoadEffects(
        pressure=pressure,
        grillage=sign,
        wind=response.respond(
            sign,
            [(hole.x_mm, hole.y_mm) for hole in plan.holes],
            cases,
            clamped=plan.loading.supports == "clamped",
            steadied=True,
        ),
    )
