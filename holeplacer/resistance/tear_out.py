"""Tear-out: the stud shearing its way to the nearest edge."""

from holeplacer.resistance import coefficient, utilisation
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Given, Utilisation

_NOTHING_LEFT = "the hole reaches the edge"


def check(sheet: SheetGrade, place: HolePlace, shear_n: float) -> Utilisation:
    """Force of a stud in the sheet's plane against the metal between its hole and the edge.

    Eurocode 3 and 9 count the end distance in bearing; here the two shear planes of block tearing
    (EN 1993-1-8 3.10.2) are shown beside it.

    Args:
        sheet: Metal, thickness, rules.
        place: The hole; its edge distance is taken in the force's direction, the nearest edge
            being the safe choice.
        shear_n: Magnitude.

    Raises:
        InputError: The force is negative or no number.
    """
    factor = sheet.connection_factor("tear-out")
    nominal, name, formula, statuses, source = _nominal(sheet, place)
    eurocode = sheet.method == "en"
    strength = sheet.given_yield("fy") if eurocode else sheet.given_ultimate("Fu")
    clear = _clear_mm(place)
    return utilisation.of(
        "tear-out",
        shear_n,
        factor.usable(nominal),
        "N",
        formula=f"V <= {factor.written(name)}; {formula}",
        inputs=(
            Given("V", shear_n, "N", "force of the stud in the sheet's plane"),
            Given("e", place.edge_mm, "mm", "hole's centre to the edge"),
            Given("d0", place.hole_mm, "mm", "hole diameter"),
            Given("lc", clear, "mm", "metal between hole and edge"),
            sheet.given_thickness("t"),
            strength,
            Given(factor.symbol, factor.value, "", "safety factor"),
        ),
        source=source or factor.source,
        status=utilisation.worst_status(factor.status, *statuses),
        note=utilisation.joined("" if clear else _NOTHING_LEFT, sheet.rule_family.note),
    )


def aisi_nominal_n(sheet: SheetGrade, place: HolePlace) -> float:
    """Vn = 0.6 Fu Anv with Anv = 2 t (e - d0/2) (AISI S100-16 J6.1)."""
    factor = coefficient.value("aisi tear-out", "factor")
    return factor * sheet.ultimate_mpa * 2 * sheet.thickness_mm * _clear_mm(place)


def aisc_nominal_n(sheet: SheetGrade, place: HolePlace) -> float:
    """Rn = 1.2 lc t Fu with lc = e - d0/2 (AISC 360-16 J3.10)."""
    factor = coefficient.value("aisc tear-out", "factor")
    return factor * _clear_mm(place) * sheet.thickness_mm * sheet.ultimate_mpa


def adm_nominal_n(sheet: SheetGrade, place: HolePlace) -> float:
    """Rn = Fsu Anv with Fsu = 0.6 Ftu (Aluminum Design Manual J.6.2)."""
    share = coefficient.value("adm tear-out", "shear share")
    return share * sheet.ultimate_mpa * 2 * sheet.thickness_mm * _clear_mm(place)


def en_n(sheet: SheetGrade, place: HolePlace) -> float:
    """fy/sqrt(3) Anv (EN 1993-1-8 3.10.2 without its tension plane), before γM0."""
    return sheet.yield_mpa / 3**0.5 * 2 * sheet.thickness_mm * _clear_mm(place)


def _nominal(sheet: SheetGrade, place: HolePlace) -> tuple[float, str, str, tuple[str, ...], str]:
    """Nominal strength, its symbol, formula, statuses, source where not the factor's."""
    area = "Anv = 2 t (e - d0/2)"
    rules = sheet.connection_rules
    if rules == "aisc-360":
        statuses = coefficient.statuses("aisc tear-out")
        return aisc_nominal_n(sheet, place), "Rn", "Rn = 1.2 lc t Fu", statuses, ""
    if rules == "adm":
        formula = f"Rn = Fsu Anv, Fsu = 0.6 Fu, {area}"
        return adm_nominal_n(sheet, place), "Rn", formula, coefficient.statuses("adm tear-out"), ""
    if sheet.method == "en":
        nominal = "(fy/√3) Anv"
        return en_n(sheet, place), nominal, area, ("M",), "EN 1993-1-8 3.10.2, shear planes only"
    formula = f"Vn = 0.6 Fu Anv, {area}"
    return aisi_nominal_n(sheet, place), "Vn", formula, coefficient.statuses("aisi tear-out"), ""


def _clear_mm(place: HolePlace) -> float:
    return max(place.edge_mm - place.hole_mm / 2, 0.0)
