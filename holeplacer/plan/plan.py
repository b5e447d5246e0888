"""Plan: everything the person decided, one immutable value, one file."""

from dataclasses import asdict, dataclass, field

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.plan.hole import Boss, Hole
from holeplacer.plan.limits import Limits
from holeplacer.standoffs.standoff import Standoff


@dataclass(frozen=True)
class SheetChoice:
    """The sheet the sign is cut from.

    Attributes:
        metal: Name in `resources/tables/gauges.csv`: `steel`, `galvanized`, `stainless`,
            `aluminium`.
        gauge: Gauge number of that metal, or None where a thickness was entered.
        thickness_mm: What the rules reckon with.
        process: Name in `resources/tables/processes.csv`.
    """

    metal: str = "steel"
    gauge: int | None = 16
    thickness_mm: float = 1.519
    process: str = "plasma"


@dataclass(frozen=True)
class StandoffChoice:
    """Barrel, stud, cap and washers that hold the sheet off the wall.

    Attributes:
        name: Name in `resources/tables/standoffs.csv`, or `own`.
        stud_mm: Diameter of the stud.
        hole_mm: Diameter of the hole in the sheet.
        barrel_mm: Diameter of the barrel behind the sheet.
        cap_mm: Diameter of the visible cap; 0 without one.
        washer_mm: Diameter of the washer that must bear on metal all round; 0 without one.
        projection_mm: Wall to back of sheet.
    """

    name: str = "1 in, 1/4 stud"
    stud_mm: float = 6.35
    hole_mm: float = 7.144
    barrel_mm: float = 12.7
    cap_mm: float = 12.7
    washer_mm: float = 0.0
    projection_mm: float = 25.4

    @classmethod
    def of(cls, hardware: Standoff) -> "StandoffChoice":
        """The choice of hardware from the table, or of what follows from a hole."""
        return cls(**asdict(hardware))


@dataclass(frozen=True)
class Plan:
    """The whole of what was decided; every figure the program shows is computed from it.

    Attributes:
        artwork: The customer's file, whole.
        reading: How it is read: units, layers, size, level.
        sheet: Metal, thickness, process.
        standoff: Hardware and hole diameter.
        limits: The rules' limits.
        offset_mm: All strokes made fatter by this much on every side (negative: thinner).
        bosses: Local swellings.
        holes: In order of number.
    """

    artwork: ArtworkFile
    reading: ReadOptions = field(default_factory=ReadOptions)
    sheet: SheetChoice = field(default_factory=SheetChoice)
    standoff: StandoffChoice = field(default_factory=StandoffChoice)
    limits: Limits = field(default_factory=Limits)
    offset_mm: float = 0.0
    bosses: tuple[Boss, ...] = ()
    holes: tuple[Hole, ...] = ()

    def diameter_of(self, hole: Hole) -> float:
        """The hole's own diameter, or else the plan's, mm."""
        return self.standoff.hole_mm if hole.diameter_mm is None else hole.diameter_mm
