"""Pull-over: the sheet drawn over the cap or washer, or over the barrel behind.

The published values are for screws with washers in thin sheet; a stud's cap works alike.
"""

import math
from dataclasses import dataclass

from holeplacer.resistance import coefficient, given, utilisation
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Given, Utilisation

_PASSES_THROUGH = "the hole is as wide as what should hold the sheet"


@dataclass(frozen=True)
class Nominal:
    """A nominal strength with its way.

    Attributes:
        newtons: The strength.
        symbol: Its name, or its formula where the source gives it none.
        formula: In symbols; empty where `symbol` says it.
        washer_mm: What of the washer's diameter counts.
        statuses: Of what went in.
        source: Clause.
        note: What to know about it.
    """

    newtons: float
    symbol: str
    formula: str
    washer_mm: float
    statuses: tuple[str, ...]
    source: str
    note: str = ""


def domed_washer_mm(
    head_mm: float, washer_thickness_mm: float, thickness_mm: float, washer_mm: float
) -> float:
    """Diameter that counts of a domed washer that is free under the head (AISI S100-16 J4.4.2).

    d'w = dh + 2 tw + t1 <= dw (from memory).

    >>> round(domed_washer_mm(10.16, 1.524, 1.524, 25.4), 3)
    14.732
    """
    return min(head_mm + 2 * washer_thickness_mm + thickness_mm, washer_mm)


def check(
    sheet: SheetGrade,
    tension_n: float,
    *,
    pressed_mm: float,
    hole_mm: float,
    repeated: bool = True,
    eccentric: bool = False,
    part: str = "cap",
) -> Utilisation:
    """Force off the sheet at one standoff against the sheet being drawn over its cap.

    Args:
        sheet: Metal, thickness, rules.
        tension_n: Magnitude.
        pressed_mm: Diameter that presses on the sheet: washer, cap or barrel; 0: nothing does.
        hole_mm: Hole diameter.
        repeated: The load is wind, which comes again and again (halves EN 1993-1-3's value).
        eccentric: The sheet pulls on one side of the cap only, as at a stroke's end (halves AISI's
            value).
        part: What presses, in a word: `cap`, `washer`, `barrel`.

    Raises:
        InputError: The force is negative, or a diameter no length.
    """
    given.not_negative(pressed_mm, f"the {part}'s diameter in mm")
    given.positive(hole_mm, "the hole's diameter in mm")
    factor = sheet.factor("pull-over")
    if pressed_mm > hole_mm:
        nominal = nominal_strength(sheet, pressed_mm, repeated=repeated, eccentric=eccentric)
    else:
        nominal = Nominal(0.0, "0", "", pressed_mm, (), factor.source, _PASSES_THROUGH)
    fu = "fu" if sheet.method == "en" else "Fu1"
    aluminium = sheet.rule_family.rules == "adm"
    return utilisation.of(
        f"pull-over at the {part}",
        tension_n,
        factor.usable(nominal.newtons),
        "N",
        formula=f"T <= {factor.written(nominal.symbol)}"
        + (f"; {nominal.formula}" if nominal.formula else ""),
        inputs=(
            Given("T", tension_n, "N", "force off the sheet"),
            sheet.given_thickness("t1"),
            Given("dw", pressed_mm, "mm", f"diameter of the {part}"),
            Given("d'w", nominal.washer_mm, "mm", "what of it counts"),
            Given("d0", hole_mm, "mm", "hole diameter"),
            sheet.given_yield("Fty") if aluminium else sheet.given_ultimate(fu),
            Given(factor.symbol, factor.value, "", "safety factor"),
        ),
        source=nominal.source or factor.source,
        status=utilisation.worst_status(factor.status, *nominal.statuses),
        note=utilisation.joined(nominal.note, sheet.rule_family.note),
    )


def nominal_strength(
    sheet: SheetGrade, washer_mm: float, *, repeated: bool, eccentric: bool
) -> Nominal:
    """Pull-over strength before the safety factor, by the sheet's rules."""
    rules = sheet.rule_family.rules
    if rules == "adm":
        return adm(sheet, washer_mm)
    if rules == "en-1999":
        return en_1999(sheet, washer_mm)
    if sheet.method == "en":
        # Between 1.5 and 3 mm neither was written for it: the smaller, that of thin sheet, is kept.
        if sheet.thickness_mm >= coefficient.value("en 1993-1-3 bearing", "thickest"):
            return en_1993_1_8(sheet, washer_mm)
        return en_1993_1_3(sheet, washer_mm, repeated=repeated)
    return aisi(sheet, washer_mm, eccentric=eccentric)


def aisi(sheet: SheetGrade, washer_mm: float, *, eccentric: bool = False) -> Nominal:
    """Pnov = 1.5 t1 d'w Fu1 with d'w <= 3/4 in, half if eccentric (AISI S100-16 J4.4.2)."""
    known = coefficient.coefficients("aisi pull-over")
    cap, least = known["largest washer"], known["least washer"]
    over = washer_mm > cap.value
    counted = min(washer_mm, cap.value)
    share = known["eccentric share"].value if eccentric else 1.0
    full = known["factor"].value * sheet.thickness_mm * counted * sheet.ultimate_mpa
    return Nominal(
        newtons=share * full,
        symbol="Pnov",
        formula=f"Pnov = {'0.5 × ' if eccentric else ''}1.5 t1 d'w Fu1",
        washer_mm=counted,
        statuses=(known["factor"].status, *((cap.status,) if over else ())),
        source="",
        note=utilisation.joined(
            f"of the washer {cap.printed} counts" if over else "",
            f"asks for a head of at least {least.printed}" if washer_mm < least.value else "",
            "pulled on one side only: half" if eccentric else "",
        ),
    )


def adm(sheet: SheetGrade, washer_mm: float) -> Nominal:
    """Rn = (1.0 + 1.7 t/Dw) Dw t Fty with Dw <= 5/8 in (Aluminum Design Manual 2015, J.5)."""
    known = coefficient.coefficients("adm pull-over")
    cap = known["largest washer"]
    counted, t = min(washer_mm, cap.value), sheet.thickness_mm
    over = washer_mm > cap.value
    return Nominal(
        newtons=(known["factor"].value * counted + known["slope"].value * t) * t * sheet.yield_mpa,
        symbol="Rn",
        formula="Rn = (1.0 + 1.7 t1/d'w) d'w t1 Fty",
        washer_mm=counted,
        statuses=(known["factor"].status, cap.status if over else "P"),
        source="",
        note=f"of the washer {cap.printed} counts" if over else "",
    )


def en_1993_1_3(sheet: SheetGrade, washer_mm: float, *, repeated: bool) -> Nominal:
    """Fp,Rd = dw t fu, half of it where wind repeats (EN 1993-1-3 Table 8.2), before γM2."""
    known = coefficient.coefficients("en 1993-1-3 pull-through")
    share = known["repeated factor" if repeated else "static factor"]
    t = sheet.thickness_mm
    outside = t < known["thinnest"].value or t > known["thickest"].value
    note = "sheet outside the clause's range, 0.5 to 1.5 mm" if outside else ""
    return Nominal(
        newtons=share.value * washer_mm * t * sheet.ultimate_mpa,
        symbol="0.5 dw t1 fu" if repeated else "dw t1 fu",
        formula="",
        washer_mm=washer_mm,
        statuses=(share.status,),
        source="EN 1993-1-3 Table 8.2",
        note=utilisation.joined("wind that repeats" if repeated else "", note),
    )


def en_1993_1_8(sheet: SheetGrade, washer_mm: float) -> Nominal:
    """Bp,Rd = 0.6 π dm tp fu (EN 1993-1-8 Table 3.4), before γM2."""
    factor = coefficient.coefficients("en 1993-1-8 punching")["factor"]
    return Nominal(
        newtons=factor.value * math.pi * washer_mm * sheet.thickness_mm * sheet.ultimate_mpa,
        symbol="0.6 π dm t1 fu",
        formula="",
        washer_mm=washer_mm,
        statuses=(factor.status,),
        source="EN 1993-1-8 Table 3.4",
    )


def en_1999(sheet: SheetGrade, washer_mm: float) -> Nominal:
    """Fp,Rd = 6.1 t fu sqrt(dw/22) (EN 1999-1-4 8.3.3.1, all α = 1), before γM3.

    In N with t and dw in mm; more than 260 MPa of fu is not counted.
    """
    known = coefficient.coefficients("en 1999-1-4 pull-through")
    counted = min(sheet.ultimate_mpa, known["largest fu"].value)
    root = math.sqrt(washer_mm / known["washer"].value)
    thick = sheet.thickness_mm > known["thickest"].value
    return Nominal(
        newtons=known["factor"].value * sheet.thickness_mm * counted * root,
        symbol="6.1 t1 fu sqrt(dw/22)",
        formula="fu <= 260 MPa",
        washer_mm=washer_mm,
        statuses=(known["factor"].status,),
        source="EN 1999-1-4 8.3.3.1",
        note="sheet thicker than the clause's 1.5 mm" if thick else "",
    )
