"""Net section: what the hole leaves of a stroke, in bending and in tension."""

import math

from holeplacer.resistance import bending, coefficient, given, stress_rise, utilisation
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Given, Utilisation

_NOTHING_LEFT = "no metal is left beside the hole"


def check_bending(
    sheet: SheetGrade,
    *,
    width_mm: float,
    hole_mm: float,
    moment_nmm: float,
    torque_nmm: float = 0.0,
    tension_n: float = 0.0,
) -> Utilisation:
    """Stress of the two bands beside a hole, against the allowable yield stress.

    Static strength goes by the net section alone; the peak at the hole's edge, Kt times as high,
    stands in the note.

    Args:
        sheet: Metal, thickness, rules.
        width_mm: Clear width of the stroke across the hole.
        hole_mm: Hole diameter.
        moment_nmm: Bending moment there, out of the sign's plane; either sign.
        torque_nmm: Torsion there; either sign.
        tension_n: Force along the stroke; either sign.

    Raises:
        InputError: A length is not above 0.
    """
    given.positive(width_mm, "the stroke's width in mm")
    given.positive(hole_mm, "the hole's diameter in mm")
    net, t = width_mm - hole_mm, sheet.thickness_mm
    fy = "fy" if sheet.method == "en" else "Fy"
    rise: tuple[Given, ...] = ()
    factor = sheet.factor("bending")
    if net > 0:
        normal = bending.strip_bending_mpa(moment_nmm, net, t) + abs(tension_n) / (net * t)
        # Each band beside the hole takes half the torsion.
        shear = bending.strip_torsion_mpa(torque_nmm / 2, net / 2, t)
        stress = bending.combined_mpa(normal, shear)
        kt = stress_rise.bending_on_net(hole_mm, width_mm, t, sheet.poisson)
        note = f"peak at the hole's edge about Kt = {kt:.2f} times the bending stress: for fatigue"
        rise = (Given("Kt", kt, "", "stress rise in bending on the net section"),)
    else:
        stress = math.inf if moment_nmm or torque_nmm or tension_n else 0.0
        note = _NOTHING_LEFT
    return utilisation.of(
        "net section in bending",
        stress,
        factor.usable(sheet.yield_mpa),
        "MPa",
        formula=f"sqrt(σn^2 + 3 τn^2) <= {factor.written(fy)}; "
        "σn = 6 M/((W - d0) t^2) + N/((W - d0) t)",
        inputs=(
            Given("M", abs(moment_nmm), "Nmm", "bending moment at the hole"),
            Given("T", abs(torque_nmm), "Nmm", "torsion at the hole"),
            Given("N", abs(tension_n), "N", "force along the stroke"),
            Given("W", width_mm, "mm", "clear width of the stroke"),
            Given("d0", hole_mm, "mm", "hole diameter"),
            sheet.given_thickness("t"),
            sheet.given_yield(fy),
            Given(factor.symbol, factor.value, "", "safety factor"),
            *rise,
        ),
        source=factor.source,
        status=factor.status,
        note=utilisation.joined(note, sheet.rule_family.note),
    )


def check_rupture(
    sheet: SheetGrade,
    *,
    width_mm: float,
    hole_mm: float,
    tension_n: float,
    stud_mm: float,
    washers: bool = True,
) -> Utilisation:
    """A stroke pulled apart across a hole.

    Args:
        sheet: Metal, thickness, rules.
        width_mm: Clear width of the stroke across the hole.
        hole_mm: Hole diameter.
        tension_n: Force along the stroke, a magnitude.
        stud_mm: Stud diameter, for AISI's shear lag.
        washers: Cap and barrel, or two washers, clamp the sheet on both sides.

    Raises:
        InputError: A length is not above 0.
    """
    given.positive(width_mm, "the stroke's width in mm")
    given.positive(hole_mm, "the hole's diameter in mm")
    area = max(width_mm - hole_mm, 0.0) * sheet.thickness_mm
    factor = sheet.connection_factor("net section")
    lag, nominal, statuses = _lag(sheet.connection_rules, stud_mm / width_mm, washers=washers)
    fu = "fu" if sheet.method == "en" else "Fu"
    return utilisation.of(
        "net section in tension",
        tension_n,
        factor.usable(lag * area * sheet.ultimate_mpa),
        "N",
        formula=f"N <= {factor.written(nominal)}; Anet = (W - d0) t",
        inputs=(
            Given("N", tension_n, "N", "force along the stroke"),
            Given("Anet", area, "mm2", "net section"),
            sheet.given_ultimate(fu),
            Given("U", lag, "", "share of the net section that counts"),
            Given(factor.symbol, factor.value, "", "safety factor"),
        ),
        source=factor.source,
        status=utilisation.worst_status(factor.status, *statuses),
        note=utilisation.joined("" if area else _NOTHING_LEFT, sheet.rule_family.note),
    )


def _lag(rules: str, stud_share: float, *, washers: bool) -> tuple[float, str, tuple[str, ...]]:
    """Share of the net section that counts, the nominal strength in symbols, statuses."""
    if rules in ("aisi-s100", "asce-8"):
        formula = "aisi net section"
        if washers:
            lag = coefficient.value(formula, "with washers intercept")
            lag += coefficient.value(formula, "with washers slope") * stud_share
            written = "(0.1 + 3 d/s) Anet Fu"
        else:
            lag = coefficient.value(formula, "without washers slope") * stud_share
            written = "(2.5 d/s) Anet Fu"
        return min(lag, 1.0), written, coefficient.statuses(formula)
    if rules.startswith("en-"):
        formula = "en 1993-1-1 net section"
        share = coefficient.value(formula, "factor")
        return share, f"{share:g} Anet fu", coefficient.statuses(formula)
    return 1.0, "Anet Fu", ()
