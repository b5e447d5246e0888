"""Validity: what a loading's figures can be at all, whatever file or person they come from.

A figure of the place that is missing is no fault here: a plan in the making may be saved without
it. It is asked for when the pressure is wanted.
"""

from collections.abc import Iterator
from functools import lru_cache

from holeplacer.errors import InputError
from holeplacer.loads.degrees import COLDEST_C, HOTTEST_C
from holeplacer.loads.force import LARGEST_N
from holeplacer.loads.loading import Asce7Site, En1991Site, Loading, Temperature, WallFixing
from holeplacer.loads.pressure import LARGEST_PA
from holeplacer.loads.speed import LARGEST_M_S

Ranged = tuple[str, float | None, float, float]
"""Name, figure (None: not entered), least, greatest."""

_HIGHEST_MM = 1e6
_LEAST_PA = 0.01


def checked(loading: Loading) -> Loading:
    """The loading itself, if all its figures can be meant.

    Raises:
        InputError: One can't; the sentence names it, its value and what it may be.
    """
    _check(loading)
    return loading


@lru_cache(maxsize=64)
def _check(loading: Loading) -> None:
    # Remembered: the same loading is asked about for every standoff.
    for name, value, least, most in _figures(loading):
        if value is not None and not least <= value <= most:
            raise InputError(
                f"{value:g} is not possible",
                where=name,
                remedy=f"it must be from {least:g} to {most:g}",
            )
    _check_order(loading.temperature)


def _figures(loading: Loading) -> Iterator[Ranged]:
    yield "pressure off the wall (Pa)", loading.pressure_out_pa, _LEAST_PA, LARGEST_PA
    yield "pressure on to the wall (Pa)", loading.pressure_in_pa, 0.0, LARGEST_PA
    yield "effective area (mm²)", loading.effective_area_mm2, 1.0, 1e12
    yield "factor on the wind", loading.wind_factor, 0.1, 10.0
    yield "handling factor", loading.handling_factor, 1.0, 10.0
    yield "deflection limit (mm)", loading.deflection_limit_mm, 1e-3, 1e5
    yield "deflection ratio", loading.deflection_ratio, 1.0, 1e5
    yield "overhang ratio", loading.overhang_ratio, 1.0, 1e5
    yield from _asce7_figures(loading.asce7)
    yield from _en1991_figures(loading.en1991)
    yield from _temperature_figures(loading.temperature)
    yield from _fixing_figures(loading.fixing)


def _asce7_figures(site: Asce7Site) -> Iterator[Ranged]:
    yield "basic wind speed (m/s)", site.basic_speed_m_s, 1.0, LARGEST_M_S
    yield "mean roof height (mm)", site.roof_height_mm, 100.0, _HIGHEST_MM
    yield "height of the sign (mm)", site.sign_height_mm, 0.0, _HIGHEST_MM
    yield "distance from the corner (mm)", site.corner_distance_mm, 0.0, _HIGHEST_MM
    yield "least width of the building (mm)", site.least_width_mm, 100.0, _HIGHEST_MM
    yield "ground elevation (mm)", site.ground_elevation_mm, -1e6, 1e7
    yield "Kz", site.kz, 0.1, 10.0
    yield "Kzt", site.kzt, 0.1, 10.0
    yield "Kd", site.kd, 0.1, 1.0
    yield "Ke", site.ke, 0.1, 2.0
    yield "GCp off the wall", site.gcp_out, 0.0, 10.0
    yield "GCp on to the wall", site.gcp_in, 0.0, 10.0
    yield "GCpi", site.gcpi, 0.0, 2.0
    yield "least pressure (Pa)", site.least_pressure_pa, 0.0, LARGEST_PA


def _en1991_figures(site: En1991Site) -> Iterator[Ranged]:
    yield "basic wind velocity (m/s)", site.basic_speed_m_s, 1.0, LARGEST_M_S
    yield "reference height (mm)", site.reference_height_mm, 100.0, _HIGHEST_MM
    yield "height over depth", site.height_to_depth, 0.01, 100.0
    yield "density of air (kg/m³)", site.air_density_kg_m3, 0.5, 2.0
    yield "co", site.orography, 0.1, 10.0
    yield "kI", site.turbulence, 0.1, 10.0
    yield "cpe off the wall", site.cpe_out, 0.0, 10.0
    yield "cpe on to the wall", site.cpe_in, 0.0, 10.0


def _temperature_figures(temperature: Temperature) -> Iterator[Ranged]:
    yield "lowest temperature (°C)", temperature.lowest_c, COLDEST_C, HOTTEST_C
    yield "highest temperature (°C)", temperature.highest_c, COLDEST_C, HOTTEST_C
    yield "temperature at installation (°C)", temperature.installation_c, COLDEST_C, HOTTEST_C


def _fixing_figures(fixing: WallFixing) -> Iterator[Ranged]:
    yield "allowable tension (N)", fixing.tension_n, 1e-3, LARGEST_N
    yield "allowable shear (N)", fixing.shear_n, 1e-3, LARGEST_N
    screw = fixing.screw
    if screw is not None:
        yield "screw diameter (mm)", screw.diameter_mm, 0.5, 100.0
        yield "length of thread (mm)", screw.thread_mm, 0.5, 2000.0
        yield "specific gravity", screw.specific_gravity, 0.1, 1.5
        yield "load duration factor", screw.load_duration, 0.5, 2.0


def _check_order(temperature: Temperature) -> None:
    if not temperature.lowest_c <= temperature.installation_c <= temperature.highest_c:
        raise InputError(
            f"{temperature.lowest_c:g}, {temperature.installation_c:g} and "
            f"{temperature.highest_c:g} °C do not rise",
            where="temperatures",
            remedy="the lowest comes first, that at installation between, the highest last",
        )
