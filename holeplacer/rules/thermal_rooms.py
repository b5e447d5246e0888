"""Thermal rooms: how much of the room in its hole each stud uses up in heat and cold.

It stands apart from the limit states of strength. A stud that meets the edge of its hole pushes it,
and what that does to stud, sheet and anchor is reckoned there; here it is said which holes leave
too little room to hang free, and what would let them.
"""

from functools import partial

from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.resistance import thermal_room, utilisation
from holeplacer.resistance.utilisation import Utilisation
from holeplacer.rules import edge_demand
from holeplacer.rules.limit_states import LimitState
from holeplacer.rules.load_effects import COLD, HOT
from holeplacer.standoffs import hole_size, thermal_fit
from holeplacer.standoffs.hole_size import NeededHole
from holeplacer.standoffs.thermal_fit import Change, Movement


def rooms(plan: Plan, outline: Outline) -> tuple[LimitState, ...]:
    """Movement of every hole in the metal against its room, in the plan's order.

    Args:
        plan: The plan; of its loading the temperatures count.
        outline: Its cut outline.

    Raises:
        InputError: The temperature at installation is not between the other two.
    """
    found = []
    for hole, move in zip(plan.holes, movements(plan, outline), strict=True):
        if move.about is None:
            continue
        hole_mm = plan.diameter_of(hole)
        stud_mm = edge_demand.stud_mm(plan.standoff, hole_mm)
        has_mm = max((hole_mm - 2 * plan.sheet.finish_mm - stud_mm) / 2, 0.0)
        share = utilisation.ratio(move.greatest_mm, has_mm)
        case = HOT if move.out_mm >= move.in_mm else COLD
        reckoned = partial(_reckoned, plan, hole_mm, move)
        found.append(LimitState(hole.number, (hole.x_mm, hole.y_mm), case, share, reckoned))
    return tuple(found)


def movements(plan: Plan, outline: Outline) -> tuple[Movement, ...]:
    """How far each hole moves against its stud, in the plan's order.

    Raises:
        InputError: The temperature at installation is not between the other two.
    """
    if not plan.holes:
        return ()
    places = [(hole.x_mm, hole.y_mm) for hole in plan.holes]
    pieces = outline.piece_at(places).tolist()
    centres = [piece.centre_of_gravity_mm for piece in outline.pieces]
    wanted = [hole.fixed_point for hole in plan.holes]
    about = thermal_fit.fixed_points(places, pieces, centres, wanted)
    return thermal_fit.movements(places, pieces, about, change(plan))


def needed(plan: Plan, hole_mm: float, movement_mm: float = 0.0) -> NeededHole:
    """The hole that the stud through a hole of that diameter needs when it moves that far."""
    standoff = plan.standoff
    return hole_size.needed_hole(
        edge_demand.stud_mm(standoff, hole_mm),
        fit=standoff.fit,
        clearance_mm=standoff.clearance_mm,
        finish_mm=plan.sheet.finish_mm,
        movement_mm=movement_mm,
    )


def change(plan: Plan) -> Change:
    """The plan's temperatures with its metal's expansion."""
    temperature = plan.loading.temperature
    return Change(
        expansion_per_k=plan.sheet.material.expansion_per_k,
        lowest_c=temperature.lowest_c,
        highest_c=temperature.highest_c,
        installation_c=temperature.installation_c,
    )


def _reckoned(plan: Plan, hole_mm: float, move: Movement) -> Utilisation:
    return thermal_room.check(move, needed(plan, hole_mm, move.greatest_mm), hole_mm)
