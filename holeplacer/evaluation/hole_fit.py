"""Hole fit: whether each hole of a plan lets its stud through, finished, in heat and in cold."""

from collections.abc import Sequence
from dataclasses import dataclass

from holeplacer.outline.outline import Outline
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.rules import thermal_rooms
from holeplacer.standoffs import hole_size
from holeplacer.standoffs.hole_size import NeededHole
from holeplacer.standoffs.thermal_fit import Movement


@dataclass(frozen=True)
class HoleFit:
    """One hole against the hole it needs.

    Attributes:
        number: Its number.
        given_mm: Diameter it has.
        needed: Diameter it needs, with its parts.
        movement: How far it moves against its stud.
        about: Number of the hole its piece grows about; None outside the metal.
    """

    number: int
    given_mm: float
    needed: NeededHole
    movement: Movement
    about: int | None

    @property
    def enough(self) -> bool:
        """Whether the hole is large enough, round as it is."""
        return self.needed.is_met_by(self.given_mm)

    @property
    def binds(self) -> bool:
        """Whether its stud is pressed aside by heat or cold however well the hole was placed."""
        return self.needed.binds(self.given_mm)


def hole_fits(plan: Plan, outline: Outline) -> tuple[HoleFit, ...]:
    """Every hole of a plan against the hole it needs, in the plan's order.

    Args:
        plan: The plan; of its loading the temperatures count.
        outline: Its cut outline.
    """
    moved = thermal_rooms.movements(plan, outline)
    return tuple(
        HoleFit(
            number=hole.number,
            given_mm=plan.diameter_of(hole),
            needed=needed(plan, plan.diameter_of(hole), movement.greatest_mm),
            movement=movement,
            about=None if movement.about is None else plan.holes[movement.about].number,
        )
        for hole, movement in zip(plan.holes, moved, strict=True)
    )


def needed(plan: Plan, hole_mm: float, movement_mm: float = 0.0) -> NeededHole:
    """The hole that the stud through a hole of that diameter needs when it moves that far."""
    return thermal_rooms.needed(plan, hole_mm, movement_mm)


def enlarged(plan: Plan, fits: Sequence[HoleFit], *, inch: bool = False) -> Plan:
    """The plan with a diameter of its own for each hole that is too small: the drill it needs.

    Args:
        plan: The plan.
        fits: Its holes against what they need; those of holes it no longer has are passed over.
        inch: Drills in 64ths of an inch instead of tenths of a millimetre.
    """
    numbers = {hole.number for hole in plan.holes}
    for fit in fits:
        if not fit.enough and fit.number in numbers:
            drill = hole_size.drill_mm(fit.needed.round_mm, inch=inch)
            plan = edit.with_hole_diameter(plan, fit.number, drill)
    return plan


def worst(fits: Sequence[HoleFit]) -> HoleFit | None:
    """The hole that lacks most, or has least to spare; None without holes."""
    return max(fits, key=lambda fit: fit.needed.round_mm - fit.given_mm, default=None)
