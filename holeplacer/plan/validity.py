"""Validity: what a plan's figures can be at all, whatever file or person they come from."""

import math
from collections.abc import Iterable, Iterator

from holeplacer import resources
from holeplacer.artwork.options import ReadOptions
from holeplacer.errors import InputError
from holeplacer.loads import validity as loads_validity
from holeplacer.plan.hole import Boss, Hole
from holeplacer.plan.laid import LaidSection
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import (
    PREPARATIONS,
    TURNINGS,
    CouponChoice,
    Feeds,
    SectionsChoice,
)
from holeplacer.sheet import finish, gauge, process
from holeplacer.sheet import metal as metals
from holeplacer.sheet.metal import Metal
from holeplacer.sheet.stock import Stock
from holeplacer.standoffs import clearance_hole, head, stud
from holeplacer.standoffs.standoff import Standoff
from holeplacer.units import DRAWING_UNITS_MM
from holeplacer.wall import validity as wall_validity

FURTHEST_MM = 1e6
"""No sign reaches further from its origin."""

LARGEST_MM = 1e4
"""No hole, washer, ligament or boss is larger."""

LONGEST_NAME = 60
"""Letters in the name of an own metal."""

MOST_HOLES = 100_000
MOST_SEAMS = 10_000
MOST_STOCK = 1000
GREATEST_NUMBER = 999_999

Ranged = tuple[str, float | None, float, float]
"""Name, figure (None: not given), least, greatest."""


def checked(plan: Plan) -> Plan:
    """The plan itself, if all its figures can be meant.

    Raises:
        InputError: One can't; the sentence names it, its value and what it may be.
    """
    _check_figures(_figures(plan))
    _check_names(plan)
    _check_sheet(plan.sheet)
    _check_standoff(plan.standoff)
    loads_validity.checked(plan.loading)
    _check_numbers(plan)
    _check_sections(plan)
    _check_reading(plan.reading)
    wall_validity.checked(plan.wall)
    return plan


def checked_metal(metal: Metal) -> Metal:
    """The metal itself, if all its figures can be meant.

    Raises:
        InputError: One can't, or it has no name or an endless one.
    """
    _check_figures(_metal_figures(metal))
    if not metal.name.strip() or len(metal.name) > LONGEST_NAME:
        raise InputError(f"a metal's name has 1 to {LONGEST_NAME} letters", where="metal")
    gauge.gauges(metal.gauge_series)
    return metal


def checked_standoff(standoff: Standoff) -> Standoff:
    """The hardware itself, if all its figures can be meant.

    Raises:
        InputError: One can't, or head or material are none there are.
    """
    _check_figures(_hardware_figures(standoff))
    head.head(standoff.head)
    stud.stud_material(standoff.stud_material)
    return standoff


def _check_figures(figures: Iterable[Ranged]) -> None:
    for name, value, least, most in figures:
        if value is not None and not least <= value <= most:
            raise InputError(
                f"{value:g} is not possible",
                where=name,
                remedy=f"it must be from {least:g} to {most:g}",
            )


def _figures(plan: Plan) -> Iterator[Ranged]:
    yield "sheet thickness", plan.sheet.thickness_mm, 0.01, 1000.0
    yield "finish", plan.sheet.finish_mm, 0.0, 5.0
    yield "offset", plan.offset_mm, -LARGEST_MM, LARGEST_MM
    yield from _reading_figures(plan.reading)
    yield "clearance", plan.standoff.clearance_mm, 0.0, LARGEST_MM
    yield from _limit_figures(plan.limits)
    for hole in plan.holes:
        yield from _hole_figures(hole)
    for boss in plan.bosses:
        yield from _boss_figures(boss)
    for number, seam in enumerate(plan.seams, start=1):
        yield from _seam_figures(number, seam)
    yield from _sections_figures(plan.sections)
    for item in plan.laid:
        yield from _laid_figures(item)


def _reading_figures(reading: ReadOptions) -> Iterator[Ranged]:
    yield "width", reading.width_mm, 1e-3, FURTHEST_MM
    yield "height", reading.height_mm, 1e-3, FURTHEST_MM
    yield "scale", reading.scale, 1e-9, 1e9
    yield "rotation", reading.rotation_rad, -1e3, 1e3
    yield "tolerance", reading.tolerance_mm, 1e-5, 100.0
    yield "chaining distance", reading.chain_mm, 0.0, LARGEST_MM
    known = reading.known
    if known is not None:
        yield "known distance", known.distance_mm, 1e-3, FURTHEST_MM
        for value in (known.x1, known.y1, known.x2, known.y2):
            yield "point of the known distance", value, -1e9, 1e9


def _hardware_figures(standoff: Standoff) -> Iterator[Ranged]:
    yield "hole diameter", standoff.hole_mm, 0.01, LARGEST_MM
    yield "stud diameter", standoff.stud_mm, 0.01, LARGEST_MM
    yield "barrel diameter", standoff.barrel_mm, 0.0, LARGEST_MM
    yield "cap diameter", standoff.cap_mm, 0.0, LARGEST_MM
    yield "washer diameter", standoff.washer_mm, 0.0, LARGEST_MM
    yield "projection", standoff.projection_mm, 0.0, LARGEST_MM
    yield "washer behind", standoff.washer_behind_mm, 0.0, LARGEST_MM
    yield "bearing diameter", standoff.bearing_mm, 0.0, LARGEST_MM


def _metal_figures(metal: Metal) -> Iterator[Ranged]:
    yield "density", metal.density_kg_m3, 100.0, 30_000.0
    yield "modulus of elasticity", metal.elastic_mpa, 100.0, 1e6
    yield "shear modulus", metal.shear_mpa, 30.0, 5e5
    yield "Poisson's ratio", metal.poisson, 0.0, 0.5
    yield "thermal expansion", metal.expansion_per_k, 0.0, 1e-3
    yield "yield stress", metal.yield_mpa, 1.0, 5000.0
    yield "tensile strength", metal.ultimate_mpa, metal.yield_mpa, 5000.0
    yield "coating", metal.coating_mm, 0.0, 1.0


def _limit_figures(limits: Limits) -> Iterator[Ranged]:
    yield "ligament", limits.ligament_mm, 0.0, LARGEST_MM
    yield "edge distance", limits.edge_distance_mm, 0.0, LARGEST_MM
    yield "cap overhang", limits.cap_overhang_mm, 0.0, LARGEST_MM
    yield "spacing", limits.spacing_mm, 1.0, FURTHEST_MM
    yield "overhang", limits.overhang_mm, 0.0, FURTHEST_MM
    yield "turning share", limits.turning_share, 0.0, 1.0
    yield "distance between holes", limits.neighbour_mm, 0.0, FURTHEST_MM


def _hole_figures(hole: Hole) -> Iterator[Ranged]:
    yield f"hole {hole.number}, x", hole.x_mm, -FURTHEST_MM, FURTHEST_MM
    yield f"hole {hole.number}, y", hole.y_mm, -FURTHEST_MM, FURTHEST_MM
    yield f"hole {hole.number}, diameter", hole.diameter_mm, 0.01, LARGEST_MM


def _boss_figures(boss: Boss) -> Iterator[Ranged]:
    yield "boss, x", boss.x_mm, -FURTHEST_MM, FURTHEST_MM
    yield "boss, y", boss.y_mm, -FURTHEST_MM, FURTHEST_MM
    yield "boss, radius", boss.radius_mm, 0.01, LARGEST_MM
    yield "boss, blend", boss.blend_mm, 0.01, LARGEST_MM


def _seam_figures(number: int, seam: Seam) -> Iterator[Ranged]:
    for name in ("x1", "y1", "x2", "y2"):
        value = getattr(seam, f"{name}_mm")
        yield f"seam {number}, {name}", value, -FURTHEST_MM, FURTHEST_MM


def _sections_figures(choice: SectionsChoice) -> Iterator[Ranged]:
    yield "margin", choice.margin_mm, 0.0, LARGEST_MM
    yield "distance of seams", choice.seam_clear_mm, 0.0, LARGEST_MM
    yield "table travel, width", choice.travel_width_mm, 1.0, FURTHEST_MM
    yield "table travel, height", choice.travel_height_mm, 1.0, FURTHEST_MM
    yield "distance of sections", choice.apart_mm, 0.0, LARGEST_MM
    yield "root gap", choice.root_gap_mm, 0.0, 50.0
    yield from _feed_figures(choice.feeds)
    yield from _coupon_figures(choice.coupon)
    for stock in choice.stock:
        yield from _stock_figures(stock)


def _feed_figures(feeds: Feeds) -> Iterator[Ranged]:
    yield "cutting feed", feeds.cut_mm_min, 1.0, 1e6
    yield "travel feed", feeds.travel_mm_min, 1.0, 1e6
    yield "pierce time", feeds.pierce_s, 0.0, 3600.0
    yield "welding feed", feeds.weld_mm_min, 1.0, 1e6


def _coupon_figures(coupon: CouponChoice) -> Iterator[Ranged]:
    yield "coupon, step", coupon.step_mm, 0.02, 100.0
    yield "coupon, steps", coupon.steps, 1, 50
    yield "coupon, width", coupon.width_mm, 1.0, LARGEST_MM
    yield "coupon, height", coupon.height_mm, 1.0, LARGEST_MM


def _laid_figures(item: LaidSection) -> Iterator[Ranged]:
    for name in ("x_mm", "y_mm", "at_x_mm", "at_y_mm"):
        yield f"section on its sheet, {name[:-3]}", getattr(item, name), -FURTHEST_MM, FURTHEST_MM
    yield "section on its sheet, area", item.area_mm2, 0.0, FURTHEST_MM**2
    yield "section on its sheet, turn", item.angle_rad, -1e3, 1e3
    yield "section's sheet", item.sheet, 0, MOST_SEAMS
    yield from _stock_figures(item.stock)


def _stock_figures(stock: Stock) -> Iterator[Ranged]:
    yield "sheet, width", stock.width_mm, 1.0, FURTHEST_MM
    yield "sheet, height", stock.height_mm, 1.0, FURTHEST_MM
    yield "sheets, count", stock.count, 0, GREATEST_NUMBER


def _check_names(plan: Plan) -> None:
    name = plan.artwork.name
    if not name or any(sign in name for sign in "/\\\0"):
        raise InputError("the artwork's name is not a file name", where=repr(name[:60]))
    rule_sets = [row["rule_set"] for row in resources.table("edge_rules")]
    if plan.limits.rule_set not in rule_sets:
        raise InputError(
            f"there is no rule set {plan.limits.rule_set!r}",
            remedy=f"take {', '.join(rule_sets)}",
        )
    units = plan.reading.units
    if units is not None and units not in DRAWING_UNITS_MM:
        raise InputError(
            f"there is no drawing unit {units!r}", remedy=f"take {', '.join(DRAWING_UNITS_MM)}"
        )


def _check_sheet(sheet: SheetChoice) -> None:
    """Process, metal, gauge and finish are ones there are."""
    process.process(sheet.process)
    metal = checked_metal(sheet.material)
    if sheet.metal != metal.name:
        raise InputError(f"the metal's name is given twice, {sheet.metal!r} and {metal.name!r}")
    if sheet.own_metal is not None and metal.name in {item.name for item in metals.metals()}:
        raise InputError(
            f"{metal.name!r} is the table's name", where="metal", remedy="call yours otherwise"
        )
    if sheet.gauge is not None:
        gauge.gauge(metal.gauge_series, sheet.gauge, metal=sheet.metal)
    if sheet.finish != finish.ENTERED:
        finish.finish(sheet.finish)


def _check_standoff(standoff: StandoffChoice) -> None:
    """All of the hardware can be meant, and the fit is one there is."""
    checked_standoff(standoff)
    if standoff.fit not in clearance_hole.FITS:
        raise InputError(
            f"there is no fit {standoff.fit!r}", remedy=f"take {', '.join(clearance_hole.FITS)}"
        )


def _check_numbers(plan: Plan) -> None:
    if len(plan.holes) > MOST_HOLES:
        raise InputError(f"{len(plan.holes)} holes are more than {MOST_HOLES}", where="holes")
    numbers = [hole.number for hole in plan.holes]
    if not all(1 <= number <= GREATEST_NUMBER for number in numbers):
        raise InputError(f"a hole's number is not from 1 to {GREATEST_NUMBER}", where="holes")
    if numbers != sorted(set(numbers)):
        raise InputError("hole numbers are out of order or given twice", where="holes")


def _check_sections(plan: Plan) -> None:
    """Seams have a length, and there are no more of anything than can be meant."""
    choice = plan.sections
    if len(plan.seams) > MOST_SEAMS:
        raise InputError(f"{len(plan.seams)} seams are more than {MOST_SEAMS}", where="seams")
    if len(choice.stock) > MOST_STOCK:
        raise InputError(f"{len(choice.stock)} sizes are more than {MOST_STOCK}", where="sheets")
    if len(plan.laid) > MOST_SEAMS:
        raise InputError(f"{len(plan.laid)} sections are more than {MOST_SEAMS}", where="sheets")
    for number, seam in enumerate(plan.seams, start=1):
        if seam.length_mm == 0:
            raise InputError("both ends are the same", where=f"seam {number}")
    if choice.preparation not in PREPARATIONS:
        raise InputError(
            f"there is no preparation {choice.preparation!r}",
            remedy=f"take {', '.join(PREPARATIONS)}",
        )
    if choice.turning not in TURNINGS:
        raise InputError(
            f"there is no turning {choice.turning!r}", remedy=f"take {', '.join(TURNINGS)}"
        )


def _check_reading(reading: ReadOptions) -> None:
    sizes = (reading.width_mm, reading.height_mm, reading.known)
    given = sum(size is not None for size in sizes) + (reading.scale != 1.0)
    if given > 1:
        raise InputError(
            "more than one of width, height, known distance and scale is given",
            where="size",
            remedy="keep one",
        )
    known = reading.known
    if known is not None and math.hypot(known.x2 - known.x1, known.y2 - known.y1) == 0:
        raise InputError("both points of the known distance are the same", where="size")
