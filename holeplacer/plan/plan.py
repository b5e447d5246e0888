"""Plan: everything the person decided, one immutable value, one file."""

from dataclasses import asdict, dataclass, field, replace

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.loads.loading import Loading
from holeplacer.plan.hole import Boss, Hole
from holeplacer.plan.laid import LaidSection
from holeplacer.plan.limits import Limits
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.sheet import metal
from holeplacer.sheet.metal import Metal
from holeplacer.standoffs.clearance_hole import Fit
from holeplacer.standoffs.standoff import Standoff
from holeplacer.wall.wall import Wall


@dataclass(frozen=True)
class SheetChoice:
    """The sheet the sign is cut from.

    Attributes:
        metal: Name in `resources/tables/metals.csv`, or the own metal's.
        gauge: Gauge number of that metal, or None where a thickness was entered.
        thickness_mm: What the rules reckon with.
        process: Name in `resources/tables/processes.csv`.
        finish: Name in `resources/tables/finishes.csv`, or `entered`.
        finish_mm: Thickness of the finish on every side it covers.
        own_metal: A metal of the person's own, by value, so that the plan can be read anywhere.
    """

    metal: str = "steel"
    gauge: int | None = 16
    thickness_mm: float = 1.519
    process: str = "plasma"
    finish: str = "bare"
    finish_mm: float = 0.0
    own_metal: Metal | None = None

    @property
    def material(self) -> Metal:
        """The metal with all its figures: the own one, or the table's.

        Raises:
            InputError: The table has no metal of that name.
        """
        return metal.metal(self.metal) if self.own_metal is None else self.own_metal


@dataclass(frozen=True)
class StandoffChoice(Standoff):
    """Barrel, stud, cap and washers that hold the sheet off the wall, and how the stud fits.

    Attributes:
        fit: How freely the stud passes its hole: `close`, `normal`, `loose`, or `entered`.
        clearance_mm: Hole less stud where the fit is entered; before finish and movement.
    """

    name: str = "1 in, 1/4 stud"
    stud_mm: float = 6.35
    hole_mm: float = 7.144
    barrel_mm: float = 12.7
    cap_mm: float = 12.7
    washer_mm: float = 0.0
    projection_mm: float = 25.4
    fit: Fit = "normal"
    clearance_mm: float = 0.8

    def with_hardware(self, hardware: Standoff) -> "StandoffChoice":
        """Other hardware, the fit as decided before."""
        return replace(self, **asdict(hardware))

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
        loading: Wind, weight, temperature, and what they may cause.
        seams: Where the sign is divided.
        sections: Sheets at hand, and how the sign is divided onto them.
        laid: Where sections lie on sheets, once one was moved by hand; else they are laid out
            anew each time.
        wall: What it hangs on, and where.
    """

    artwork: ArtworkFile
    reading: ReadOptions = field(default_factory=ReadOptions)
    sheet: SheetChoice = field(default_factory=SheetChoice)
    standoff: StandoffChoice = field(default_factory=StandoffChoice)
    limits: Limits = field(default_factory=Limits)
    offset_mm: float = 0.0
    bosses: tuple[Boss, ...] = ()
    holes: tuple[Hole, ...] = ()
    loading: Loading = field(default_factory=Loading)
    seams: tuple[Seam, ...] = ()
    sections: SectionsChoice = field(default_factory=SectionsChoice)
    wall: Wall = field(default_factory=Wall)
    laid: tuple[LaidSection, ...] = ()

    def diameter_of(self, hole: Hole) -> float:
        """The hole's own diameter, or else the plan's, mm."""
        return self.standoff.hole_mm if hole.diameter_mm is None else hole.diameter_mm
