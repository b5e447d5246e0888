"""Hardware report: the report's parts on sheet, mass, standoff and the hole each stud needs."""

import math
from collections.abc import Sequence

import msgspec

from holeplacer.evaluation import hole_fit, sign_mass
from holeplacer.evaluation.hole_fit import HoleFit
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.sheet.mass import SheetMass
from holeplacer.sheet.metal import Metal
from holeplacer.standoffs.hole_size import NeededHole


class MetalReport(msgspec.Struct, frozen=True):
    """The metal with its figures.

    Attributes:
        name: What plans and the command line call it.
        alloy: What the figures are of.
        density_kg_m3: Density.
        elastic_mpa, shear_mpa: Moduli of elasticity and of shear.
        poisson: Poisson's ratio.
        expansion_per_k: Linear thermal expansion.
        yield_mpa, ultimate_mpa: Yield stress and tensile strength.
        source: Where the figures come from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify; `E` entered.
        from_memory: Names of those that are from memory.
    """

    name: str
    alloy: str
    density_kg_m3: float
    elastic_mpa: float
    shear_mpa: float
    poisson: float
    expansion_per_k: float
    yield_mpa: float
    ultimate_mpa: float
    source: str
    status: str
    from_memory: tuple[str, ...]


class PieceMassReport(msgspec.Struct, frozen=True):
    """One piece, in the order of `outline.pieces`.

    Attributes:
        area_mm2: Metal, holes taken out.
        mass_kg: Metal and finish.
        centre_of_gravity_mm: x, y.
    """

    area_mm2: float
    mass_kg: float
    centre_of_gravity_mm: tuple[float, float]


class SheetReport(msgspec.Struct, frozen=True):
    """The sheet and what the sign weighs, standoffs not counted.

    Attributes:
        metal: What it is made of.
        gauge: Its number; null where a thickness was entered.
        thickness_mm: Of the sheet.
        finish: What is put on after cutting.
        finish_mm: Its thickness on every side it covers.
        area_mm2: Metal, holes taken out.
        mass_kg: Metal by density, and finish.
        finish_kg: Finish alone.
        nominal_kg: Metal by the weight its gauge is defined by; null where it has none.
        centre_of_gravity_mm: x, y of the whole.
        pieces: Each piece.
    """

    metal: MetalReport
    gauge: int | None
    thickness_mm: float
    finish: str
    finish_mm: float
    area_mm2: float
    mass_kg: float
    finish_kg: float
    nominal_kg: float | None
    centre_of_gravity_mm: tuple[float, float]
    pieces: tuple[PieceMassReport, ...]


class NeededReport(msgspec.Struct, frozen=True):
    """The hole a stud needs: the sum of three parts.

    Attributes:
        diameter_mm: Of a round hole.
        fit_mm: Hole of the fit alone.
        finish_mm: What the finish takes from the diameter.
        movement_mm: What thermal movement adds.
        source: Where the fit's hole comes from.
        status: Of that figure.
    """

    diameter_mm: float
    fit_mm: float
    finish_mm: float
    movement_mm: float
    source: str
    status: str


class HoleFitReport(msgspec.Struct, frozen=True):
    """One hole against the hole it needs.

    Attributes:
        number: The hole's number.
        given_mm: Diameter it has.
        needed: Diameter it needs.
        enough: Whether it is large enough, round as it is.
        binds: Whether heat or cold presses its stud aside however well it was placed.
        about: Number of the hole its piece grows about, itself for that one; null outside the
            metal.
        out_mm, in_mm: Movement away from that hole at the highest temperature, towards it at the
            lowest.
        slot_width_mm, slot_length_mm: Of a slot in place of a round hole, length over all.
        slot_direction_deg: Of its length, anticlockwise from x.
    """

    number: int
    given_mm: float
    needed: NeededReport
    enough: bool
    binds: bool
    about: int | None
    out_mm: float
    in_mm: float
    slot_width_mm: float
    slot_length_mm: float
    slot_direction_deg: float


class StandoffReport(msgspec.Struct, frozen=True):
    """The hardware and how its studs fit.

    Attributes:
        name: Row of the table, the person's own name for it, or `own`.
        stud_mm, hole_mm, barrel_mm, cap_mm, washer_mm, washer_behind_mm: Diameters.
        bearing_mm: Diameter that presses on the front of the sheet.
        projection_mm: Wall to back of sheet.
        head: What holds the sheet in front.
        stud_material: What the stud is made of.
        fit: Class of clearance hole, or `entered`.
        temperatures_c: Lowest, at installation, highest; of the metal.
        needed: The hole a stud needs where nothing moves.
        holes: Each hole, in order of number.
    """

    name: str
    stud_mm: float
    hole_mm: float
    barrel_mm: float
    cap_mm: float
    washer_mm: float
    washer_behind_mm: float
    bearing_mm: float
    projection_mm: float
    head: str
    stud_material: str
    fit: str
    temperatures_c: tuple[float, float, float]
    needed: NeededReport
    holes: tuple[HoleFitReport, ...]


def sheet_report(plan: Plan, outline: Outline) -> SheetReport:
    """What the sign is cut from and what it weighs."""
    mass = sign_mass.sign_mass(plan, outline)
    return SheetReport(
        metal=_metal(plan.sheet.material),
        gauge=plan.sheet.gauge,
        thickness_mm=plan.sheet.thickness_mm,
        finish=plan.sheet.finish,
        finish_mm=plan.sheet.finish_mm,
        area_mm2=mass.area_mm2,
        mass_kg=mass.mass_kg,
        finish_kg=mass.finish_kg,
        nominal_kg=mass.nominal_kg,
        centre_of_gravity_mm=mass.centre_mm,
        pieces=_pieces(mass),
    )


def standoff_report(plan: Plan, outline: Outline) -> StandoffReport:
    """What the sign hangs on, and whether its studs fit."""
    standoff, temperature = plan.standoff, plan.loading.temperature
    return StandoffReport(
        name=standoff.name,
        stud_mm=standoff.stud_mm,
        hole_mm=standoff.hole_mm,
        barrel_mm=standoff.barrel_mm,
        cap_mm=standoff.cap_mm,
        washer_mm=standoff.washer_mm,
        washer_behind_mm=standoff.washer_behind_mm,
        bearing_mm=standoff.pressed_mm,
        projection_mm=standoff.projection_mm,
        head=standoff.head,
        stud_material=standoff.stud_material,
        fit=standoff.fit,
        temperatures_c=(
            temperature.lowest_c,
            temperature.installation_c,
            temperature.highest_c,
        ),
        needed=_needed(hole_fit.needed(plan, standoff.hole_mm)),
        holes=_holes(hole_fit.hole_fits(plan, outline)),
    )


def _metal(metal: Metal) -> MetalReport:
    return MetalReport(
        name=metal.name,
        alloy=metal.alloy,
        density_kg_m3=metal.density_kg_m3,
        elastic_mpa=metal.elastic_mpa,
        shear_mpa=metal.shear_mpa,
        poisson=metal.poisson,
        expansion_per_k=metal.expansion_per_k,
        yield_mpa=metal.yield_mpa,
        ultimate_mpa=metal.ultimate_mpa,
        source=metal.source,
        status=metal.status,
        from_memory=metal.from_memory,
    )


def _pieces(mass: SheetMass) -> tuple[PieceMassReport, ...]:
    return tuple(
        PieceMassReport(piece.area_mm2, piece.mass_kg, piece.centre_mm) for piece in mass.pieces
    )


def _needed(hole: NeededHole) -> NeededReport:
    return NeededReport(
        hole.round_mm, hole.fit_mm, hole.finish_mm, hole.movement_mm, hole.source, hole.status
    )


def _holes(fits: Sequence[HoleFit]) -> tuple[HoleFitReport, ...]:
    return tuple(
        HoleFitReport(
            number=fit.number,
            given_mm=fit.given_mm,
            needed=_needed(fit.needed),
            enough=fit.enough,
            binds=fit.binds,
            about=fit.about,
            out_mm=fit.movement.out_mm,
            in_mm=fit.movement.in_mm,
            slot_width_mm=fit.needed.slot_width_mm,
            slot_length_mm=fit.needed.round_mm,
            slot_direction_deg=math.degrees(fit.movement.direction_rad),
        )
        for fit in sorted(fits, key=lambda fit: fit.number)
    )
