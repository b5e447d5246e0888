"""Thermal room: whether heat and cold press the edge of a hole on its stud.

How far each hole moves, and the hole that lets it, is said in `standoffs`; here the room needed is
set against the room there is. The wall is taken not to move.
"""

from holeplacer.resistance import given, utilisation
from holeplacer.resistance.utilisation import Given, Utilisation
from holeplacer.standoffs.hole_size import NeededHole
from holeplacer.standoffs.thermal_fit import Movement


def check(
    move: Movement, needed: NeededHole, hole_mm: float, *, slot_mm: float | None = None
) -> Utilisation:
    """Room that a hole needs on either side of its stud against the room it has.

    All room counts, as if the hole were placed without error; the note gives the hole, or the slot,
    that keeps the fit's own room for marking and drilling besides.

    Args:
        move: Of the hole against its stud.
        needed: The hole its stud needs: stud, fit, finish.
        hole_mm: Diameter as cut, before the finish; of a slot, its width.
        slot_mm: Length over all of a slot that points at the fixed point; None: a round hole.

    Raises:
        InputError: A length is not above 0.
    """
    given.positive(hole_mm, "the hole's diameter in mm")
    along = hole_mm if slot_mm is None else given.positive(slot_mm, "the slot's length in mm")
    has = max((along - needed.finish_mm - needed.stud_mm) / 2, 0.0)
    length = needed.slot_width_mm + 2 * move.greatest_mm
    short = along < length and move.greatest_mm > 0
    return utilisation.of(
        "movement by temperature",
        move.greatest_mm,
        has,
        "mm",
        formula="α L ΔT <= (d0 - f - d)/2",
        inputs=(
            Given("L", move.distance_mm, "mm", "distance from the fixed point"),
            Given("α L ΔT+", move.out_mm, "mm", "away from it in the heat"),
            Given("α L ΔT-", move.in_mm, "mm", "towards it in the cold"),
            Given("d0", along, "mm", "hole diameter, or length of the slot"),
            Given("f", needed.finish_mm, "mm", "what the finish takes from it"),
            Given("d", needed.stud_mm, "mm", "stud diameter"),
        ),
        source="free expansion about one fixed point; recomputed",
        status="R",
        note=_cure(needed, length) if short else "",
    )


def _cure(needed: NeededHole, length_mm: float) -> str:
    return (
        f"with the fit's own room it takes a hole of {length_mm:.2f} mm, or a slot "
        f"{needed.slot_width_mm:.2f} mm wide and {length_mm:.2f} mm long towards the fixed point"
    )
