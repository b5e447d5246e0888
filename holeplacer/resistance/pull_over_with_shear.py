"""Pull-over with shear: the sheet off the cap by wind while its weight hangs on the stud."""

from functools import lru_cache

from holeplacer.resistance import bearing, coefficient, given, pull_over, utilisation
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Given, Utilisation


def check(
    sheet: SheetGrade,
    place: HolePlace,
    *,
    shear_n: float,
    tension_n: float,
    pressed_mm: float,
    repeated: bool = True,
    eccentric: bool = False,
) -> Utilisation:
    """Both forces of one standoff on the sheet at once, as shares that are added.

    Demand and resistance are pure numbers.

    Args:
        sheet: Metal, thickness, rules.
        place: The hole.
        shear_n: In the sheet's plane, a magnitude.
        tension_n: Off the sheet, a magnitude.
        pressed_mm: Diameter of cap or washer on the sheet.
        repeated: The tension is wind.
        eccentric: The sheet pulls on one side of the cap only.

    Raises:
        InputError: A force is negative or no number.
    """
    given.not_negative(shear_n, "the force in the sheet's plane in N")
    given.not_negative(tension_n, "the force off the sheet in N")
    sideways_n, upwards_n, idle = _strengths(sheet, place, pressed_mm, repeated, eccentric)
    demand = _share(shear_n, sideways_n) + _share(tension_n, upwards_n)
    return idle.under(demand, shear_n, tension_n)


def aisi_shear_nominal_n(thickness_mm: float, stud_mm: float, ultimate_mpa: float) -> float:
    """Pns = 2.7 t1 d Fu1 (AISI S100-16 J4.5)."""
    factor = coefficient.value("aisi shear and pull-over", "shear factor")
    return factor * thickness_mm * stud_mm * ultimate_mpa


@lru_cache(maxsize=4096)  # a hole's strengths stay while its forces change
def _strengths(
    sheet: SheetGrade, place: HolePlace, pressed_mm: float, repeated: bool, eccentric: bool
) -> tuple[float, float, Utilisation]:
    """What a force in the plane and one off the sheet are shares of, and the check without any."""
    over = pull_over.check(
        sheet,
        0.0,
        pressed_mm=pressed_mm,
        hole_mm=place.hole_mm,
        repeated=repeated,
        eccentric=eccentric,
    )
    if sheet.rule_family.rules in ("aisi-s100", "asce-8"):
        return _aisi(sheet, place, over)
    return _straight(sheet, place, over)


def _aisi(
    sheet: SheetGrade, place: HolePlace, over: Utilisation
) -> tuple[float, float, Utilisation]:
    known = coefficient.coefficients("aisi shear and pull-over")
    factor = sheet.factor("shear and pull-over")
    pull = (over.resistance or 0.0) / sheet.factor("pull-over").usable(1.0)
    shear = aisi_shear_nominal_n(sheet.thickness_mm, place.stud_mm, sheet.ultimate_mpa)
    tested = known["thinnest"].value <= sheet.thickness_mm <= known["thickest"].value
    idle = utilisation.of(
        "shear and pull-over",
        0.0,
        factor.usable(known["limit"].value),
        "",
        formula=f"Q/Pns + 0.71 T/Pnov <= {factor.written('1.1')}; "
        "Pns = 2.7 t1 d Fu1, Pnov = 1.5 t1 d'w Fu1",
        inputs=(
            Given("Q", 0.0, "N", "force of the stud in the sheet's plane"),
            Given("T", 0.0, "N", "force off the sheet"),
            Given("Pns", shear, "N", "nominal shear strength"),
            Given("Pnov", pull, "N", "nominal pull-over strength"),
            sheet.given_thickness("t1"),
            Given("d", place.stud_mm, "mm", "stud diameter"),
            sheet.given_ultimate("Fu1"),
            Given(factor.symbol, factor.value, "", "safety factor"),
        ),
        source=factor.source,
        status=utilisation.worst_status(
            factor.status, over.status, *coefficient.statuses("aisi shear and pull-over")
        ),
        note=utilisation.joined(
            "" if tested else "sheet outside the tests behind the clause, 0.0285 to 0.0445 in",
            over.note,
        ),
    )
    return shear, pull / known["tension share"].value, idle


def _straight(
    sheet: SheetGrade, place: HolePlace, over: Utilisation
) -> tuple[float, float, Utilisation]:
    """Shares added on a straight line: EN 1993-1-3 8.3(8); on the safe side elsewhere."""
    sideways = min(item.resistance or 0.0 for item in bearing.check(sheet, place, 0.0))
    upwards = over.resistance or 0.0
    idle = utilisation.of(
        "shear and pull-over",
        0.0,
        1.0,
        "",
        formula="V/V.Rd + T/T.Rd <= 1",
        inputs=(
            Given("V", 0.0, "N", "force of the stud in the sheet's plane"),
            Given("T", 0.0, "N", "force off the sheet"),
            Given("V.Rd", sideways, "N", "bearing strength, safety factor in it"),
            Given("T.Rd", upwards, "N", "pull-over strength, safety factor in it"),
        ),
        source="EN 1993-1-3 8.3(8)"
        if sheet.method == "en"
        else "straight line, on the safe side: no clause",
        status="M",
        note=over.note,
    )
    return sideways, upwards, idle


def _share(force_n: float, strength_n: float) -> float:
    if force_n == 0:
        return 0.0
    return force_n / strength_n if strength_n > 0 else float("inf")
