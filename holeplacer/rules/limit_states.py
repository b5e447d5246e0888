"""Limit states: every load effect of a plan beside the resistance it meets.

One entry for each limit state and hole, worst case taken, and one for each of the whole sign. The
formulas and their sources are those of `resistance`; here is said which force goes into which.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache, partial

import numpy as np
from numpy.typing import NDArray

from holeplacer.loads import combination
from holeplacer.loads.loading import Loading, WallFixing
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.resistance import anchorage, bending, deflection, sheet_grade, stud, utilisation
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.stud import StudGrade
from holeplacer.resistance.utilisation import Utilisation
from holeplacer.rules import hole_capacity, hole_forces, load_effects, span_deflection
from holeplacer.rules.hole_capacity import AtHole, Cap, Capacities, Fitting
from holeplacer.rules.hole_forces import HoleForces
from holeplacer.rules.load_effects import CALM, CARRIED, LoadEffects
from holeplacer.rules.spacing import Spans
from holeplacer.rules.span_deflection import SideDeflection

Floats = NDArray[np.float64]


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
    if not plan.holes:
        return
    diameters = np.array([plan.diameter_of(hole) for hole in plan.holes])
    forces = hole_forces.hole_forces(effects, spans.feet, diameters)
    known = hole_capacity.capacities(Fitting(sheet, Cap.of(plan), plan.standoff.stud_mm))
    of_sheet = _of_sheet_at(plan, outline, spans, forces, known)
    of_standoff = _of_standoffs(plan, forces)
    of_stroke = _of_stroke_at(axis, spans, forces, known, diameters)
    for hole, *found in zip(plan.holes, of_sheet, of_standoff, of_stroke, strict=True):
        at_mm = hole.x_mm, hole.y_mm
        for states in found:
            for case, share, reckoned in states:
                yield LimitState(hole.number, at_mm, case, share, reckoned)


def _of_sheet_at(
    plan: Plan, outline: Outline, spans: Spans, forces: HoleForces, known: Capacities
) -> Iterator[list[_Found]]:
    """Sheet round each hole: pulled over cap and barrel, torn and crushed by the stud.

    At a stroke's end, where no hole follows, the sheet pulls on one side of the cap only; a cap
    that holds the sheet's slope is pulled more on one side everywhere. A hole outside the metal,
    which another rule finds, has no sheet.
    """
    places = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    edges = outline.edge_distance(places).tolist()
    clamped = plan.loading.supports == "clamped"
    eccentric = [clamped or following < 0 for following in spans.next_hole.min(axis=1).tolist()]
    pull, push, shear = (f.most.tolist() for f in (forces.pull, forces.push, forces.shear))
    for index, (hole, edge_mm, turned) in enumerate(zip(plan.holes, edges, eccentric, strict=True)):
        if edge_mm <= 0:
            yield []
            continue
        here = known.at_hole(plan.diameter_of(hole), edge_mm, turned)
        yield _round_hole(here, forces, index, (pull[index], push[index], shear[index]))


def _round_hole(
    known: AtHole, forces: HoleForces, index: int, force_n: tuple[float, float, float]
) -> list[_Found]:
    pull_n, push_n, shear_n = force_n
    over_front, over_behind, *in_plane, by_shear, by_pull = known.by_force
    off, on, across = forces.pull.case(index), forces.push.case(index), forces.shear.case(index)
    return [
        (off, _part(over_front, pull_n), partial(known.over_front.under, pull_n)),
        (on, _part(over_behind, push_n), partial(known.over_behind.under, push_n)),
        *(
            (across, _part(by_force, shear_n), partial(idle.under, shear_n))
            for by_force, idle in zip(in_plane, known.in_plane, strict=True)
        ),
        (
            f"{off} + {across}",
            _part(by_shear, shear_n) + _part(by_pull, pull_n),
            partial(known.together, shear_n, pull_n),
        ),
    ]


def _of_standoffs(plan: Plan, forces: HoleForces) -> Iterator[list[_Found]]:
    """The stud, bent, sheared and pulled, and its anchor in the wall."""
    made = stud.grade(
        plan.standoff.stud_material, plan.standoff.stud_mm, plan.loading.design_method
    )
    pull, shear = forces.pull.most.tolist(), forces.shear.most.tolist()
    least = forces.least_shear.most.tolist()
    fixing, shear_rd, tension_rd = plan.loading.fixing, *_stud_strengths(made)
    bent = _bent(made, load_effects.lever_mm(plan), forces)
    for index, (pull_n, shear_n, of_bending) in enumerate(zip(pull, shear, bent, strict=True)):
        across = forces.shear.case(index)
        together = f"{forces.pull.case(index)} + {across}"
        share, _ = stud.interaction(made.rules, shear_n / shear_rd, pull_n / tension_rd)
        thread = partial(stud.check_fastener, made, shear_n=shear_n, tension_n=pull_n)
        carried_n = ((pull_n, shear_n), (pull_n, least[index]), (0.0, shear_n))
        pulled_n, along_n, used = _worst_on_anchor(fixing, carried_n)
        calm = pulled_n == 0 < pull_n
        hung = across if along_n == shear_n else forces.least_shear.case(index)
        anchor = partial(anchorage.check, fixing, tension_n=pulled_n, shear_n=along_n)
        yield [
            of_bending,
            (together, share, thread),
            (f"{CALM if calm else forces.pull.case(index)} + {hung}", used, anchor),
        ]


def _bent(made: StudGrade, lever_mm: float, forces: HoleForces) -> Iterator[_Found]:
    """Each stud in bending; what holds the sheet's slope may be worse where the pull is less."""
    by_shear, by_pull, by_moment = _bent_by_force(made, lever_mm)
    by_wind = _parts(by_pull, forces.stud_pull) + _parts(by_moment, forces.moment)
    worst = by_wind.argmax(axis=0).tolist()
    shares = by_wind.max(axis=0) + _parts(by_shear, forces.shear.most)
    for index, (case, share, shear_n) in enumerate(
        zip(worst, shares.tolist(), forces.shear.most.tolist(), strict=True)
    ):
        reckoned = partial(
            stud.check_bending,
            made,
            shear_n=shear_n,
            tension_n=float(forces.stud_pull[case, index]),
            lever_mm=lever_mm,
            moment_nmm=float(forces.moment[case, index]),
        )
        yield f"{forces.pull.cases[case]} + {forces.shear.case(index)}", share, reckoned


def _worst_on_anchor(
    fixing: WallFixing, carried_n: Sequence[tuple[float, float]]
) -> tuple[float, float, float | None]:
    """Pull, force along the wall and share where it is worst; of shares as bad, the first.

    Values that are added are worst with most of both. A screw in wood can be worse without wind,
    or with less weight.
    """
    at = carried_n if fixing.screw is not None else carried_n[:1]
    found = [(*pair, anchorage.share(fixing, tension_n=pair[0], shear_n=pair[1])) for pair in at]
    return max(found, key=lambda item: utilisation.severity(item[2]))


def _of_stroke_at(
    axis: Axis, spans: Spans, forces: HoleForces, known: Capacities, diameters: Floats
) -> Iterator[list[_Found]]:
    """What each hole leaves of its stroke, where it lies on one."""
    widths = (2 * ways.clearances(axis, spans.feet)).tolist()
    stress, tension = forces.stress.most.tolist(), forces.tension.most.tolist()
    for index, (counts, width_mm, hole_mm) in enumerate(
        zip(spans.counts.tolist(), widths, diameters.tolist(), strict=True)
    ):
        if not counts:
            yield []
            continue
        here = known.across_stroke(width_mm, hole_mm)
        mpa, pull_n = stress[index], tension[index]
        bent, along = forces.stress.case(index), forces.tension.case(index)
        used = _part(here.by_stress, mpa) + _part(here.by_tension, pull_n)
        yield [
            (f"{bent} + {along}" if pull_n else bent, used, partial(here.bent, mpa, pull_n)),
            (along, _part(here.by_rupture, pull_n), partial(here.pulled.under, pull_n)),
        ]


def _part(by_force: float, force: float) -> float:
    """Part of a share that is a sum over forces; no force uses nothing, even of nothing."""
    return by_force * force if force else 0.0


def _parts(by_force: float, force: Floats) -> Floats:
    return np.multiply(by_force, force, out=np.zeros_like(force), where=force > 0)


@lru_cache(maxsize=16)
def _bent_by_force(made: StudGrade, lever_mm: float) -> tuple[float, float, float]:
    """What 1 N across a stud uses of its bending strength, 1 N along it, and 1 N mm on it."""
    checked = (
        stud.check_bending(
            made, shear_n=across, tension_n=along, lever_mm=lever_mm, moment_nmm=turning
        )
        for across, along, turning in np.eye(3).tolist()
    )
    across, along, turning = (hole_capacity.known(result) for result in checked)
    return across, along, turning


@lru_cache(maxsize=16)
def _stud_strengths(made: StudGrade) -> tuple[float, float]:
    shear_n, tension_n, _ = stud.strengths_n(made)
    return shear_n, tension_n
