"""Velocity pressure of ASCE 7: what the wind carries at the mean roof height.

7-16, Eq. 26.10-1: qz = 0.00256 Kz Kzt Kd Ke V2 (psf, mph). In 7-22 Kd moves from here to the
pressure's equation (30.3): the product is the same, and Kd counts once.
"""

import math
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from holeplacer import resources
from holeplacer.errors import InputError
from holeplacer.loads import step
from holeplacer.loads.constant import constant
from holeplacer.loads.loading import Asce7Site
from holeplacer.loads.pressure import PA_PER_PSF
from holeplacer.loads.speed import M_S_PER_MPH
from holeplacer.loads.step import Step

Edition = Literal["asce7-16", "asce7-22"]

TITLES: dict[Edition, str] = {"asce7-16": "ASCE 7-16", "asce7-22": "ASCE 7-22"}

_MM_PER_FT = 304.8


@dataclass(frozen=True)
class _Exposure:
    factor: float
    alpha: float
    zg_ft: float
    source: str
    status: str


@dataclass(frozen=True)
class VelocityPressure:
    """The velocity pressure and how it comes about.

    Attributes:
        qh_pa: Velocity pressure at mean roof height; in 7-16 with Kd, in 7-22 without.
        kd_later: Kd that is still to be counted: 1 in 7-16, Kd in 7-22.
        steps: In the standard's order, qh last (7-22: Kd after it).
    """

    qh_pa: float
    kd_later: float
    steps: tuple[Step, ...]


@lru_cache(maxsize=64)
def velocity_pressure(site: Asce7Site, edition: Edition) -> VelocityPressure:
    """Velocity pressure at mean roof height h.

    Args:
        site: What was entered of the place; V and h must be.
        edition: Whose equation.

    Raises:
        InputError: V or h isn't entered, or h is above 60 ft.
    """
    v_m_s = step.asked(
        site.basic_speed_m_s,
        "basic wind speed",
        "take V from the map of ASCE 7 for the risk category, or ask the building office",
    )
    kz, kzt = kz_step(site, edition), _kzt_step(site)
    kd, ke = step.chosen(constant("asce7", "kd").step("Kd", "directionality"), site.kd), _ke(site)
    v_mph = v_m_s / M_S_PER_MPH
    plain_psf = constant("asce7", "pressure_factor").value * kz.value * kzt.value * ke.value
    plain_psf *= v_mph**2
    before = (
        step.given("V", v_m_s, "m/s", "basic wind speed, strength level"),
        step.given("h", roof_height_mm(site), "mm", "mean roof height"),
        kz,
        kzt,
    )
    if edition == "asce7-22":
        qh = _qh_step(plain_psf, "0.00256 Kz Kzt Ke V²", edition)
        return VelocityPressure(qh.value, kd.value, (*before, ke, qh, kd))
    qh = _qh_step(plain_psf * kd.value, "0.00256 Kz Kzt Kd Ke V²", edition)
    return VelocityPressure(qh.value, 1.0, (*before, kd, ke, qh))


def roof_height_mm(site: Asce7Site) -> float:
    """The mean roof height, if this reckoning holds for it.

    Raises:
        InputError: It isn't entered, or is above 60 ft.
    """
    h_mm = step.asked(
        site.roof_height_mm, "mean roof height", "enter the height of eave and ridge, halved"
    )
    greatest = constant("asce7", "greatest_roof_height")
    if h_mm > greatest.mm * (1 + 1e-9):
        raise InputError(
            f"{h_mm / _MM_PER_FT:.4g} ft is above {greatest.length}, where walls have other "
            "coefficients",
            where="mean roof height",
            remedy="have a licensed engineer give the pressure, and enter it",
        )
    return h_mm


def kz_by_formula(z_mm: float, exposure: str, edition: Edition) -> float:
    """Kz = factor (z / zg)^(2 / alpha), z not below 15 ft (Table 26.10-1).

    Args:
        z_mm: Height above ground.
        exposure: `B`, `C` or `D`.
        edition: 7-22 has other constants.

    >>> round(kz_by_formula(30 * 304.8, "C", "asce7-16"), 3)
    0.982
    """
    row = _exposures()[edition, exposure]
    z_ft = max(z_mm / _MM_PER_FT, constant("asce7", "least_height").value)
    return float(row.factor * (z_ft / row.zg_ft) ** (2 / row.alpha))


def kz_step(site: Asce7Site, edition: Edition) -> Step:
    """Kz at the mean roof height; in Exposure B at least 0.70 unless the person wants it raw."""
    kz = kz_by_formula(roof_height_mm(site), site.exposure, edition)
    row = _exposures()[edition, site.exposure]
    meaning = (
        f"exposure {site.exposure} at h, {row.factor:g} (h/{row.zg_ft:g} ft)^(2/{row.alpha:g})"
    )
    source, status = row.source, row.status
    floor = constant("asce7", "exposure_b_floor")
    if site.exposure == "B" and kz < floor.value:
        if site.raw_exposure_b:
            meaning += f"; not raised to {floor.value:.2f}, as some do"
        else:
            meaning += f" = {kz:.3f}, raised to {floor.value:.2f}; some take the formula's"
            kz, source, status = floor.value, floor.source, floor.status
    return step.chosen(Step("Kz", kz, "", meaning, source, status), site.kz)


def _kzt_step(site: Asce7Site) -> Step:
    return step.chosen(constant("asce7", "kzt").step("Kzt", "hill, ridge or escarpment"), site.kzt)


def _ke(site: Asce7Site) -> Step:
    meaning = "ground elevation"
    if site.ground_elevation_mm is None:
        return step.chosen(constant("asce7", "ke").step("Ke", meaning), site.ke)
    rate = constant("asce7", "elevation_rate")
    ze_ft = site.ground_elevation_mm / _MM_PER_FT
    ke = math.exp(-rate.value * ze_ft)
    said = f"{meaning} {ze_ft:.4g} ft: {rate.note}"
    return step.chosen(Step("Ke", ke, "", said, rate.source, rate.status), site.ke)


def _qh_step(psf: float, formula: str, edition: Edition) -> Step:
    return Step(
        "qh",
        psf * PA_PER_PSF,
        "Pa",
        f"velocity pressure, {formula} (psf, mph)",
        f"{TITLES[edition]} Eq. 26.10-1",
        constant("asce7", "pressure_factor").status,
    )


@cache
def _exposures() -> dict[tuple[str, str], _Exposure]:
    return {
        (row["edition"], row["exposure"]): _Exposure(
            float(row["factor"]),
            float(row["alpha"]),
            float(row["zg_ft"]),
            row["source"],
            row["status"],
        )
        for row in resources.table("asce7_exposure")
    }
