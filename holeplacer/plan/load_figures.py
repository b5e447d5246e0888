"""Load figures: what the figures of a loading can be at all, whoever or whatever gave them."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from holeplacer.errors import InputError
from holeplacer.loads.loading import Loading, Temperature

_HEIGHT = (0.0, 1e6)
_SPEED = (0.1, 150.0)
_COEFFICIENT = (0.0, 10.0)
_FORCE = (0.0, 1e7)

RANGES: dict[str, tuple[str, float, float]] = {
    "pressure_out_pa": ("pressure off the wall", 0.0, 1e5),
    "pressure_in_pa": ("pressure on to the wall", 0.0, 1e5),
    "least_pressure_pa": ("least pressure", 0.0, 1e5),
    "effective_area_mm2": ("effective wind area", 1.0, 1e12),
    "basic_speed_m_s": ("basic wind speed", *_SPEED),
    "roof_height_mm": ("roof height", 1.0, 1e6),
    "sign_height_mm": ("height of the sign", *_HEIGHT),
    "corner_distance_mm": ("distance from the corner", *_HEIGHT),
    "least_width_mm": ("least width of the building", 1.0, 1e7),
    "ground_elevation_mm": ("ground elevation", -1e6, 1e7),
    "reference_height_mm": ("reference height", 1.0, 1e6),
    "height_to_depth": ("height of the building over its depth", 0.01, 100.0),
    "air_density_kg_m3": ("air density", 0.5, 2.0),
    "kz": ("Kz", 0.01, 10.0),
    "kzt": ("Kzt", 0.01, 10.0),
    "kd": ("Kd", 0.01, 10.0),
    "ke": ("Ke", 0.01, 10.0),
    "gcp_out": ("GCp off the wall", *_COEFFICIENT),
    "gcp_in": ("GCp on to the wall", *_COEFFICIENT),
    "gcpi": ("GCpi", *_COEFFICIENT),
    "orography": ("orography factor", 0.1, 10.0),
    "turbulence": ("turbulence factor", 0.1, 10.0),
    "cpe_out": ("cpe off the wall", *_COEFFICIENT),
    "cpe_in": ("cpe on to the wall", *_COEFFICIENT),
    "wind_factor": ("wind factor", 0.1, 10.0),
    "lowest_c": ("lowest temperature", -100.0, 300.0),
    "highest_c": ("highest temperature", -100.0, 300.0),
    "installation_c": ("temperature at installation", -100.0, 300.0),
    "handling_factor": ("handling factor", 1.0, 100.0),
    "deflection_limit_mm": ("deflection limit", 1e-3, 1e4),
    "deflection_ratio": ("span to deflection", 1.0, 1e5),
    "overhang_ratio": ("overhang to deflection", 1.0, 1e5),
    "tension_n": ("anchor's tension", *_FORCE),
    "shear_n": ("anchor's shear", *_FORCE),
    "diameter_mm": ("screw diameter", 0.5, 100.0),
    "thread_mm": ("thread in the wood", 0.0, 1e3),
    "specific_gravity": ("specific gravity of the wood", 0.1, 1.5),
    "load_duration": ("load duration factor", 0.1, 10.0),
}
"""Name for a person, least and greatest, by the field of `loads.loading` and of its parts."""

Ranged = tuple[str, float | None, float, float]


def figures(loading: Loading) -> Iterator[Ranged]:
    """Every figure of a loading with its name and what it may be."""
    yield from _of(loading)


def check_temperatures(temperature: Temperature) -> None:
    """The temperature at installation lies between the lowest and the highest.

    Raises:
        InputError: It doesn't.
    """
    low, high = temperature.lowest_c, temperature.highest_c
    if not low <= temperature.installation_c <= high:
        raise InputError(
            f"{temperature.installation_c:g} °C at installation is not between the lowest, "
            f"{low:g} °C, and the highest, {high:g} °C",
            where="temperature",
            remedy="change one of the three",
        )


def _of(part: Any) -> Iterator[Ranged]:
    for field in fields(part):
        value = getattr(part, field.name)
        if is_dataclass(value):
            yield from _of(value)
        elif field.name in RANGES:
            name, least, most = RANGES[field.name]
            yield name, value, least, most
