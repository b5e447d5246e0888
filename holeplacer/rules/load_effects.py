"""Load effects: what wind, weight and temperature do to a plan's sheet and standoffs.

Across the sheet: deflection and stress of every stroke and the pull and push on every standoff.
There the sign is linear, so that both ways of the wind come from one solution. In its plane: what
every hole pushes its stud with while the sign hangs, grows in the sun and shrinks in the cold.
"""

import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from holeplacer.loads import combination, effective_area, self_weight, wind
from holeplacer.loads.wind import DesignPressure
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.standoffs import stud
from holeplacer.structure import frame, grillage, handling, response, stroke_force
from holeplacer.structure.bearing_studs import Stud
from holeplacer.structure.frame import InPlane
from holeplacer.structure.grillage import Grillage
from holeplacer.structure.handling import Carried
from holeplacer.structure.response import Case, Response
from holeplacer.structure.sheet_stiffness import SheetStiffness
from holeplacer.wall import layers

Floats = NDArray[np.float64]

OUT, IN = "pressure out", "pressure in"
"""Cases: wind off the wall and on to it."""

WEIGHT, HOT, COLD = "weight", "weight, hottest", "weight, coldest"
"""Cases in the sign's plane."""

CALM = "no wind"
"""Where a standoff is worse off without wind."""

CARRIED = "carried by two hands"
"""Case before it hangs."""

_MPA = 1e-6
_NONE: Floats = np.empty((0, 0))

_MOST_METAL_MM2 = 0.5e6
"""No standoff carries the wind on half a square metre of metal; below 10 ft2 (ASCE 7) and 1 m2
(EN 1991-1-4) coefficients are at their greatest."""


@dataclass(frozen=True, eq=False)
class InPlaneCase:
    """One case in the sign's plane.

    Attributes:
        name: `WEIGHT`, `HOT` or `COLD`.
        result: What every hole pushes its stud with.
    """

    name: str
    result: InPlane

    def shear_n(self, index: int) -> float:
        """Force across the stud of a hole, without direction."""
        x, y = self.result.forces_n[index].tolist()
        return math.hypot(x, y)


@dataclass(frozen=True, eq=False)
class LoadEffects:
    """Loads on a plan. Compared by identity.

    Attributes:
        pressure: Off the wall and on to it, with all that led to it.
        grillage: The sign without its standoffs.
        wind: One response to each way of the wind, `OUT` first.
        in_plane: Weight by itself, then with heat and with cold, with the design method's factors
            in them; empty where only the wind was asked for.
        carried: Every piece carried flat by two hands, jerks counted; empty where that was not
            asked for.
        tensions_n: (c, n) force along the stroke at each hole in the cases in the plane.
    """

    pressure: DesignPressure
    grillage: Grillage
    wind: tuple[Response, ...]
    in_plane: tuple[InPlaneCase, ...]
    carried: tuple[Carried, ...]
    tensions_n: Floats

    @cached_property
    def shears_n(self) -> Floats:
        """(c, n) force across each hole's stud in the cases in the plane, without direction."""
        forces = np.array([case.result.forces_n for case in self.in_plane])
        shears: Floats = np.hypot(forces[..., 0], forces[..., 1])
        return shears

    def shear_n(self, index: int) -> tuple[str, float]:
        """The case that pushes most across the stud of a hole, and that force."""
        if not self.in_plane:
            return WEIGHT, 0.0
        worst = max(self.in_plane, key=lambda case: case.shear_n(index))
        return worst.name, worst.shear_n(index)


def is_asked(plan: Plan) -> bool:
    """Whether a wind was chosen; without one nothing is reckoned, since none is ever guessed."""
    return plan.loading.method != "none"


def design_pressure(plan: Plan) -> DesignPressure:
    """The wind a plan is designed for.

    A standard's coefficients fall with the area that a gust must fill. They are taken for a
    standoff whose spans are the greatest that are allowed, so that the wind does not change while
    holes are placed; but for no larger an area than a standoff's own share of metal can be.

    Raises:
        InputError: A figure is missing or can't be meant, or the place is beyond the standard.
    """
    area_mm2 = effective_area.fastener_area_mm2(plan.limits.spacing_mm, 0.0, _MOST_METAL_MM2)
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


def load_effects(
    plan: Plan, outline: Outline, axis: Axis, *, wind_only: bool = False
) -> LoadEffects:
    """Loads on a plan's holes.

    Args:
        plan: The plan; a wind is chosen.
        outline: Its cut outline.
        axis: Medial axis of that outline.
        wind_only: Leave out weight, temperature and handling, where places of holes are compared
            that these hardly tell apart.

    Raises:
        InputError: A figure is missing or can't be meant.
    """
    pressure = design_pressure(plan)
    sign = bare(plan, outline, axis)
    places = [(hole.x_mm, hole.y_mm) for hole in plan.holes]
    cases = (Case(OUT, pressure.out_pa * _MPA), Case(IN, -pressure.in_pa * _MPA))
    in_plane, tensions_n = ((), _NONE) if wind_only else _in_plane(plan, outline, axis, places)
    clamped = plan.loading.supports == "clamped"
    held = [place for place, hole in zip(places, plan.holes, strict=True) if hole.fastened]
    wind = response.respond(sign, held, cases, clamped=clamped, steadied=True)
    return LoadEffects(
        pressure=pressure,
        grillage=sign,
        wind=tuple(_with_glued(plan, case) for case in wind),
        in_plane=in_plane,
        carried=() if wind_only else _carried(plan, sign),
        tensions_n=tensions_n,
    )


def _with_glued(plan: Plan, case: Response) -> Response:
    """The response with an entry for every hole: a standoff that is glued only carries nothing."""
    held = _fastened(plan)
    if held.all():
        return case
    reactions, moments = np.zeros(len(held)), np.zeros((len(held), 2))
    reactions[held], moments[held] = case.reactions_n, case.moments_nmm
    moments.setflags(write=False)
    return replace(case, reactions_n=tuple(reactions.tolist()), moments_nmm=moments)


def _hung_with_glued(plan: Plan, found: InPlane) -> InPlane:
    """The same in the sign's plane."""
    held = _fastened(plan)
    if held.all():
        return found
    forces, movement = np.zeros((len(held), 2)), np.zeros((len(held), 2))
    forces[held], movement[held] = found.forces_n, found.movement_mm
    for array in (forces, movement):
        array.setflags(write=False)
    return replace(found, forces_n=forces, movement_mm=movement)


def _fastened(plan: Plan) -> NDArray[np.bool_]:
    """(n,) which standoffs a fastener holds in the wall."""
    return np.array([hole.fastened for hole in plan.holes], bool)


def _carried(plan: Plan, sign: Grillage) -> tuple[Carried, ...]:
    loading, metal = plan.loading, plan.sheet.material
    if not loading.handling:
        return ()
    pressure_pa = self_weight.carried_pa(
        metal.density_kg_m3, plan.sheet.thickness_mm, loading.handling_factor
    )
    return tuple(item.times(pressure_pa * _MPA) for item in handling.carried(sign))


def _in_plane(
    plan: Plan, outline: Outline, axis: Axis, places: list[tuple[float, float]]
) -> tuple[tuple[InPlaneCase, ...], Floats]:
    """The cases in the plane, and the force along the stroke at each hole in each of them."""
    metal, felt = plan.sheet.material, plan.loading.temperature
    sheet = SheetStiffness(
        metal.bearing_thickness_mm(plan.sheet.thickness_mm), metal.elastic_mpa, metal.shear_mpa
    )
    hung = frame.frame(
        outline,
        axis,
        thickness_mm=sheet.thickness_mm,
        elastic_mpa=sheet.elastic_mpa,
        shear_mpa=sheet.shear_mpa,
    )
    changes = (
        (WEIGHT, 0.0),
        (HOT, felt.highest_c - felt.installation_c),
        (COLD, felt.lowest_c - felt.installation_c),
    )
    weight_mpa = _weight_mpa(plan)
    expansion = combination.thermal_factor(plan.loading).value * metal.expansion_per_k
    held = [place for place, hole in zip(places, plan.holes, strict=True) if hole.fastened]
    hanging = frame.hang_through(
        hung,
        held,
        stud_of(plan),
        weight_mpa=weight_mpa,
        strains=[expansion * kelvin for _, kelvin in changes],
    )
    results = [_hung_with_glued(plan, found) for found in hanging]
    cases = tuple(
        InPlaneCase(name, result) for (name, _), result in zip(changes, results, strict=True)
    )
    return cases, stroke_force.pulls(hung, axis, sheet, places, results, weight_mpa=weight_mpa)


def _weight_mpa(plan: Plan) -> float:
    """Weight by area with the design method's greatest factor; nothing where it doesn't count."""
    if not plan.loading.gravity:
        return 0.0
    density = plan.sheet.material.density_kg_m3
    weight_pa = self_weight.area_weight_pa(density, plan.sheet.thickness_mm)
    return weight_pa * _MPA * combination.dead_factor(plan.loading).value


def stud_of(plan: Plan) -> Stud:
    """A standoff's stud as the sheet feels it: its thread's root out on the projection.

    The room in its hole is what the finish leaves of it; the smallest hole speaks for all. What
    barrel and cap hold it upright with is not counted on.
    """
    standoff = plan.standoff
    smallest = min((plan.diameter_of(hole) for hole in plan.holes), default=standoff.hole_mm)
    left = smallest - 2 * plan.sheet.finish_mm - standoff.stud_mm
    return Stud(
        diameter_mm=stud.thread(standoff.stud_mm).root_mm,
        projection_mm=lever_mm(plan),
        elastic_mpa=stud.stud_material(standoff.stud_material).elastic_mpa,
        room_mm=max(left / 2, 0.0),
    )


def lever_mm(plan: Plan) -> float:
    """How far a stud reaches from where the wall holds it to the sheet, soft layers included."""
    return layers.lever_arm_mm(plan.wall, plan.standoff.projection_mm)
