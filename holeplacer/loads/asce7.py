"""ASCE 7: wind on a solid sign attached along a wall (29.3.2), as its cladding feels it (Ch. 30).

p = qh [(GCp) - (GCpi)] in 7-16, p = qh Kd [(GCp) - (GCpi)] in 7-22, with GCpi = 0 for such a sign,
and at least 16 psf either way. Pressures are at strength level: no factor of a combination is in
them. Openings of the lettering are not deducted: the metal takes the whole wall pressure.
"""

from holeplacer.loads import asce7_velocity, asce7_wall, step
from holeplacer.loads.asce7_velocity import TITLES, Edition
from holeplacer.loads.constant import constant
from holeplacer.loads.loading import Asce7Site
from holeplacer.loads.pressure import PA_PER_PSF
from holeplacer.loads.step import Condition, NominalPressure, Step

_IN_WORDS = {"out": "off the wall", "in": "on to the wall"}


def wall_pressure(
    site: Asce7Site, edition: Edition, *, effective_area_mm2: float, gap_mm: float | None = None
) -> NominalPressure:
    """Pressure off the wall and on to it, strength level.

    Args:
        site: What was entered of the place.
        edition: `asce7-16` or `asce7-22`.
        effective_area_mm2: Effective wind area of what is designed.
        gap_mm: Between wall and sheet, for the conditions; None: unknown.

    Raises:
        InputError: A figure of the place isn't entered, or the building is above 60 ft.
    """
    velocity = asce7_velocity.velocity_pressure(site, edition)
    zone, zone_steps = asce7_wall.zone_at(site)
    gcp_out = asce7_wall.gcp_step(zone, "out", effective_area_mm2, site.gcp_out)
    gcp_in = asce7_wall.gcp_step(zone, "in", effective_area_mm2, site.gcp_in)
    gcpi = step.chosen(constant("asce7", "gcpi").step("GCpi", "pressure behind"), site.gcpi)
    least = _least_step(site)
    q_pa = velocity.qh_pa * velocity.kd_later
    off = _pressure_step("out", q_pa * (gcp_out.value + gcpi.value), least, edition)
    on = _pressure_step("in", q_pa * (gcp_in.value + gcpi.value), least, edition)
    area = Step("A", effective_area_mm2, "mm2", "effective wind area", "ASCE 7 26.2", "P")
    steps = (*velocity.steps, area, *zone_steps, gcp_out, gcp_in, gcpi, least, off, on)
    return NominalPressure(off.value, on.value, steps, _conditions(site, gap_mm))


def _least_step(site: Asce7Site) -> Step:
    row = constant("asce7", "least_pressure")
    by_rule = Step("p least", row.value * PA_PER_PSF, "Pa", row.note, row.source, row.status)
    return step.chosen(by_rule, site.least_pressure_pa)


def _pressure_step(direction: str, p_pa: float, least: Step, edition: Edition) -> Step:
    formula = "qh Kd (GCp + GCpi)" if edition == "asce7-22" else "qh (GCp + GCpi)"
    meaning = f"pressure {_IN_WORDS[direction]}, {formula}"
    symbol = f"p {direction}"
    if p_pa < least.value:
        raised = f"{meaning}, raised to the least"
        return Step(symbol, least.value, "Pa", raised, least.source, least.status)
    return Step(symbol, p_pa, "Pa", meaning, f"{TITLES[edition]} 30.3", "P")


def _conditions(site: Asce7Site, gap_mm: float | None) -> tuple[Condition, ...]:
    gap, edge = constant("asce7", "sign_gap"), constant("asce7", "sign_edge")
    corner_mm, sign_mm = site.corner_distance_mm, site.sign_height_mm
    near_corner = corner_mm is not None and corner_mm < edge.mm
    above_roof = sign_mm is not None and sign_mm > asce7_velocity.roof_height_mm(site)
    flat = "No hill, ridge or escarpment speeds the wind up at this place."
    return (
        Condition(
            f"The sign is parallel to the wall, with a gap of at most {gap.length}.",
            None if gap_mm is None else gap_mm <= gap.mm,
            gap.source,
            gap.status,
        ),
        Condition(
            f"The sign's edges are at least {edge.length} inside the wall's sides, top and bottom.",
            False if near_corner or above_roof else None,
            edge.source,
            edge.status,
        ),
        Condition(
            "V is that of the building's risk category at this place; special wind regions and "
            "local codes may ask for more.",
            None,
            "ASCE 7 26.5",
            "M",
        ),
        Condition(
            flat if site.kzt is None else "Kzt is that of this place.", None, "ASCE 7 26.8", "M"
        ),
    )
