"""Limit states: every load effect of a plan beside the resistance it meets.

One entry for each limit state and hole, worst case taken, and one for each of the whole sign. The
formulas and their sources are those of `resistance`; here is said which force goes into which.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cached_property, lru_cache, partial

import numpy as np

from holeplacer.loads import combination
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.resistance import (
    anchorage,
    bearing,
    bending,
    deflection,
    net_section,
    pull_over,
    pull_over_with_shear,
    sheet_grade,
    stud,
    tear_out,
    utilisation,
)
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.stud import StudGrade
from holeplacer.resistance.utilisation import Utilisation
from holeplacer.rules import span_deflection
from holeplacer.rules.load_effects import CARRIED, LoadEffects
from holeplacer.rules.spacing import Spans
from holeplacer.rules.span_deflection import SideDeflection
from holeplacer.structure.response import Response


@dataclass(frozen=True)
class LimitState:
    """One limit state in one place of a plan.

    While a hole is dragged all of them are asked for their share many times a second, and few for
    more: what a share comes from is worked out when it is wanted.

    Attributes:
        hole: Number of the hole it is about; 0: of the sheet.
        at_mm: Where.
        case: The load case that governs it.
        share: Load effect over resistance; None where the resistance is not known.
        reckoned: Gives `utilisation`.
    """

    hole: int
    at_mm: tuple[float, float]
    case: str
    share: float | None
    reckoned: Callable[[], Utilisation] = field(repr=False, compare=False)

    @cached_property
    def utilisation(self) -> Utilisation:
        """Load effect, resistance, and all they came from."""
        return self.reckoned()

    @classmethod
    def of(
        cls, hole: int, at_mm: tuple[float, float], case: str, result: Utilisation
    ) -> "LimitState":
        """One that is worked out already."""
        return cls(hole, at_mm, case, result.utilisation, lambda: result)


def limit_states(
    plan: Plan, outline: Outline, axis: Axis, spans: Spans, effects: LoadEffects
) -> tuple[LimitState, ...]:
    """All limit states: the sheet's first, then hole by hole in the plan's order.

    Args:
        plan: The plan; a wind is chosen.
        outline: Its cut outline.
        axis: Medial axis of its cut outline.
        spans: How its holes stand along the axis.
        effects: What its loads do.
    """
    sheet = grade(plan.sheet, plan.loading)
    return (
        *_of_sheet(plan, axis, spans, effects, sheet),
        *_of_holes(plan, outline, axis, spans, effects, sheet),
    )


def carried(plan: Plan, effects: LoadEffects) -> LimitState | None:
    """The piece that two hands bend most, carrying it flat; None where that was not asked for.

    It stands apart from the others: a sheet that can't be carried so may be carried otherwise, and
    hang as well as any.
    """
    if not effects.carried:
        return None
    held = max(effects.carried, key=lambda piece: piece.stress_mpa)
    result = bending.check(grade(plan.sheet, plan.loading), held.stress_mpa)
    return LimitState.of(0, held.stress_at_mm, CARRIED, result)


@lru_cache(maxsize=8)
def grade(sheet: SheetChoice, loading: Loading) -> SheetGrade:
    """The sheet as the limit states see it.

    Raises:
        InputError: Nothing of its thickness carries load.
    """
    return sheet_grade.of_metal(sheet.material, sheet.thickness_mm, loading.design_method)


# --- the sheet ---


def _of_sheet(
    plan: Plan, axis: Axis, spans: Spans, effects: LoadEffects, sheet: SheetGrade
) -> Iterator[LimitState]:
    worst = max(effects.wind, key=lambda response: response.max_stress_mpa)
    result = bending.check(sheet, worst.max_stress_mpa)
    yield LimitState.of(0, worst.stress_at_mm, worst.name, result)
    worst = max(effects.wind, key=lambda response: response.max_deflection_mm)
    # Stiffness is judged under a lighter wind than strength, where the standard says so.
    share = combination.wind_factor(plan.loading, "deflection").value / effects.pressure.factor
    limit_mm = plan.loading.deflection_limit_mm
    if limit_mm is not None:
        result = deflection.check_limit(share * worst.max_deflection_mm, limit_mm)
        yield LimitState.of(0, worst.at_mm, worst.name, result)
        return
    sides = span_deflection.side_deflections(axis, spans, effects.grillage.ways, worst)
    most = max(sides, key=lambda side: _allowed_share(side, plan.loading), default=None)
    if most is not None:
        number = plan.holes[most.hole].number
        result = _of_side(most, plan.loading, share)
        yield LimitState.of(number, most.at_mm, worst.name, result)


def _allowed_share(side: SideDeflection, loading: Loading) -> float:
    return side.deflection_mm * _ratio(side, loading) / _length_mm(side)


def _of_side(side: SideDeflection, loading: Loading, share: float) -> Utilisation:
    return deflection.check_ratio(
        share * side.deflection_mm, _length_mm(side), _ratio(side, loading), overhang=side.overhang
    )


def _ratio(side: SideDeflection, loading: Loading) -> float:
    return loading.overhang_ratio if side.overhang else loading.deflection_ratio


def _length_mm(side: SideDeflection) -> float:
    return side.length_mm if side.overhang else 2 * side.length_mm


# --- the holes ---


@dataclass(frozen=True)
class _Forces:
    """What one standoff carries.

    Attributes:
        pull: Off the wall, on its cap, with its case.
        push: On to the wall, on its barrel, with its case.
        shear: Across its stud, with its case.
    """

    pull: tuple[str, float]
    push: tuple[str, float]
    shear: tuple[str, float]

    @property
    def together(self) -> str:
        """The cases of pull and shear, where both count."""
        return f"{self.pull[0]} + {self.shear[0]}"


_Found = tuple[str, float | None, Callable[[], Utilisation]]
"""Case, share, and what works out the rest: a limit state but for its hole."""


def _of_holes(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    spans: Spans,
    effects: LoadEffects,
    sheet: SheetGrade,
) -> Iterator[LimitState]:
    clearance = ways.clearances(axis, spans.feet)
    places = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes]).reshape(-1, 2)
    edges = outline.edge_distance(places)
    standoff = plan.standoff
    made = stud.grade(standoff.stud_material, standoff.stud_mm, plan.loading.design_method)
    for index, hole in enumerate(plan.holes):
        forces = _forces(effects, index)
        place = _place(plan, hole, float(edges[index]))
        found: list[_Found] = []
        if place is not None:
            ends = bool((spans.next_hole[index] < 0).any())
            found += _of_sheet_at(plan, sheet, place, forces, at_end=ends)
        found += _of_standoff(plan, made, forces)
        if spans.counts[index]:
            width_mm, hole_mm = 2 * float(clearance[index]), plan.diameter_of(hole)
            case, stress_mpa = _stress_at(spans, effects, index, hole_mm)
            found.append(_net_section(sheet, width_mm, hole_mm, case, stress_mpa))
        for case, share, reckoned in found:
            yield LimitState(hole.number, (hole.x_mm, hole.y_mm), case, share, reckoned)


def _forces(effects: LoadEffects, index: int) -> _Forces:
    front = max(effects.wind, key=lambda response: response.reactions_n[index])
    behind = min(effects.wind, key=lambda response: response.reactions_n[index])
    return _Forces(
        pull=(front.name, max(front.reactions_n[index], 0.0)),
        push=(behind.name, max(-behind.reactions_n[index], 0.0)),
        shear=effects.shear_n(index),
    )


def _place(plan: Plan, hole: Hole, edge_mm: float) -> HolePlace | None:
    """The hole in its metal; None where it lies outside, which another rule finds."""
    standoff = plan.standoff
    if edge_mm <= 0:
        return None
    return HolePlace(
        stud_mm=standoff.stud_mm,
        hole_mm=plan.diameter_of(hole),
        edge_mm=edge_mm,
        washers=standoff.pressed_mm > 0 and standoff.backed_mm > 0,
    )


def _of_sheet_at(
    plan: Plan, sheet: SheetGrade, place: HolePlace, forces: _Forces, *, at_end: bool
) -> Iterator[_Found]:
    """Sheet round a hole: pulled over cap and barrel, torn and crushed by the stud.

    At a stroke's end, where no hole follows, the sheet pulls on one side of the cap only.
    """
    standoff = plan.standoff
    front = "washer" if standoff.washer_mm > 0 else standoff.head
    behind = "washer behind" if standoff.washer_behind_mm > 0 else "barrel"
    for (case, force_n), pressed_mm, part in (
        (forces.pull, standoff.pressed_mm, front),
        (forces.push, standoff.backed_mm, behind),
    ):
        yield _under(case, _pull_over(sheet, pressed_mm, place.hole_mm, part, at_end), force_n)
    case, shear_n = forces.shear
    for known in _in_plane(sheet, place):
        yield _under(case, known, shear_n)
    pressed_mm, pull_n = standoff.pressed_mm, forces.pull[1]
    by_shear, by_pull = _over_by_force(sheet, place, pressed_mm, at_end)
    yield (
        forces.together,
        _sum(by_shear, shear_n) + _sum(by_pull, pull_n),
        partial(_over_with_shear, sheet, place, pressed_mm, at_end, shear_n, pull_n),
    )


def _of_standoff(plan: Plan, made: StudGrade, forces: _Forces) -> Iterator[_Found]:
    """The stud, bent, sheared and pulled, and its anchor in the wall."""
    lever_mm, together = plan.standoff.projection_mm, forces.together
    pull_n, shear_n = forces.pull[1], forces.shear[1]
    by_shear, by_pull = _bent_by_force(made, lever_mm)
    bent = partial(stud.check_bending, made, shear_n=shear_n, tension_n=pull_n, lever_mm=lever_mm)
    yield together, _sum(by_shear, shear_n) + _sum(by_pull, pull_n), bent
    shear_rd, tension_rd = _stud_strengths(made)
    share, _ = stud.interaction(made.rules, shear_n / shear_rd, pull_n / tension_rd)
    yield together, share, partial(stud.check_fastener, made, shear_n=shear_n, tension_n=pull_n)
    anchor = anchorage.check(plan.loading.fixing, tension_n=pull_n, shear_n=shear_n)
    yield together, anchor.utilisation, lambda: anchor


def _under(case: str, known: Utilisation, demand: float) -> _Found:
    """A limit state of one force, its resistance known."""
    return case, utilisation.ratio(demand, known.resistance), partial(known.under, demand)


def _sum(by_force: float, force_n: float) -> float:
    """Part of a share that is a sum over forces; no force uses nothing, even of nothing."""
    return by_force * force_n if force_n else 0.0


def _over_with_shear(
    sheet: SheetGrade,
    place: HolePlace,
    pressed_mm: float,
    at_end: bool,
    shear_n: float,
    pull_n: float,
) -> Utilisation:
    return pull_over_with_shear.check(
        sheet,
        place,
        shear_n=shear_n,
        tension_n=pull_n,
        pressed_mm=pressed_mm,
        eccentric=at_end,
    )


@lru_cache(maxsize=4096)
def _over_by_force(
    sheet: SheetGrade, place: HolePlace, pressed_mm: float, at_end: bool
) -> tuple[float, float]:
    """What 1 N of shear uses of shear and pull-over together, and 1 N of pull."""
    fixed = (sheet, place, pressed_mm, at_end)
    return _known(_over_with_shear(*fixed, 1.0, 0.0)), _known(_over_with_shear(*fixed, 0.0, 1.0))


@lru_cache(maxsize=16)
def _bent_by_force(made: StudGrade, lever_mm: float) -> tuple[float, float]:
    """What 1 N across a stud uses of its bending strength, and 1 N along it."""
    across, along = (
        stud.check_bending(made, shear_n=shear, tension_n=1.0 - shear, lever_mm=lever_mm)
        for shear in (1.0, 0.0)
    )
    return _known(across), _known(along)


@lru_cache(maxsize=16)
def _stud_strengths(made: StudGrade) -> tuple[float, float]:
    shear_n, tension_n, _ = stud.strengths_n(made)
    return shear_n, tension_n


def _known(result: Utilisation) -> float:
    """The share of a limit state whose resistance is always known."""
    if result.utilisation is None:
        raise ValueError(f"{result.check} has no resistance")
    return result.utilisation


@lru_cache(maxsize=4096)  # while one hole is dragged, the others stay
def _in_plane(sheet: SheetGrade, place: HolePlace) -> tuple[Utilisation, ...]:
    return (*bearing.check(sheet, place, 0.0), tear_out.check(sheet, place, 0.0))


@lru_cache(maxsize=64)  # the same for every hole of one size
def _pull_over(
    sheet: SheetGrade, pressed_mm: float, hole_mm: float, part: str, eccentric: bool
) -> Utilisation:
    return pull_over.check(
        sheet, 0.0, pressed_mm=pressed_mm, hole_mm=hole_mm, part=part, eccentric=eccentric
    )


def _stress_at(
    spans: Spans, effects: LoadEffects, index: int, diameter_mm: float
) -> tuple[str, float]:
    """Greatest stress of the whole stroke across a hole, in which case."""
    branch, s = int(spans.feet.branch[index]), float(spans.feet.s[index])
    if branch < 0:
        return effects.wind[0].name, 0.0
    at = s + np.array([-0.5, 0.0, 0.5]) * diameter_mm

    def stress(response: Response) -> float:
        along = response.stress_mpa[branch]
        return float(np.interp(at, effects.grillage.ways[branch], along).max())

    worst = max(effects.wind, key=stress)
    return worst.name, stress(worst)


def _net_section(
    sheet: SheetGrade, width_mm: float, hole_mm: float, case: str, stress_mpa: float
) -> _Found:
    by_stress = _net_by_stress(sheet, width_mm, hole_mm)
    reckoned = partial(_net_bending, sheet, width_mm, hole_mm, stress_mpa)
    return case, _sum(by_stress, stress_mpa), reckoned


def _net_bending(
    sheet: SheetGrade, width_mm: float, hole_mm: float, stress_mpa: float
) -> Utilisation:
    """Bending and torsion together as the bending moment that stresses the stroke alike."""
    return net_section.check_bending(
        sheet,
        width_mm=width_mm,
        hole_mm=hole_mm,
        moment_nmm=stress_mpa * width_mm * sheet.thickness_mm**2 / 6,
    )


@lru_cache(maxsize=4096)
def _net_by_stress(sheet: SheetGrade, width_mm: float, hole_mm: float) -> float:
    """What 1 MPa in the whole stroke uses of its net section."""
    return _known(_net_bending(sheet, width_mm, hole_mm, 1.0))
