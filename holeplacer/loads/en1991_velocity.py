"""Peak velocity pressure of EN 1991-1-4: mean wind and its gusts at the reference height.

Section 4, symbols as there: kr = 0.19 (z0 / z0,II)^0.07, cr = kr ln(z / z0), vm = cr co vb,
Iv = kI / (co ln(z / z0)), qp = (1 + 7 Iv) rho vm2 / 2, ce = qp / qb. Below zmin the values at zmin
hold. National annexes change figures: every one of them can be entered.
"""

import math
from dataclasses import dataclass
from functools import cache, lru_cache

from holeplacer import resources
from holeplacer.errors import InputError
from holeplacer.loads import step
from holeplacer.loads.constant import constant
from holeplacer.loads.loading import En1991Site
from holeplacer.loads.step import Step

_MM_PER_M = 1000.0
_TITLE = "EN 1991-1-4"


@dataclass(frozen=True)
class Roughness:
    """One terrain category.

    Attributes:
        z0_m: Roughness length.
        zmin_m: Height below which nothing changes.
        meaning: In words.
        source: Where it is tabled.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    z0_m: float
    zmin_m: float
    meaning: str
    source: str
    status: str


@dataclass(frozen=True)
class PeakPressure:
    """The peak velocity pressure and how it comes about.

    Attributes:
        qp_pa: At the reference height.
        steps: In the standard's order.
    """

    qp_pa: float
    steps: tuple[Step, ...]


def roughness(terrain: str) -> Roughness:
    """The terrain category of that name.

    >>> roughness("III").z0_m
    0.3
    """
    return _terrains()[terrain]


@lru_cache(maxsize=64)
def peak_pressure(site: En1991Site) -> PeakPressure:
    """Peak velocity pressure qp(ze).

    Args:
        site: What was entered of the place; vb and ze must be.

    Raises:
        InputError: vb or ze isn't entered, or ze is above 200 m.
    """
    vb = step.asked(
        site.basic_speed_m_s,
        "basic wind velocity",
        "take vb from the national annex to EN 1991-1-4",
    )
    ze_mm = reference_height_mm(site)
    ground = roughness(site.terrain)
    rho = step.chosen(_step("air_density", "rho", "kg/m3"), site.air_density_kg_m3)
    co = step.chosen(_step("orography", "co"), site.orography)
    ki = step.chosen(_step("turbulence", "kI"), site.turbulence)
    z_m = max(ze_mm / _MM_PER_M, ground.zmin_m)
    kr = terrain_factor(ground.z0_m)
    cr = kr * math.log(z_m / ground.z0_m)
    vm = cr * co.value * vb
    iv = ki.value / (co.value * math.log(z_m / ground.z0_m))
    qb = 0.5 * rho.value * vb**2
    qp = (1 + constant("en1991", "peak_factor").value * iv) * 0.5 * rho.value * vm**2
    return PeakPressure(
        qp,
        (
            step.given("vb", vb, "m/s", "basic wind velocity"),
            rho,
            _worked("qb", qb, "Pa", "basic velocity pressure, rho vb²/2", "Eq. 4.10"),
            step.given("ze", ze_mm, "mm", "reference height: that of the building"),
            *_ground_steps(site.terrain, ground, z_m),
            _worked("kr", kr, "", "terrain factor, 0.19 (z0 / 0.05 m)^0.07", "Eq. 4.5"),
            _worked("cr", cr, "", "roughness factor, kr ln(z / z0)", "Eq. 4.4"),
            co,
            _worked("vm", vm, "m/s", "mean wind velocity, cr co vb", "Eq. 4.3"),
            ki,
            _worked("Iv", iv, "", "turbulence, kI / (co ln(z / z0))", "Eq. 4.7"),
            _worked("qp", qp, "Pa", "peak velocity pressure, (1 + 7 Iv) rho vm²/2", "Eq. 4.8"),
            _worked("ce", qp / qb, "", "exposure factor, qp / qb", "Eq. 4.9"),
        ),
    )


def reference_height_mm(site: En1991Site) -> float:
    """The reference height ze, if the profile holds there.

    Raises:
        InputError: It isn't entered, or is above 200 m.
    """
    ze_mm = step.asked(
        site.reference_height_mm,
        "reference height",
        "enter the building's height above ground, not the sign's",
    )
    greatest = constant("en1991", "greatest_height")
    if ze_mm > greatest.mm * (1 + 1e-9):
        raise InputError(
            f"{ze_mm / _MM_PER_M:.4g} m is above {greatest.length}, where the profile of the "
            "wind no longer holds",
            where="reference height",
            remedy="have an engineer give the pressure, and enter it",
        )
    return ze_mm


def terrain_factor(z0_m: float) -> float:
    """Terrain factor kr = 0.19 (z0 / z0,II)^0.07 (Eq. 4.5).

    >>> round(terrain_factor(0.003), 3)
    0.156
    """
    base, exponent = constant("en1991", "terrain_base"), constant("en1991", "terrain_exponent")
    return float(base.value * (z0_m / roughness("II").z0_m) ** exponent.value)


def _ground_steps(terrain: str, ground: Roughness, z_m: float) -> tuple[Step, ...]:
    said = f"terrain {terrain}, {ground.meaning}"
    z0_mm, z_mm = ground.z0_m * _MM_PER_M, z_m * _MM_PER_M
    at_least = f"height reckoned with, not below {ground.zmin_m:g} m"
    return (
        Step("z0", z0_mm, "mm", f"roughness length, {said}", ground.source, ground.status),
        Step("z", z_mm, "mm", at_least, ground.source, ground.status),
    )


def _step(name: str, symbol: str, unit: str = "") -> Step:
    row = constant("en1991", name)
    return Step(symbol, row.value, unit, row.note, row.source, row.status)


def _worked(symbol: str, value: float, unit: str, meaning: str, clause: str) -> Step:
    return Step(symbol, value, unit, meaning, f"{_TITLE} {clause}", "P")


@cache
def _terrains() -> dict[str, Roughness]:
    return {
        row["terrain"]: Roughness(
            float(row["z0_m"]), float(row["zmin_m"]), row["meaning"], row["source"], row["status"]
        )
        for row in resources.table("en1991_terrain")
    }
