"""Temperature: how far free metal moves from its fixed point as it cools and warms.

Movement is alpha L dT, both ways from the temperature at installation. The wall's own movement is
not deducted: a wall moves later and less than a thin sheet in the sun.
"""

from dataclasses import dataclass

from holeplacer.loads.loading import Temperature


@dataclass(frozen=True)
class Movement:
    """Movement of one point against the fixed point.

    Attributes:
        inward_mm: Towards the fixed point, at the lowest temperature.
        outward_mm: Away from it, at the highest.
    """

    inward_mm: float
    outward_mm: float

    @property
    def each_way_mm(self) -> float:
        """Room that a hole needs on either side of a stud set in its middle."""
        return max(self.inward_mm, self.outward_mm)


def cooling_k(temperature: Temperature) -> float:
    """Greatest cooling since installation, K."""
    return temperature.installation_c - temperature.lowest_c


def warming_k(temperature: Temperature) -> float:
    """Greatest warming since installation, K."""
    return temperature.highest_c - temperature.installation_c


def growth_mm(expansion_per_k: float, length_mm: float, change_k: float) -> float:
    """Growth of a free length, alpha L dT; negative where it cools.

    >>> round(growth_mm(11.7e-6, 3000.0, 60.0), 2)
    2.11
    """
    return expansion_per_k * length_mm * change_k


def movement(expansion_per_k: float, from_fixed_mm: float, temperature: Temperature) -> Movement:
    """Movement of a point at some distance from the sign's fixed point.

    Args:
        expansion_per_k: Coefficient of thermal expansion alpha, 1/K.
        from_fixed_mm: Straight distance: a free sheet of one metal grows alike in every direction,
            whatever way its strokes take.
        temperature: Lowest, highest, and at installation.

    >>> at = Temperature(lowest_c=-10.0, highest_c=50.0, installation_c=20.0)
    >>> round(movement(23.6e-6, 1500.0, at).each_way_mm, 2)
    1.06
    """
    return Movement(
        growth_mm(expansion_per_k, from_fixed_mm, cooling_k(temperature)),
        growth_mm(expansion_per_k, from_fixed_mm, warming_k(temperature)),
    )
