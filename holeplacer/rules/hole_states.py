"""Hole states: the limit states of every hole, which force going into which resistance.

While a hole is dragged their shares are wanted at once, and what they come from hardly ever: each
share is found by what a newton uses, the rest is put together when it is asked for.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache, partial

import numpy as np
from numpy.typing import NDArray

from holeplacer.loads.loading import WallFixing
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.resistance import anchorage, stud, utilisation
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.stud import StudGrade
from holeplacer.resistance.utilisation import Utilisation
from holeplacer.rules import hole_capacity, hole_forces, load_effects, wall_fixing
from holeplacer.rules.hole_capacity import AcrossStroke, AtHole, Cap, Capacities, Fitting
from holeplacer.rules.hole_forces import HoleForces
from holeplacer.rules.load_effects import CALM, LoadEffects
from holeplacer.rules.spacing import Spans

Floats = NDArray[np.float64]

Found = tuple[str, Callable[[], Utilisation]]
"""The case that governs, and what works out the rest."""


@dataclass(frozen=True, eq=False)
class HoleStates:
    """Everything the limit states of a plan's holes come from.

    Attributes:
        fixing: In the wall.
        made: The stud.
        lever_mm: From where the wall holds it to the sheet.
        forces: At each hole.
        in_sheet: The sheet's limits at each hole; None for one outside the metal, which another
            rule finds.
        of_stroke: The stroke's limits across each hole; None where it lies on no stroke.
    """

    fixing: WallFixing
    made: StudGrade
    lever_mm: float
    forces: HoleForces
    in_sheet: tuple[AtHole | None, ...]
    of_stroke: tuple[AcrossStroke | None, ...]

    @cached_property
    def shares(self) -> tuple[list[float | None], ...]:
        """Of each hole's limit states, in the order of `found`; None: resistance not known."""
        forces = self.forces
        columns = (forces.pull, forces.push, forces.shear, forces.stress, forces.tension)
        rows = zip(*(force.most.tolist() for force in columns), strict=True)
        shear_rd, tension_rd = _stud_strengths(self.made)
        bent = self._bent.max(axis=0).tolist()
        found = []
        for index, (pull_n, push_n, shear_n, mpa, along_n) in enumerate(rows):
            shares: list[float | None] = []
            sheet, stroke = self.in_sheet[index], self.of_stroke[index]
            if sheet is not None:
                over_front, over_behind, *in_plane, by_shear, by_pull = sheet.by_force
                shares += _part(over_front, pull_n), _part(over_behind, push_n)
                shares += [_part(by_force, shear_n) for by_force in in_plane]
                shares.append(_part(by_shear, shear_n) + _part(by_pull, pull_n))
            thread, _ = stud.interaction(self.made.rules, shear_n / shear_rd, pull_n / tension_rd)
            shares += bent[index], thread, self._on_anchor(index)[2]
            if stroke is not None:
                bending = _part(stroke.by_stress, mpa) + _part(stroke.by_tension, along_n)
                shares += bending, _part(stroke.by_rupture, along_n)
            found.append(shares)
        return tuple(found)

    def found(self, index: int) -> list[Found]:
        """One hole's: the sheet round it, the standoff in the wall, the stroke across it."""
        return [*self._round(index), *self._standoff(index), *self._across(index)]

    def _round(self, index: int) -> list[Found]:
        """Sheet pulled over cap and barrel, torn and crushed by the stud."""
        sheet, forces = self.in_sheet[index], self.forces
        if sheet is None:
            return []
        pull_n, push_n, shear_n = (
            float(force.most[index]) for force in (forces.pull, forces.push, forces.shear)
        )
        off, on, across = (f.case(index) for f in (forces.pull, forces.push, forces.shear))
        return [
            (off, partial(sheet.over_front.under, pull_n)),
            (on, partial(sheet.over_behind.under, push_n)),
            *((across, partial(idle.under, shear_n)) for idle in sheet.in_plane),
            (f"{off} + {across}", partial(sheet.together, shear_n, pull_n)),
        ]

    def _standoff(self, index: int) -> list[Found]:
        """The stud, bent, sheared and pulled, and its anchor in the wall."""
        forces, made = self.forces, self.made
        off, across = forces.pull.case(index), forces.shear.case(index)
        pull_n, shear_n = float(forces.pull.most[index]), float(forces.shear.most[index])
        wind = int(self._bent[:, index].argmax())
        bent = partial(
            stud.check_bending,
            made,
            shear_n=shear_n,
            tension_n=float(forces.stud_pull[wind, index]),
            lever_mm=self.lever_mm,
            moment_nmm=float(forces.moment[wind, index]),
        )
        pulled_n, along_n, _ = self._on_anchor(index)
        wall = CALM if pulled_n == 0 < pull_n else off
        hung = across if along_n == shear_n else forces.least_shear.case(index)
        return [
            (f"{forces.pull.cases[wind]} + {across}", bent),
            (
                f"{off} + {across}",
                partial(stud.check_fastener, made, shear_n=shear_n, tension_n=pull_n),
            ),
            (
                f"{wall} + {hung}",
                partial(anchorage.check, self.fixing, tension_n=pulled_n, shear_n=along_n),
            ),
        ]

    def _across(self, index: int) -> list[Found]:
        """What the hole leaves of its stroke."""
        stroke, forces = self.of_stroke[index], self.forces
        if stroke is None:
            return []
        mpa, pull_n = float(forces.stress.most[index]), float(forces.tension.most[index])
        bent, along = forces.stress.case(index), forces.tension.case(index)
        return [
            (f"{bent} + {along}" if pull_n else bent, partial(stroke.bent, mpa, pull_n)),
            (along, partial(stroke.pulled.under, pull_n)),
        ]

    @cached_property
    def _bent(self) -> Floats:
        """(c, n) what each stud uses of its bending strength in each case of wind.

        What holds the sheet's slope may be worse where the pull is less.
        """
        by_shear, by_pull, by_moment = _bent_by_force(self.made, self.lever_mm)
        forces = self.forces
        by_wind = _parts(by_pull, forces.stud_pull) + _parts(by_moment, forces.moment)
        bent: Floats = by_wind + _parts(by_shear, forces.shear.most)
        return bent

    def _on_anchor(self, index: int) -> tuple[float, float, float | None]:
        """Pull, force along the wall and share where the anchor is worst off.

        Shares that are added are worst with most of both. A screw in wood can be worse off without
        wind, or with less weight.
        """
        forces = self.forces
        pull_n, shear_n = float(forces.pull.most[index]), float(forces.shear.most[index])
        carried = [(pull_n, shear_n)]
        if self.fixing.screw is not None:
            carried += [(pull_n, float(forces.least_shear.most[index])), (0.0, shear_n)]
        shares = [anchorage.share(self.fixing, tension_n=t, shear_n=v) for t, v in carried]
        worst = max(range(len(shares)), key=lambda at: utilisation.severity(shares[at]))
        return *carried[worst], shares[worst]


def hole_states(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    spans: Spans,
    effects: LoadEffects,
    sheet: SheetGrade,
) -> HoleStates:
    """The limit states of a plan's holes.

    Args:
        plan: The plan, with a hole at least.
        outline: Its cut outline.
        axis: Medial axis of its cut outline.
        spans: How its holes stand along the axis.
        effects: What its loads do.
        sheet: The sheet's metal, thickness and rules.
    """
    standoff = plan.standoff
    diameters = [plan.diameter_of(hole) for hole in plan.holes]
    known = hole_capacity.capacities(Fitting(sheet, Cap.of(plan), standoff.stud_mm))
    return HoleStates(
        fixing=wall_fixing.fixing_of(plan),
        made=stud.grade(standoff.stud_material, standoff.stud_mm, plan.loading.design_method),
        lever_mm=load_effects.lever_mm(plan),
        forces=hole_forces.hole_forces(effects, spans.feet, np.array(diameters)),
        in_sheet=_in_sheet(plan, outline, spans, known, diameters),
        of_stroke=_of_stroke(axis, spans, known, diameters),
    )


def _in_sheet(
    plan: Plan, outline: Outline, spans: Spans, known: Capacities, diameters: Sequence[float]
) -> tuple[AtHole | None, ...]:
    """The sheet's limits at each hole.

    At a stroke's end, where no hole follows, the sheet pulls on one side of the cap only; a cap
    that holds the sheet's slope is pulled more on one side everywhere.
    """
    edges = outline.edge_distance(np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes]))
    clamped = plan.loading.supports == "clamped"
    following = spans.next_hole.min(axis=1).tolist()
    return tuple(
        known.at_hole(hole_mm, edge_mm, clamped or after < 0) if edge_mm > 0 else None
        for hole_mm, edge_mm, after in zip(diameters, edges.tolist(), following, strict=True)
    )


def _of_stroke(
    axis: Axis, spans: Spans, known: Capacities, diameters: Sequence[float]
) -> tuple[AcrossStroke | None, ...]:
    widths = (2 * ways.clearances(axis, spans.feet)).tolist()
    return tuple(
        known.across_stroke(width_mm, hole_mm) if counts else None
        for counts, width_mm, hole_mm in zip(spans.counts.tolist(), widths, diameters, strict=True)
    )


def _part(by_force: float, force: float) -> float:
    """Part of a share that is a sum over forces; no force uses nothing, even of nothing."""
    return by_force * force if force else 0.0


def _parts(by_force: float, force: Floats) -> Floats:
    parts: Floats = np.multiply(by_force, force, out=np.zeros_like(force), where=force > 0)
    return parts


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
