"""EN 1991-1-4: wind on a sign along a wall, by the wall's own pressure coefficients.

we = qp(ze) cpe (5.2), cpe by zone of the wall, its height over depth and the loaded area (7.2.2,
Table 7.1): cpe,1 up to 1 m2, cpe,10 from 10 m2, between them
cpe = cpe,1 - (cpe,1 - cpe,10) log10 A. Off the wall the zone is A, B, C or E as chosen; on to it,
when the wind turns, it is always D. Pressures are characteristic: no partial factor is in them.
"""

import math
from functools import cache

import numpy as np

from holeplacer import resources
from holeplacer.loads import en1991_velocity, step
from holeplacer.loads.constant import constant
from holeplacer.loads.loading import En1991Site
from holeplacer.loads.step import Condition, NominalPressure, Step

_MM2_PER_M2 = 1e6

_NO_RULE = Condition(
    "EN 1991-1-4 has no rule of its own for a sign close along a wall: the wall's coefficients are "
    "taken as for cladding, with no pressure behind the sheet.",
    None,
    "own choice, after ASCE 7 29.3.2",
    "M",
)
_ANNEX = Condition(
    "vb, terrain and factors are those of the national annex for this place.",
    None,
    "EN 1991-1-4, national annex",
    "M",
)


def wall_pressure(site: En1991Site, *, loaded_area_mm2: float) -> NominalPressure:
    """Pressure off the wall and on to it, characteristic.

    Args:
        site: What was entered of the place.
        loaded_area_mm2: Area whose wind what is designed must carry.

    Raises:
        InputError: A figure of the place isn't entered, or it is above 200 m.
    """
    peak = en1991_velocity.peak_pressure(site)
    cpe_out = _cpe_step(site, site.zone, loaded_area_mm2, site.cpe_out)
    cpe_in = _cpe_step(site, "D", loaded_area_mm2, site.cpe_in)
    out = _pressure_step("off the wall", "we out", peak.qp_pa * cpe_out.value)
    on = _pressure_step("on to the wall", "we in", peak.qp_pa * cpe_in.value)
    area = Step("A", loaded_area_mm2, "mm2", "loaded area", "EN 1991-1-4 7.2.1", "P")
    steps = (*peak.steps, area, cpe_out, cpe_in, out, on)
    return NominalPressure(out.value, on.value, steps, _conditions(site))


def cpe(zone: str, height_to_depth: float, loaded_area_mm2: float) -> float:
    """Magnitude of the external pressure coefficient of a vertical wall (Table 7.1). Status M.

    Args:
        zone: `A`, `B`, `C` or `E` off the wall, `D` on to it.
        height_to_depth: Linear between the table's rows, constant beyond them.
        loaded_area_mm2: By logarithm between 1 and 10 m2, constant beyond them.

    >>> round(cpe("A", 1.0, 3e6), 3)
    1.305
    """
    ratios, tens, ones = _wall()[zone]
    cpe_10 = float(np.interp(height_to_depth, ratios, tens))
    cpe_1 = float(np.interp(height_to_depth, ratios, ones))
    small, large = constant("en1991", "small_area"), constant("en1991", "large_area")
    area_m2 = min(max(loaded_area_mm2 / _MM2_PER_M2, small.value), large.value)
    along = math.log(area_m2 / small.value) / math.log(large.value / small.value)
    return cpe_1 - (cpe_1 - cpe_10) * along


def _cpe_step(site: En1991Site, zone: str, area_mm2: float, entered: float | None) -> Step:
    row = next(row for row in resources.table("en1991_wall") if row["zone"] == zone)
    by_table = Step(
        "cpe in" if zone == "D" else "cpe out",
        cpe(zone, site.height_to_depth, area_mm2),
        "",
        f"wall coefficient, zone {zone}, by loaded area, h/d {site.height_to_depth:g}",
        row["source"],
        row["status"],
    )
    return step.chosen(by_table, entered)


def _pressure_step(way: str, symbol: str, p_pa: float) -> Step:
    return Step(symbol, p_pa, "Pa", f"pressure {way}, qp cpe", "EN 1991-1-4 Eq. 5.1", "P")


def _conditions(site: En1991Site) -> tuple[Condition, ...]:
    slender = constant("en1991", "greatest_height_to_depth")
    greatest = constant("asce7", "greatest_roof_height")
    low = en1991_velocity.reference_height_mm(site) <= greatest.mm
    return (
        _NO_RULE,
        _ANNEX,
        Condition(
            f"The building is no higher than {greatest.length}; above it, ask an engineer.",
            low,
            "own limit, after ASCE 7",
            "M",
        ),
        Condition(
            f"The building's height is at most {slender.value:g} times its depth along the wind.",
            site.height_to_depth <= slender.value,
            slender.source,
            slender.status,
        ),
    )


@cache
def _wall() -> dict[str, tuple[list[float], list[float], list[float]]]:
    columns: dict[str, tuple[list[float], list[float], list[float]]] = {}
    for row in resources.table("en1991_wall"):
        ratios, tens, ones = columns.setdefault(row["zone"], ([], [], []))
        ratios.append(float(row["height_to_depth"]))
        tens.append(float(row["cpe_10"]))
        ones.append(float(row["cpe_1"]))
    return columns
