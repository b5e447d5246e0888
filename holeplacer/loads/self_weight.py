"""Self-weight: in the sheet's own plane while it hangs, across it while it is carried flat."""

GRAVITY_M_S2 = 9.80665
"""Standard acceleration of free fall, exact by definition (3rd CGPM, 1901)."""

_MM_PER_M = 1000.0


def weight_n(mass_kg: float) -> float:
    """Weight of a mass, N.

    >>> weight_n(2.0)
    19.6133
    """
    return mass_kg * GRAVITY_M_S2


def area_weight_pa(density_kg_m3: float, thickness_mm: float) -> float:
    """Weight of the sheet on each unit of its area, Pa: rho g t.

    Carried flat this acts as a pressure across the sheet; hung, as a pull along it.

    Args:
        density_kg_m3: Of the metal.
        thickness_mm: Of the sheet.

    >>> round(area_weight_pa(7850.0, 1.519), 2)
    116.94
    """
    return density_kg_m3 * GRAVITY_M_S2 * thickness_mm / _MM_PER_M


def carried_pa(density_kg_m3: float, thickness_mm: float, handling_factor: float) -> float:
    """Pressure across a sheet that is carried flat, with a factor for jerks, Pa.

    Args:
        density_kg_m3: Of the metal.
        thickness_mm: Of the sheet.
        handling_factor: Weight times this (common practice, no source).
    """
    return handling_factor * area_weight_pa(density_kg_m3, thickness_mm)
