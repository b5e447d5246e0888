"""Cutting process: its kerf, and the least hole and ligament it can leave."""

from dataclasses import dataclass
from functools import cache

import numpy as np

from holeplacer import resources


@dataclass(frozen=True)
class Process:
    """One way of cutting sheet.

    Attributes:
        name: `plasma`, `laser`, `waterjet`, `router` or `hand`.
        title: For reading.
        kerf_points: (thickness, kerf) in mm, by rising thickness.
        hole_factor: Least hole diameter by sheet thickness.
        hole_kerfs: Least hole diameter by kerf.
        hole_mm: Least hole diameter at any thickness; None where every hole is drilled.
        ligament_factor: Least ligament by sheet thickness.
        ligament_mm: Least ligament at any thickness.
        pierce_kerfs: Least clearance of a pierce, by kerf.
        pierce_mm: Least clearance of a pierce at any kerf.
        tolerance_class: Class of ISO 9013 that its cuts usually keep; None outside that standard.
        source: Where the figures come from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    name: str
    title: str
    kerf_points: tuple[tuple[float, float], ...]
    hole_factor: float
    hole_kerfs: float
    hole_mm: float | None
    ligament_factor: float
    ligament_mm: float
    pierce_kerfs: float
    pierce_mm: float
    tolerance_class: int | None
    source: str
    status: str

    def kerf_mm(self, thickness_mm: float) -> float:
        """Width of the cut: linear between the table's points, constant beyond them."""
        at, kerf = np.array(self.kerf_points).T
        return float(np.interp(thickness_mm, at, kerf))

    def least_hole_mm(self, thickness_mm: float) -> float | None:
        """Smallest diameter it cuts cleanly; None where every hole is drilled."""
        if self.hole_mm is None:
            return None
        return max(
            self.hole_mm,
            self.hole_factor * thickness_mm,
            self.hole_kerfs * self.kerf_mm(thickness_mm),
        )

    def least_ligament_mm(self, thickness_mm: float) -> float:
        """Narrowest metal it leaves sound between two cuts."""
        return max(self.ligament_mm, self.ligament_factor * thickness_mm)

    def pierce_clearance_mm(self, thickness_mm: float) -> float:
        """Least distance from a pierce's centre to metal that stays."""
        return max(self.pierce_mm, self.pierce_kerfs * self.kerf_mm(thickness_mm))


@cache
def processes() -> tuple[Process, ...]:
    """Every process, in the table's order."""
    return tuple(
        Process(
            name=row["process"],
            title=row["title"],
            kerf_points=_kerf_points(row["kerf_mm"]),
            hole_factor=float(row["hole_factor"]),
            hole_kerfs=float(row["hole_kerfs"]),
            hole_mm=float(row["hole_mm"]) if row["hole_mm"] else None,
            ligament_factor=float(row["ligament_factor"]),
            ligament_mm=float(row["ligament_mm"]),
            pierce_kerfs=float(row["pierce_kerfs"]),
            pierce_mm=float(row["pierce_mm"]),
            tolerance_class=int(row["tolerance_class"]) if row["tolerance_class"] else None,
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("processes")
    )


def process(name: str) -> Process:
    """The process of that name.

    Raises:
        InputError: There is none.
    """
    return resources.by_name(processes(), name, "cutting process")


def _kerf_points(text: str) -> tuple[tuple[float, float], ...]:
    pairs = (pair.split(":") for pair in text.split())
    return tuple((float(thickness), float(kerf)) for thickness, kerf in pairs)
