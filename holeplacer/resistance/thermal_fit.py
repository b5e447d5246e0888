"""Thermal fit: whether a hole lets the metal move with the temperature past its stud.

The sign grows and shrinks about its fixed point, the hole without play; every other hole needs room
each way. The wall is taken not to move.
"""

from dataclasses import dataclass

from holeplacer.loads.loading import Temperature
from holeplacer.resistance import given, utilisation
from holeplacer.resistance.utilisation import Given, Utilisation


@dataclass(frozen=True)
class Movement:
    """What a hole moves from where it was marked, mm, magnitudes.

    Attributes:
        hot_mm: Away from the fixed point in the heat.
        cold_mm: Towards it in the cold.
    """

    hot_mm: float
    cold_mm: float

    @property
    def greatest_mm(self) -> float:
        """Room needed each way."""
        return max(self.hot_mm, self.cold_mm)


def movement(expansion_per_k: float, distance_mm: float, temperature: Temperature) -> Movement:
    """Movement of a hole at a distance from the fixed point, α L ΔT.

    Args:
        expansion_per_k: Linear expansion of the sheet.
        distance_mm: From the fixed point, straight.
        temperature: Lowest, highest and that at installation.

    Raises:
        InputError: A figure is negative, or the temperatures are not in order.

    >>> span = Temperature(lowest_c=-10.0, highest_c=50.0, installation_c=20.0)
    >>> round(movement(23.6e-6, 1500.0, span).greatest_mm, 2)
    1.06
    """
    alpha = given.not_negative(expansion_per_k, "the sheet's expansion per degree")
    length = given.not_negative(distance_mm, "the distance from the fixed point in mm")
    warmer = temperature.highest_c - temperature.installation_c
    colder = temperature.installation_c - temperature.lowest_c
    return Movement(
        hot_mm=alpha * length * given.not_negative(warmer, "the warming after installation in K"),
        cold_mm=alpha * length * given.not_negative(colder, "the cooling after installation in K"),
    )


def round_hole_mm(stud_mm: float, move: Movement, tolerance_mm: float = 0.0) -> float:
    """Diameter of a round hole with room for it."""
    return stud_mm + 2 * (move.greatest_mm + tolerance_mm)


def slot_length_mm(
    stud_mm: float, hole_mm: float, move: Movement, tolerance_mm: float = 0.0
) -> float:
    """Length over all of a slot as wide as the hole, towards the fixed point, with room for it."""
    return max(hole_mm, round_hole_mm(stud_mm, move, tolerance_mm))


def check(
    *,
    expansion_per_k: float,
    distance_mm: float,
    temperature: Temperature,
    stud_mm: float,
    hole_mm: float,
    slot_mm: float | None = None,
    tolerance_mm: float = 0.0,
) -> Utilisation:
    """Room that a hole needs each way against the room it has.

    Args:
        expansion_per_k: Linear expansion of the sheet.
        distance_mm: From the fixed point.
        temperature: Of the metal.
        stud_mm: Stud diameter.
        hole_mm: Hole diameter as finished, paint in it; a slot's width.
        slot_mm: Length over all of a slot that points at the fixed point; None: a round hole.
        tolerance_mm: Play that inexact marking and drilling eat up.

    Raises:
        InputError: A length is negative, or the temperatures are not in order.
    """
    given.positive(stud_mm, "the stud's diameter in mm")
    given.positive(hole_mm, "the hole's diameter in mm")
    given.not_negative(tolerance_mm, "the tolerance in mm")
    move = movement(expansion_per_k, distance_mm, temperature)
    along = hole_mm if slot_mm is None else given.positive(slot_mm, "the slot's length in mm")
    has = max((along - stud_mm) / 2, 0.0)
    needs = move.greatest_mm + tolerance_mm
    round_mm = round_hole_mm(stud_mm, move, tolerance_mm)
    slot = slot_length_mm(stud_mm, hole_mm, move, tolerance_mm)
    cure = (
        f"needs a hole of {round_mm:.1f} mm, or a slot {slot:.1f} mm long towards the fixed point"
    )
    return utilisation.of(
        "movement by temperature",
        needs,
        has,
        "mm",
        formula="α L ΔT + tol <= (d0 - d)/2",
        inputs=(
            Given("α", expansion_per_k, "1/K", "expansion of the sheet"),
            Given("L", distance_mm, "mm", "distance from the fixed point"),
            Given("ΔT+", temperature.highest_c - temperature.installation_c, "K", "warmer"),
            Given("ΔT-", temperature.installation_c - temperature.lowest_c, "K", "colder"),
            Given("d0", along, "mm", "hole diameter, or slot length"),
            Given("d", stud_mm, "mm", "stud diameter"),
            Given("tol", tolerance_mm, "mm", "play eaten up by marking and drilling"),
        ),
        source="α L ΔT each way from one fixed point",
        status="R",
        note=cure if needs > has else "",
    )
