"""Bending: stress of a stroke by bending and torsion together, against the allowable yield stress.

A stroke is a thin strip bent out of its plane: no flange can buckle, so that first yield is the
limit in every rule family.
"""

import math

from holeplacer.resistance import given, utilisation
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Given, Utilisation

_CLAUSES = {
    "en-1993-1-3": "EN 1993-1-1 6.2.1(5), elastic",
    "en-1993-1-4": "EN 1993-1-1 6.2.1(5), elastic",
    "en-1999": "EN 1999-1-1 6.2.1, elastic",
}


def strip_bending_mpa(moment_nmm: float, width_mm: float, thickness_mm: float) -> float:
    """Greatest bending stress of a flat strip, 6 M / b t^2."""
    return 6 * abs(moment_nmm) / (width_mm * thickness_mm**2)


def strip_torsion_mpa(torque_nmm: float, width_mm: float, thickness_mm: float) -> float:
    """Greatest shear stress of a rectangular strip in torsion, near 3 T/b t^2 for thin ones.

    Roark's polynomial in t/b (Table 10.7; from memory), within 0.5 % of the exact series.
    """
    b, t = max(width_mm, thickness_mm), min(width_mm, thickness_mm)
    q = t / b
    thickened = 1 + 0.6095 * q + 0.8865 * q**2 - 1.8023 * q**3 + 0.91 * q**4
    return 3 * abs(torque_nmm) / (b * t * t) * thickened


def combined_mpa(normal_mpa: float, shear_mpa: float) -> float:
    """Stress that yields like both together (von Mises): sqrt(σ^2 + 3 τ^2)."""
    return math.sqrt(normal_mpa**2 + 3 * shear_mpa**2)


def allowable_mpa(sheet: SheetGrade) -> float:
    """Stress the sheet may bear: Fy/Ω, φ Fy or fy/γM."""
    return sheet.factor("bending").usable(sheet.yield_mpa)


def check(sheet: SheetGrade, normal_mpa: float, shear_mpa: float = 0.0) -> Utilisation:
    """Bending and torsion stress of a stroke.

    Args:
        sheet: Its metal, thickness and rules.
        normal_mpa: Bending stress, with that of forces along the stroke; or both stresses already
            combined.
        shear_mpa: Torsion stress.

    Raises:
        InputError: A stress is negative or no number.
    """
    given.not_negative(normal_mpa, "the bending stress in MPa")
    given.not_negative(shear_mpa, "the torsion stress in MPa")
    factor = sheet.factor("bending")
    rules = sheet.rule_family
    eurocode = sheet.method == "en"
    fy = "fy" if eurocode else "Fy"
    sigma, tau = ("σ", "τ") if eurocode else ("fb", "fv")
    return utilisation.of(
        "bending",
        combined_mpa(normal_mpa, shear_mpa),
        factor.usable(sheet.yield_mpa),
        "MPa",
        formula=f"sqrt({sigma}^2 + 3 {tau}^2) <= {factor.written(fy)}",
        inputs=(
            Given(sigma, normal_mpa, "MPa", "bending stress of the stroke"),
            Given(tau, shear_mpa, "MPa", "torsion stress of the stroke"),
            sheet.given_yield(fy),
            Given(factor.symbol, factor.value, "", "safety factor"),
        ),
        source=_CLAUSES.get(rules.rules, factor.source),
        status=utilisation.worst_status(factor.status),
        note=rules.note,
    )
