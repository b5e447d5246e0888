"""Sign mass: what a plan's sign weighs and where it balances, its holes taken out."""

from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.sheet import finish, gauge
from holeplacer.sheet.mass import Coat, SheetMass, sheet_mass


def sign_mass(plan: Plan, outline: Outline) -> SheetMass:
    """Mass and centre of gravity of every piece and of the whole, without standoffs.

    Args:
        plan: The plan.
        outline: Its cut outline.

    Raises:
        InputError: There is no metal.
    """
    around = outline.around([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    return sheet_mass(
        [piece.area_mm2 for piece in outline.pieces],
        [piece.centre_of_gravity_mm for piece in outline.pieces],
        plan.sheet.material,
        plan.sheet.thickness_mm,
        coat=Coat(plan.sheet.finish_mm, finish.density_kg_m3(plan.sheet.finish)),
        nominal_lb_ft2=_nominal(plan.sheet),
        holes=[
            (edge.piece, hole.x_mm, hole.y_mm, plan.diameter_of(hole))
            for hole, edge in zip(plan.holes, around, strict=True)
            if edge.piece >= 0
        ],
    )


def _nominal(sheet: SheetChoice) -> float | None:
    if sheet.gauge is None:
        return None
    series = sheet.material.gauge_series
    return gauge.gauge(series, sheet.gauge, metal=sheet.metal).nominal_lb_ft2
