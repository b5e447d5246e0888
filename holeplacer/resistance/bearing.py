"""Bearing: the stud pressing on the edge of its hole, and stretching it.

The published values are for sheets held flat between washers or other plies; a sheet of a sign is
so held where barrel and cap, or washers, are snug on it.
"""

from holeplacer import units
from holeplacer.resistance import coefficient, given, utilisation
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.rule_family import SafetyFactor
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Given, Utilisation

_STUD_IS_STRONGER = 1e9
"""Tensile strength of a stud of which none is given: it then does not limit the sheet's bearing."""


def check(
    sheet: SheetGrade, place: HolePlace, shear_n: float, *, stud_ultimate_mpa: float | None = None
) -> tuple[Utilisation, ...]:
    """Every bearing limit of the sheet's rules.

    Args:
        sheet: Metal, thickness, rules.
        place: The hole.
        shear_n: Force of the stud in the sheet's plane, a magnitude.
        stud_ultimate_mpa: Tensile strength of the stud, for EN's αb; None: stronger than the sheet.

    Raises:
        InputError: The force is negative or no number.
    """
    rules = sheet.connection_rules
    if rules in ("aisi-s100", "asce-8"):
        return (_aisi(sheet, place, shear_n), _aisi_deformation(sheet, place, shear_n))
    if rules == "aisc-360":
        return (_aisc(sheet, place, shear_n),)
    if rules == "adm":
        return (_adm(sheet, place, shear_n),)
    stud = _STUD_IS_STRONGER if stud_ultimate_mpa is None else stud_ultimate_mpa
    return _eurocode(sheet, place, shear_n, given.positive(stud, "the stud's tensile strength"))


def aisi_factor(stud_share: float) -> float:
    """C of AISI S100 Table J3.3.1-1 for steel, by d/t.

    >>> aisi_factor(5.0), aisi_factor(16.0), aisi_factor(30.0)
    (3.0, 2.4, 1.8)
    """
    known = coefficient.coefficients("aisi bearing")
    if stud_share < known["first d/t"].value:
        return known["factor to d/t 10"].value
    if stud_share > known["second d/t"].value:
        return known["factor from d/t 22"].value
    return known["intercept"].value - known["slope"].value * stud_share


def aisi_nominal_n(sheet: SheetGrade, place: HolePlace) -> float:
    """Pn = mf C d t Fu (AISI S100-16 J3.3.1), hole deformation ignored."""
    name = "with washers" if place.washers else "without washers"
    mf = coefficient.value("aisi bearing", name)
    share = place.stud_mm / sheet.thickness_mm
    return mf * aisi_factor(share) * place.stud_mm * sheet.thickness_mm * sheet.ultimate_mpa


def aisi_deformation_nominal_n(sheet: SheetGrade, place: HolePlace) -> float:
    """Pn = (4.64 t + 1.53) d t Fu (AISI S100-16 J3.3.2), hole deformation counted.

    The bracket is written for t in inches: t is divided by 25.4 exactly, where the standard's own
    metric factor rounds 1/25.4 to 0.0394. All else is in mm and MPa.
    """
    known = coefficient.coefficients("aisi bearing deformation")
    bracket = known["slope"].value * sheet.thickness_mm + known["intercept"].value
    return bracket * place.stud_mm * sheet.thickness_mm * sheet.ultimate_mpa


def aisc_nominal_n(sheet: SheetGrade, place: HolePlace) -> float:
    """Rn = 2.4 d t Fu (AISC 360-16 J3.10), hole deformation counted."""
    factor = coefficient.value("aisc bearing", "factor")
    return factor * place.stud_mm * sheet.thickness_mm * sheet.ultimate_mpa


def adm_nominal_n(sheet: SheetGrade, place: HolePlace) -> float:
    """Rn = de t Ftu <= 2 D t Ftu (Aluminum Design Manual J.3.7)."""
    largest = coefficient.value("adm bearing", "largest") * place.stud_mm
    return min(place.edge_mm, largest) * sheet.thickness_mm * sheet.ultimate_mpa


def en_1993_1_8_factors(
    sheet: SheetGrade,
    place: HolePlace,
    *,
    stud_ultimate_mpa: float = _STUD_IS_STRONGER,
    spacing_mm: tuple[float | None, float | None] = (None, None),
) -> tuple[float, float]:
    """k1 and αb of EN 1993-1-8 Table 3.4 (EN 1999-1-1 Table 8.5 alike).

    Args:
        sheet: Its strength fu, for αb.
        place: The hole: e1, e2, d0.
        stud_ultimate_mpa: fub. It stands in αb only: put in fu's place in the bearing strength,
            as one worksheet that goes round has it, it overstates 30.6 kN by a tenth.
        spacing_mm: p1, p2 to the next holes in a group; None: an only one.
    """
    known = _values("en 1993-1-8 bearing")
    d0 = place.hole_mm
    end = known["end factor"] * d0
    alpha = min(place.edge_mm / end, stud_ultimate_mpa / sheet.ultimate_mpa, 1.0)
    k1 = min(
        known["side factor"] * place.beside_mm / d0 - known["side offset"], known["largest k1"]
    )
    along, across = spacing_mm
    if along is not None:
        alpha = min(alpha, along / end - known["inner offset"])
    if across is not None:
        k1 = min(k1, known["inner side factor"] * across / d0 - known["side offset"])
    return max(k1, 0.0), max(alpha, 0.0)


def en_1993_1_8_n(
    sheet: SheetGrade,
    place: HolePlace,
    *,
    stud_ultimate_mpa: float = _STUD_IS_STRONGER,
    spacing_mm: tuple[float | None, float | None] = (None, None),
) -> float:
    """k1 αb fu d t, before γM2; see `en_1993_1_8_factors`."""
    k1, alpha = en_1993_1_8_factors(
        sheet, place, stud_ultimate_mpa=stud_ultimate_mpa, spacing_mm=spacing_mm
    )
    return k1 * alpha * sheet.ultimate_mpa * place.stud_mm * sheet.thickness_mm


def en_1993_1_3_factors(sheet: SheetGrade, place: HolePlace) -> tuple[float, float]:
    """αb and kt of EN 1993-1-3 Table 8.4."""
    known = _values("en 1993-1-3 bearing")
    kt = 1.0
    if sheet.thickness_mm < known["kt full from"]:
        crumples = known["kt slope"] * sheet.thickness_mm + known["kt intercept"]
        kt = crumples / known["kt divisor"]
    return min(1.0, place.edge_mm / (known["end factor"] * place.stud_mm)), kt


def en_1993_1_3_n(sheet: SheetGrade, place: HolePlace) -> float:
    """2.5 αb kt fu d t (EN 1993-1-3 Table 8.4), before γM2."""
    alpha, kt = en_1993_1_3_factors(sheet, place)
    factor = coefficient.value("en 1993-1-3 bearing", "factor")
    return factor * alpha * kt * sheet.ultimate_mpa * place.stud_mm * sheet.thickness_mm


def _values(formula: str) -> dict[str, float]:
    return {name: item.value for name, item in coefficient.coefficients(formula).items()}


def _aisi(sheet: SheetGrade, place: HolePlace, shear_n: float) -> Utilisation:
    factor = sheet.connection_factor("bearing")
    share = place.stud_mm / sheet.thickness_mm
    name = "with washers" if place.washers else "without washers"
    mf = coefficient.coefficients("aisi bearing")[name]
    return _result(
        "bearing",
        sheet,
        place,
        shear_n,
        aisi_nominal_n(sheet, place),
        factor,
        written=("Pn", "mf C d t Fu"),
        extra=(
            Given("mf", mf.value, "", name.replace("washers", "washers on both sides")),
            Given("C", aisi_factor(share), "", "bearing factor by d/t"),
        ),
        statuses=(mf.status, *coefficient.statuses("aisi bearing", "factor to d/t 10")),
    )


def _aisi_deformation(sheet: SheetGrade, place: HolePlace, shear_n: float) -> Utilisation:
    return _result(
        "bearing, hole stretched",
        sheet,
        place,
        shear_n,
        aisi_deformation_nominal_n(sheet, place),
        sheet.connection_factor("bearing deformation"),
        written=("Pn", "(4.64 t + 1.53) d t Fu, t of the bracket in inches"),
        extra=(Given("t in", sheet.thickness_mm / units.MM_PER_INCH, "in", "t of the bracket"),),
        statuses=coefficient.statuses("aisi bearing deformation"),
    )


def _aisc(sheet: SheetGrade, place: HolePlace, shear_n: float) -> Utilisation:
    return _result(
        "bearing, hole stretched",
        sheet,
        place,
        shear_n,
        aisc_nominal_n(sheet, place),
        sheet.connection_factor("bearing deformation"),
        written=("Rn", "2.4 d t Fu"),
        statuses=coefficient.statuses("aisc bearing"),
    )


def _adm(sheet: SheetGrade, place: HolePlace, shear_n: float) -> Utilisation:
    return _result(
        "bearing",
        sheet,
        place,
        shear_n,
        adm_nominal_n(sheet, place),
        sheet.connection_factor("bearing"),
        written=("Rn", "de t Ftu <= 2 D t Ftu"),
        extra=(Given("de", place.edge_mm, "mm", "edge distance"),),
        statuses=coefficient.statuses("adm bearing"),
    )


def _eurocode(
    sheet: SheetGrade, place: HolePlace, shear_n: float, stud_ultimate_mpa: float
) -> tuple[Utilisation, ...]:
    factor = sheet.connection_factor("bearing")
    edges = (
        Given("e1", place.edge_mm, "mm", "edge distance"),
        Given("e2", place.beside_mm, "mm", "edge distance to the side"),
    )
    aluminium = sheet.rule_family.rules == "en-1999"
    k1, alpha = en_1993_1_8_factors(sheet, place, stud_ultimate_mpa=stud_ultimate_mpa)
    shares = (
        Given("k1", k1, "", "factor by the edge to the side"),
        Given("αb", alpha, "", "factor by the edge, and by the stud's strength"),
    )
    bolt = _result(
        "bearing",
        sheet,
        place,
        shear_n,
        en_1993_1_8_n(sheet, place, stud_ultimate_mpa=stud_ultimate_mpa),
        factor,
        written=("", "k1 αb fu d t"),
        extra=(*edges, *shares),
        statuses=("M",) if aluminium else coefficient.statuses("en 1993-1-8 bearing"),
        source="EN 1999-1-1 Table 8.5" if aluminium else "EN 1993-1-8 Table 3.4",
    )
    if aluminium:
        return (*_thin_aluminium(sheet, place, shear_n, factor), bolt)
    return (*_thin_steel(sheet, place, shear_n, factor, edges), bolt)


def _thin_steel(
    sheet: SheetGrade,
    place: HolePlace,
    shear_n: float,
    factor: SafetyFactor,
    edges: tuple[Given, ...],
) -> tuple[Utilisation, ...]:
    """Table 8.4 under 3 mm. Table 3.4 stays beside it, so that no thicker sheet is weaker."""
    formula = "en 1993-1-3 bearing"
    t = sheet.thickness_mm
    if t >= coefficient.value(formula, "thickest"):
        return ()
    below = t < coefficient.value(formula, "thinnest")
    alpha, kt = en_1993_1_3_factors(sheet, place)
    shares = (
        Given("αb", alpha, "", "factor by the edge"),
        Given("kt", kt, "", "factor of thin sheet"),
    )
    return (
        _result(
            "bearing, thin sheet",
            sheet,
            place,
            shear_n,
            en_1993_1_3_n(sheet, place),
            factor,
            written=("", "2.5 αb kt fu d t"),
            extra=(*edges, *shares),
            statuses=coefficient.statuses(formula),
            source="EN 1993-1-3 Table 8.4",
            note="thinner than Table 8.4 goes, 0.75 mm" if below else "",
        ),
    )


def _thin_aluminium(
    sheet: SheetGrade, place: HolePlace, shear_n: float, factor: SafetyFactor
) -> tuple[Utilisation, ...]:
    """1.5 fu t d of screws in thin sheeting, to 1.5 mm."""
    formula = "en 1999-1-4 bearing"
    t = sheet.thickness_mm
    if t > coefficient.value(formula, "thickest"):
        return ()
    counted = min(sheet.ultimate_mpa, coefficient.value("en 1999-1-4 pull-through", "largest fu"))
    return (
        _result(
            "bearing, thin sheet",
            sheet,
            place,
            shear_n,
            coefficient.value(formula, "factor") * counted * t * place.stud_mm,
            factor,
            written=("", "1.5 fu t d"),
            statuses=coefficient.statuses(formula, "factor"),
            source="EN 1999-1-4 8.3.2.1, by analogy with screws",
        ),
    )


def _result(
    check_name: str,
    sheet: SheetGrade,
    place: HolePlace,
    shear_n: float,
    nominal_n: float,
    factor: SafetyFactor,
    *,
    written: tuple[str, str],
    extra: tuple[Given, ...] = (),
    statuses: tuple[str, ...] = (),
    source: str = "",
    note: str = "",
) -> Utilisation:
    """One bearing limit; `written` is the nominal strength's symbol and its formula."""
    name, formula = written
    whole = f"V <= {factor.written(name)}; {name} = {formula}" if name else ""
    fu = "fu" if sheet.method == "en" else "Fu"
    return utilisation.of(
        check_name,
        shear_n,
        factor.usable(nominal_n),
        "N",
        formula=whole or f"V <= {factor.written(formula)}",
        inputs=(
            Given("V", shear_n, "N", "force of the stud in the sheet's plane"),
            Given("d", place.stud_mm, "mm", "stud diameter"),
            Given("d0", place.hole_mm, "mm", "hole diameter"),
            sheet.given_thickness("t"),
            sheet.given_ultimate(fu),
            *extra,
            Given(factor.symbol, factor.value, "", "safety factor"),
        ),
        source=source or factor.source,
        status=utilisation.worst_status(factor.status, *statuses),
        note=utilisation.joined(note, sheet.rule_family.note),
    )
