"""Stud: what it is made of, and what its thread leaves of it."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from holeplacer import resources

_SAME_MM = 0.02
"""Diameters nearer than this are the same stud: 4.83 mm is a #10."""


@dataclass(frozen=True)
class StudMaterial:
    """What studs and screws are made of.

    Attributes:
        name: What a plan calls it.
        title: For reading.
        yield_mpa: Yield stress or 0.2 % proof stress.
        ultimate_mpa: Tensile strength.
        elastic_mpa: Modulus of elasticity.
        source: Where the figures come from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    name: str
    title: str
    yield_mpa: float
    ultimate_mpa: float
    elastic_mpa: float
    source: str
    status: str


@dataclass(frozen=True)
class Thread:
    """A coarse thread.

    Attributes:
        stud: Trade name, such as `M6` or `1/4 in`; empty for a stud of no tabled diameter.
        stud_mm: Nominal diameter d.
        root_mm: Diameter at the thread's root.
        stress_area_mm2: Area that carries tension.
        source: Where pitch and formulas come from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    stud: str
    stud_mm: float
    root_mm: float
    stress_area_mm2: float
    source: str
    status: str


@cache
def stud_materials() -> tuple[StudMaterial, ...]:
    """Every material, in the table's order."""
    return tuple(
        StudMaterial(
            name=row["material"],
            title=row["title"],
            yield_mpa=float(row["yield_mpa"]),
            ultimate_mpa=float(row["ultimate_mpa"]),
            elastic_mpa=float(row["elastic_mpa"]),
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("studs")
    )


def stud_material(name: str) -> StudMaterial:
    """The material of that name.

    Raises:
        InputError: There is none.
    """
    return resources.by_name(stud_materials(), name, "stud material")


@cache
def threads() -> tuple[Thread, ...]:
    """Every coarse thread, by rising diameter.

    Root d - 1.22687 P and stress area pi/4 (d - 0.9382 P)^2: ISO 898-1 (from memory). The root of
    1/4 in with 20 threads to the inch comes out at 0.1887 in.
    """
    return tuple(
        sorted(map(_thread, resources.table("threads")), key=lambda thread: thread.stud_mm)
    )


def thread(stud_mm: float) -> Thread:
    """The coarse thread of a stud; of one between the rows, the least share that any row leaves.

    Args:
        stud_mm: Nominal diameter, more than nothing.

    >>> round(thread(6.35).root_mm / 25.4, 4)
    0.1887
    """
    near = min(threads(), key=lambda row: abs(row.stud_mm - stud_mm))
    if abs(near.stud_mm - stud_mm) <= _SAME_MM:
        return near
    root = min(row.root_mm / row.stud_mm for row in threads())
    area = min(row.stress_area_mm2 / row.stud_mm**2 for row in threads())
    return Thread(
        stud="",
        stud_mm=stud_mm,
        root_mm=root * stud_mm,
        stress_area_mm2=area * stud_mm**2,
        source="least share of any coarse thread; measure the stud at hand",
        status="R",
    )


def _thread(row: Mapping[str, str]) -> Thread:
    d, pitch = float(row["stud_mm"]), float(row["pitch_mm"])
    return Thread(
        stud=row["stud"],
        stud_mm=d,
        root_mm=d - 1.22687 * pitch,
        stress_area_mm2=math.pi / 4 * (d - 0.9382 * pitch) ** 2,
        source=row["source"],
        status=row["status"],
    )
