"""Pull-out: a screw drawn out of thin metal that it is threaded into, such as wall sheeting."""

import math

from holeplacer.resistance import coefficient, given, utilisation
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Given, Utilisation


def check(
    support: SheetGrade, tension_n: float, *, screw_mm: float, pitch_mm: float | None = None
) -> Utilisation:
    """Tension of one screw against the thin metal behind.

    Args:
        support: The metal the screw is threaded into, not the sign.
        tension_n: Magnitude.
        screw_mm: Nominal diameter.
        pitch_mm: Of the thread, for EN; None: coarser than the support is thick.

    Raises:
        InputError: The force is negative, or a length not above 0.
    """
    given.positive(screw_mm, "the screw's diameter in mm")
    if pitch_mm is not None:
        given.positive(pitch_mm, "the thread's pitch in mm")
    factor = support.factor("pull-out")
    nominal, symbol, formula, statuses, source = _nominal(support, screw_mm, pitch_mm)
    eurocode = support.method == "en"
    aluminium = support.rule_family.rules == "adm"
    fu = "fu.sup" if eurocode else "Fu2"
    return utilisation.of(
        "pull-out",
        tension_n,
        factor.usable(nominal),
        "N",
        formula=f"T <= {factor.written(symbol)}" + (f"; {formula}" if formula else ""),
        inputs=(
            Given("T", tension_n, "N", "tension of the screw"),
            support.given_thickness("tsup" if eurocode else "tc"),
            Given("d", screw_mm, "mm", "screw diameter"),
            support.given_yield("Fty2") if aluminium else support.given_ultimate(fu),
            Given(factor.symbol, factor.value, "", "safety factor"),
        ),
        source=source or factor.source,
        status=utilisation.worst_status(factor.status, *statuses),
        note=utilisation.joined("figures of the metal behind", support.rule_family.note),
    )


def aisi_nominal_n(support: SheetGrade, screw_mm: float) -> float:
    """Pnot = 0.85 tc d Fu2 (AISI S100-16 J4.4.1)."""
    factor = coefficient.value("aisi pull-out", "factor")
    return factor * support.thickness_mm * screw_mm * support.ultimate_mpa


def adm_nominal_n(support: SheetGrade, screw_mm: float) -> float:
    """Rn = Ks D Le Fty with Le the thickness, no more than 1/4 in (Aluminum Design Manual J.5)."""
    known = coefficient.coefficients("adm pull-out")
    engaged = min(support.thickness_mm, known["thickest"].value)
    thin = engaged <= known["thin to"].value
    ks = known["thin factor" if thin else "factor"].value
    return ks * screw_mm * engaged * support.yield_mpa


def _nominal(
    support: SheetGrade, screw_mm: float, pitch_mm: float | None
) -> tuple[float, str, str, tuple[str, ...], str]:
    rules = support.rule_family.rules
    t, fu = support.thickness_mm, support.ultimate_mpa
    if rules == "adm":
        nominal = adm_nominal_n(support, screw_mm)
        return nominal, "Rn", "Rn = Ks d tc Fty2", coefficient.statuses("adm pull-out"), ""
    if rules == "en-1999":
        factor = coefficient.value("en 1999-1-4 pull-out", "factor")
        nominal = factor * fu * math.sqrt(t**3 * screw_mm)
        statuses = coefficient.statuses("en 1999-1-4 pull-out")
        symbol = "0.95 fu.sup sqrt(tsup^3 d)"
        return nominal, symbol, "", statuses, "EN 1999-1-4 8.3.3.2"
    if support.method == "en":
        name = "factor" if pitch_mm is not None and t >= pitch_mm else "thin factor"
        known = coefficient.coefficients("en 1993-1-3 pull-out")[name]
        symbol = f"{known.value:g} d tsup fu.sup"
        nominal = known.value * screw_mm * t * fu
        return nominal, symbol, "", (known.status,), "EN 1993-1-3 Table 8.2"
    statuses = coefficient.statuses("aisi pull-out")
    return aisi_nominal_n(support, screw_mm), "Pnot", "Pnot = 0.85 tc d Fu2", statuses, ""
